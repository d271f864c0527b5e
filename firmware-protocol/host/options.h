#ifndef OPTIONS_H
#define OPTIONS_H
#include <stdint.h>

struct options {
  uint32_t baud, speed, seed, seq0, tick0;
  int channels, reset_on_open, bus_powered;
  const char *id, *serial, *vid, *pid, *store, *tap, *times;
};

/* 1, or 0 after saying on stderr what is wrong. */
int read_options(struct options *o, int argc, char **argv);
#endif
