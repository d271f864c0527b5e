/* The device on a pty, made from the C reference. Operations come on stdin, one line each, and are answered by one
   line each on stdout; README.md lists them. */
#define _POSIX_C_SOURCE 200809L
#include "sim.h"
#include <errno.h>
#include <string.h>
#include <time.h>

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
  sb_device_convert(&sim.device, tick_at(now), world_convert(&sim.world, CH_PRESS, 0x80000000u | sim.conversion++));
}

/* Takes the samples that are due. The guard sees every conversion, in order of time. */
static void sample_due(int64_t now) {
  if (sim.device.rate_hz != sim.stream_rate) {
    sim.stream_rate = sim.device.rate_hz;
    sim.stream_ns = now;
    sim.stream_n = 0;
  }
  if (sim.stream_rate == 0) {
    /* Not streaming, the supply is still watched, ten times a second. */
    if (sim.conversion % 100 == 0) {
      int32_t counts[SB_MAX_CHANNELS] = {0};
      counts[CH_SUPPLY] = world_convert(&sim.world, CH_SUPPLY, sim.conversion);
      sb_device_sample(&sim.device, tick_at(now), counts, 1u << CH_SUPPLY);
    }
    return;
  }
  for (;;) {
    const int64_t due = sim.stream_ns + (int64_t)sim.stream_n * 1000000000 / sim.stream_rate;
    int32_t counts[SB_MAX_CHANNELS];
    uint8_t fresh, i;
    if (due > now) return;
    if (now - due > 200000000) { /* this program was held up, as no device would be */
      sim.device.late++;
      sim.stream_ns = now;
      sim.stream_n = 0;
      continue;
    }
    fresh = fresh_at(sim.stream_n, sim.stream_rate);
    for (i = 0; i < sim.config.count; i++)
      counts[i] = fresh >> i & 1 ? world_convert(&sim.world, i, sim.device.seq) : 0;
    sb_device_convert(&sim.device, tick_at(due), counts[CH_PRESS]);
    sb_device_sample(&sim.device, tick_at(due), counts, fresh);
    sim.stream_n++;
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
    sim.wrong_speed = open_now && sim.options.speed != 0 && port_speed(&sim.port) != sim.options.speed;
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
