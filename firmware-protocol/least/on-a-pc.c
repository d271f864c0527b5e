/* The least device on a PC, for trying and for the tests: the line is stdin and stdout, and the counts walk from 4 to 12 mA
   and back in 20 s. */
#define _POSIX_C_SOURCE 200809L
#include "least.h"
#include <poll.h>
#include <time.h>
#include <unistd.h>

static struct timespec began;

void put(char byte) {
  if (write(STDOUT_FILENO, &byte, 1) != 1) _exit(0); /* nobody listens any more */
}

int get(void) {
  struct pollfd f = {STDIN_FILENO, POLLIN, 0};
  uint8_t byte;
  if (poll(&f, 1, 1) < 1) return -1;
  if (read(STDIN_FILENO, &byte, 1) != 1) _exit(0);
  return byte;
}

uint32_t ticks(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  if (!began.tv_sec && !began.tv_nsec) began = t;
  return (uint32_t)((t.tv_sec - began.tv_sec) * 10000 + (t.tv_nsec - began.tv_nsec) / 100000);
}

uint32_t convert(void) {
  const uint32_t at = ticks() % 200000;
  return 6400 + (at < 100000 ? at : 200000 - at) * 12800 / 100000;
}

uint32_t boot_id(void) {
  return (uint32_t)began.tv_nsec ^ (uint32_t)getpid();
}
