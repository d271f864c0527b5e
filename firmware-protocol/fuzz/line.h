/* What every line of a device must be, whatever is in it: SPEC.md, part 1. */
#ifndef LINE_H
#define LINE_H
#include "../c/steadybar.h"
#include <stddef.h>

/* CRC-32C bit by bit: shares nothing with the table of the library. */
uint32_t plain_crc(const uint8_t *bytes, size_t n);

/* Aborts unless bytes[0..n) are one whole line: letter, printable, at most SB_MAX_LINE, right check, LF; or the LF of a start. */
void expect_line(const uint8_t *bytes, size_t n);

/* Aborts with these words. */
void broken(const char *what);

/* The next field of a line that expect_line has taken, as text; `at` goes on behind its comma. */
const char *field(const uint8_t **at, char text[SB_MAX_LINE]);
/* The next field as a number in its one form, within these bounds; aborts where it is none. */
int64_t number(const uint8_t **at, int64_t lo, int64_t hi);

#endif
