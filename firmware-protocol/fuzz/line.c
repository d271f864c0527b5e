#include "line.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void broken(const char *what) {
  fprintf(stderr, "broken: %s\n", what);
  abort();
}

/* Bit by bit as SPEC.md has it, kept for each byte: the campaign has a hundred million inputs. */
uint32_t plain_crc(const uint8_t *bytes, size_t n) {
  static uint32_t of_byte[256];
  uint32_t crc = 0xffffffffu;
  size_t i;
  int bit;
  if (of_byte[1] == 0)
    for (i = 0; i < 256; i++) {
      of_byte[i] = (uint32_t)i;
      for (bit = 0; bit < 8; bit++) of_byte[i] = of_byte[i] >> 1 ^ (of_byte[i] & 1u ? 0x82f63b78u : 0u);
    }
  for (i = 0; i < n; i++) crc = crc >> 8 ^ of_byte[(crc ^ bytes[i]) & 255u];
  return ~crc;
}

void expect_line(const uint8_t *bytes, size_t n) {
  char check[10];
  size_t i;
  if (n == 1 && bytes[0] == '\n') return;
  if (n < 12 || n > SB_MAX_LINE) broken("length of a line");
  if (bytes[n - 1] != '\n' || bytes[n - 10] != ',' || bytes[1] != ',') broken("frame of a line");
  if (bytes[0] < 'A' || bytes[0] > 'Z') broken("letter of a line");
  for (i = 0; i + 1 < n; i++)
    if (bytes[i] < 0x20 || bytes[i] > 0x7e) broken("byte that is no text");
  snprintf(check, sizeof check, "%08lx", (unsigned long)plain_crc(bytes, n - 9));
  if (memcmp(check, bytes + n - 9, 8) != 0) broken("check of a line");
}

const char *field(const uint8_t **at, char text[SB_MAX_LINE]) {
  size_t n = 0;
  while (**at != ',' && **at != '\n' && n + 1 < SB_MAX_LINE) text[n++] = (char)*(*at)++;
  if (**at != ',') broken("field without comma");
  (*at)++;
  text[n] = 0;
  return text;
}

int64_t number(const uint8_t **at, int64_t lo, int64_t hi) {
  char text[SB_MAX_LINE], again[24];
  long long value;
  field(at, text);
  value = strtoll(text, NULL, 10);
  snprintf(again, sizeof again, "%lld", value);
  if (strcmp(text, again) != 0) broken("number in another form");
  if (value < lo || value > hi) broken("number out of range");
  return value;
}
