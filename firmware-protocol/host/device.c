/* The device on a pty, made from the C reference. Operations come on stdin, one line each, and are answered by one
   line each on stdout; README.md lists them. */
#define _POSIX_C_SOURCE 200809L
#include "sim.h"
#include <errno.h>
#include <string.h>
#include <time.h>

struct sim sim;

static uint8_t record[SB_RECORD];
/* Sample n of a stream is due at stream_ns plus n periods: no rounding adds up. */
static int64_t stream_ns;
static uint32_t stream_n;
static uint16_t stream_rate;
static uint32_t conversion;

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
  stream_rate = 0;
  conversion = 0;
}

/* Which channels have a new conversion at this sample: slow converters, and the supply, every so many ticks. */
static uint8_t fresh_at(uint32_t n, uint16_t rate) {
  uint8_t fresh = 0, i;
  for (i = 0; i < sim.config.count; i++) {
    const uint32_t hz = sim.config.channels[i].rate_mhz / 1000;
    const uint32_t every = hz >= rate ? 1 : (rate + hz - 1) / hz;
    if (n % every == 0) fresh |= (uint8_t)(1u << i);
  }
  return fresh;
}

static void convert(int64_t now) {
  sb_device_convert(&sim.device, tick_at(now), world_convert(&sim.world, CH_PRESS, 0x80000000u | conversion++));
}

/* Takes the samples that are due. The guard sees every conversion, in order of time. */
static void sample_due(int64_t now) {
  if (sim.device.rate_hz != stream_rate) {
    stream_rate = sim.device.rate_hz;
    stream_ns = now;
    stream_n = 0;
  }
  if (stream_rate == 0) {
    /* Not streaming, the supply is still watched, ten times a second. */
    if (conversion % 100 == 0) {
      int32_t counts[SB_MAX_CHANNELS] = {0};
      counts[CH_SUPPLY] = world_convert(&sim.world, CH_SUPPLY, conversion);
      sb_device_sample(&sim.device, tick_at(now), counts, 1u << CH_SUPPLY);
    }
    return;
  }
  for (;;) {
    const int64_t due = stream_ns + (int64_t)stream_n * 1000000000 / stream_rate;
    int32_t counts[SB_MAX_CHANNELS];
    uint8_t fresh, i;
    if (due > now) return;
    if (now - due > 200000000) { /* this program was held up, as no device would be */
      sim.device.late++;
      stream_ns = now;
      stream_n = 0;
      continue;
    }
    fresh = fresh_at(stream_n, stream_rate);
    for (i = 0; i < sim.config.count; i++)
      counts[i] = fresh >> i & 1 ? world_convert(&sim.world, i, sim.device.seq) : 0;
    sb_device_convert(&sim.device, tick_at(due), counts[CH_PRESS]);
    sb_device_sample(&sim.device, tick_at(due), counts, fresh);
    stream_n++;
    sb_device_poll(&sim.device, tick_at(now));
  }
}

static void wait_for(int64_t until) {
  struct timespec t;
  t.tv_sec = (time_t)(until / 1000000000);
  t.tv_nsec = (long)(until % 1000000000);
  while (clock_nanosleep(CLOCK_MONOTONIC, TIMER_ABSTIME, &t, NULL) == EINTR) {
  }
}

int main(int argc, char **argv) {
  int running = 1;
  if (!read_options(&sim.options, argc, argv)) return 2;
  if (sim.options.tap != NULL && (sim.tap = fopen(sim.options.tap, "wb")) == NULL) {
    fprintf(stderr, "tap %s: %s\n", sim.options.tap, strerror(errno));
    return 2;
  }
  if (sim.options.times != NULL && (sim.times = fopen(sim.options.times, "w")) == NULL) {
    fprintf(stderr, "times %s: %s\n", sim.options.times, strerror(errno));
    return 2;
  }
  sim.port.master = -1;
  snprintf(sim.port.name, sizeof sim.port.name, "ttyUSB0");
  snprintf(sim.port.vid, sizeof sim.port.vid, "%.7s", sim.options.vid);
  snprintf(sim.port.pid, sizeof sim.port.pid, "%.7s", sim.options.pid);
  snprintf(sim.port.serial, sizeof sim.port.serial, "%.31s", sim.options.serial);
  sim.config.device_id = sim.options.id;
  sim.config.firmware = "1.0.0";
  sim.config.channels = CHANNEL_TABLE;
  sim.config.count = (uint8_t)sim.options.channels;
  sim.config.max_rate_hz = 1000;
  sim.config.baud = sim.options.baud;
  sim.config.guard_channel = CH_PRESS;
  sim.config.guard_small = GUARD_SMALL;
  sim.config.guard_floor = GUARD_FLOOR;
  sim.config.guard_deadband = GUARD_DEADBAND;
  sim.config.supply_channel = CH_SUPPLY;
  sim.config.supply_nominal = SUPPLY_NOMINAL;
  world_init(&sim.world, sim.options.seed);
  start_device(0);
  sim.wake_ns = now_ns();
  while (running) {
    int open_now, opened;
    int64_t now;
    /* About a millisecond: bytes reach a host in bunches of that length, as a USB bridge sends them. */
    wait_for(sim.wake_ns + 1000000);
    now = now_ns();
    open_now = port_is_open(&sim.port, &opened);
    if (opened && sim.options.reset_on_open) start_device(0);
    world_step(&sim.world, (double)(now - sim.wake_ns) / 1e9);
    sample_due(now);
    convert(now);
    listen_to_host(now, open_now);
    sb_device_poll(&sim.device, tick_at(now));
    drain(now, open_now);
    running = operations(now, open_now);
    sim.wake_ns = now;
  }
  if (sim.tap != NULL) fclose(sim.tap);
  if (sim.times != NULL) fclose(sim.times);
  port_drop(&sim.port);
  return 0;
}
