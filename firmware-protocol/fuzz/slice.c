/* A driver for where there is no fuzzer: so many inputs made of the seeds by a seeded random, any C compiler.
   slice COUNT RANDOM-SEED FILE... */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

enum { MOST = 512, FILES = 400 };
static uint8_t seeds[FILES][MOST];
static size_t lengths[FILES];
static size_t files;

static uint64_t state;
static uint64_t draw(void) { /* splitmix64 */
  uint64_t x = state += UINT64_C(0x9e3779b97f4a7c15);
  x = (x ^ (x >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
  x = (x ^ (x >> 27)) * UINT64_C(0x94d049bb133111eb);
  return x ^ (x >> 31);
}
static size_t below(size_t n) { return n == 0 ? 0 : (size_t)(draw() % n); }

static size_t mutate(uint8_t *bytes, size_t n) {
  const size_t at = below(n);
  size_t length;
  switch (below(5)) {
    case 0: /* a bit */
      if (n > 0) bytes[at] ^= (uint8_t)(1u << below(8));
      return n;
    case 1: /* a byte */
      if (n > 0) bytes[at] = (uint8_t)draw();
      return n;
    case 2: /* a piece out */
      length = below(n - at);
      memmove(bytes + at, bytes + at + length, n - at - length);
      return n - length;
    case 3: /* a piece of another one in */
    {
      const size_t other = below(files);
      const size_t from = below(lengths[other]);
      length = below(lengths[other] - from) + 1;
      if (lengths[other] == 0 || n + length > MOST) return n;
      memmove(bytes + at + length, bytes + at, n - at);
      memcpy(bytes + at, seeds[other] + from, length);
      return n + length;
    }
    default: /* a digit becomes another one, or a comma */
      if (n > 0 && bytes[at] >= '0' && bytes[at] <= '9') bytes[at] = (uint8_t)",0123456789"[below(11)];
      return n;
  }
}

int main(int argc, char **argv) {
  unsigned long count, i;
  int f;
  if (argc < 4) return 2;
  count = strtoul(argv[1], NULL, 10);
  state = strtoul(argv[2], NULL, 10);
  for (f = 3; f < argc && files < FILES; f++) {
    FILE *in = fopen(argv[f], "rb");
    if (in == NULL) return 2;
    lengths[files] = fread(seeds[files], 1, MOST, in);
    fclose(in);
    LLVMFuzzerTestOneInput(seeds[files], lengths[files]);
    files++;
  }
  for (i = 0; i < count; i++) {
    uint8_t bytes[MOST];
    const size_t from = below(files);
    size_t n = lengths[from], changes = 1 + below(4);
    memcpy(bytes, seeds[from], n);
    while (changes-- > 0) n = mutate(bytes, n);
    LLVMFuzzerTestOneInput(bytes, n);
  }
  printf("%lu inputs\n", count + files);
  return 0;
}
