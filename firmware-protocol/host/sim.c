/* What the parts of the host program share: the state, its clock, the limit's memory and the start of the device. */
#define _POSIX_C_SOURCE 200809L
#include "sim.h"
#include <string.h>
#include <time.h>

struct sim sim;

static uint8_t record[SB_RECORD];

int64_t now_ns(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (int64_t)t.tv_sec * 1000000000 + t.tv_nsec;
}

uint32_t tick_at(int64_t ns) {
  /* The options shift the first start only: a reset counts from 0. */
  const uint32_t first = sim.boots == 1 ? sim.options.tick0 : 0;
  return (uint32_t)(first + (uint64_t)((ns - sim.boot_ns) / 100000));
}

static int8_t load(void *context, uint8_t out[SB_RECORD]) {
  (void)context;
  if (sim.options.store != NULL) {
    FILE *f = fopen(sim.options.store, "rb");
    memset(record, 0, sizeof record);
    if (f != NULL) {
      if (fread(record, 1, sizeof record, f) != sizeof record) memset(record, 0, sizeof record);
      fclose(f);
    }
  }
  memcpy(out, record, SB_RECORD);
  return 0;
}

static int8_t save(void *context, const uint8_t in[SB_RECORD]) {
  (void)context;
  if (sim.save_fails) return -1;
  memcpy(record, in, SB_RECORD);
  if (sim.options.store != NULL) {
    FILE *f = fopen(sim.options.store, "wb");
    if (f == NULL) return -1;
    if (fwrite(record, 1, sizeof record, f) != sizeof record) {
      fclose(f);
      return -1;
    }
    if (fclose(f) != 0) return -1;
  }
  return 0;
}

void start_device(uint8_t cause) {
  static const struct sb_hooks HOOKS = {NULL, load, save};
  sim.boots++;
  sim.boot_ns = now_ns();
  sb_device_init(&sim.device, &sim.config, &HOOKS, (sim.options.seed * 2654435761u + sim.boots * 40503u) & 0xffffffffu, cause);
  sim.device.seq = sim.boots == 1 ? sim.options.seq0 : 0;
  sim.stream_rate = 0;
  sim.conversion = 0;
}
