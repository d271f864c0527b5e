/* State shared by the parts of the host program: sim.c (state, clock, start), wire.c (bytes), ops.c (stdin), device.c
   (sampling, loop). Each calls those before it only. */
#ifndef SIM_H
#define SIM_H
#include "options.h"
#include "port.h"
#include "world.h"
#include <stdio.h>

struct sim {
  struct options options;
  struct port port;
  struct world world;
  struct sb_device device;
  struct sb_config config;
  int save_fails;
  FILE *tap, *times;
  int64_t boot_ns, wake_ns;
  uint32_t boots;
  /* Sample n of a stream is due at stream_ns plus n periods: no rounding adds up. */
  int64_t stream_ns;
  uint32_t stream_n;
  uint16_t stream_rate;
  uint32_t conversion;
  int64_t deaf_until, silent_until, stalled_until;
  uint32_t swaps; /* pairs of lines that leave in the wrong order */
  uint64_t written, unheard;
  int wrong_speed; /* the host has set another speed than the device's */
};
extern struct sim sim;

int64_t now_ns(void);
uint32_t tick_at(int64_t ns);
/* The device starts anew; `cause` as in sb_device_init. */
void start_device(uint8_t cause);

/* Puts bytes on the wire as they are, also into the middle of a line. */
void emit(const uint8_t *bytes, size_t n);
void listen_to_host(int64_t now, int open_now);
void drain(int64_t now, int open_now);

/* Reads stdin and carries out whole lines. 0: the program ends. */
int operations(int64_t now, int open_now);
#endif
