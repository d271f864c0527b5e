/* The least device of SPEC.md, part 8. What a board gives it, and what the board's main loop calls. */
#ifndef LEAST_H
#define LEAST_H
#include <stdint.h>

void put(char byte);           /* sends one byte, and waits until the wire has taken it */
int get(void);                 /* the next byte from the host, -1: none */
uint32_t ticks(void);          /* time since the start in units of 100 us */
uint32_t convert(void);        /* the newest counts of the transmitter: of this one never negative */
uint32_t boot_id(void);        /* another one after each start: a counter in non-volatile memory, or random */

void least(void); /* one turn of the main loop */

#endif
