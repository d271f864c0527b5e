/* What the tests of the C reference count by, and the sensor that they have. */
#ifndef CHECK_H
#define CHECK_H
#include <stdio.h>

static int passed, failed;
static void check(int good, const char *what, int line) {
  if (good) {
    passed++;
  } else {
    failed++;
    printf("FAILED line %d: %s\n", line, what);
  }
}
#define CHECK(c) check((c) != 0, #c, __LINE__)

/* The last line of a test, and what its main gives back. */
static int told(void) {
  printf("%d passed, %d failed\n", passed, failed);
  return failed != 0 || passed == 0;
}

/* 4000-36000 counts are 0-6 bar, 5333 a bar. */
enum { ZERO = 4000, SMALL = 4533, FLOOR = 3200, BAND = 107, BAR1 = 9333, BAR15 = 12000 };

#endif
