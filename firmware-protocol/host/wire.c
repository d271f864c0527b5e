/* Bytes between the device's ring and the pty, at the pace of the baud. */
#define _POSIX_C_SOURCE 200809L
#include "sim.h"
#include <string.h>
#include <time.h>
#include <unistd.h>

static uint8_t pending[65536]; /* left the device, not yet taken by the pty */
static size_t pending_at, pending_end;
static double budget;       /* bytes the wire may carry by now */
static char commands[4096]; /* unread bytes from the host */
static size_t command_at, command_end;

void emit(const uint8_t *bytes, size_t n) {
  if (pending_at == pending_end) pending_at = pending_end = 0;
  if (pending_end + n > sizeof pending) n = sizeof pending - pending_end;
  memcpy(pending + pending_end, bytes, n);
  pending_end += n;
}

/* A byte read at another speed than it was sent at is another byte, most often none of text. */
static uint8_t as_read(uint8_t byte) { return sim.wrong_speed ? (uint8_t)(byte * 37u | 0x80u) : byte; }

/* A byte of the device's own. Of a pair to be swapped the first line is held back until the second has gone. */
static void carry(uint8_t byte) {
  static uint8_t held[256], last = '\n';
  static size_t held_end;
  static int holding; /* 0 no; 1 the first line comes; 2 the second goes */
  if (holding == 0 && sim.swaps > 0 && last == '\n') holding = 1;
  last = byte;
  if (holding == 1 && held_end < sizeof held) {
    held[held_end++] = byte;
    if (byte == '\n') holding = 2;
    return;
  }
  emit(&byte, 1);
  if (holding == 0 || byte != '\n') return;
  emit(held, held_end);
  held_end = 0;
  holding = 0;
  if (sim.swaps > 0) sim.swaps--;
}

void listen_to_host(int64_t now, int open_now) {
  if (open_now && command_at == command_end) {
    const ssize_t n = read(sim.port.master, commands, sizeof commands);
    command_at = 0;
    command_end = n > 0 ? (size_t)n : 0;
  }
  if (sim.deaf_until > now) command_at = command_end;
  while (command_at < command_end) {
    if (!sb_device_receive(&sim.device, tick_at(now), as_read((uint8_t)commands[command_at]))) break;
    command_at++;
  }
}

void drain(int64_t now, int open_now) {
  int16_t byte;
  if (sim.stalled_until > now) return;
  if (sim.config.baud != 0) {
    budget += (double)(now - sim.wake_ns) * sim.config.baud / 10 / 1e9;
    /* A wire cannot catch up: at most what 5 ms carry, for the sake of a coarse timer. */
    if (budget > sim.config.baud / 2000.0) budget = sim.config.baud / 2000.0;
  }
  for (;;) {
    while (pending_end - pending_at < 4096 && (sim.config.baud == 0 || budget >= 1) && (byte = sb_ring_take(&sim.device.ring)) >= 0) {
      const uint8_t b = as_read((uint8_t)byte);
      if (sim.silent_until <= now) carry(b);
      budget -= 1;
    }
    if (pending_at == pending_end) break;
    if (!open_now) {
      sim.unheard += pending_end - pending_at;
      pending_at = pending_end = 0;
      break;
    }
    {
      const ssize_t n = write(sim.port.master, pending + pending_at, pending_end - pending_at);
      if (n <= 0) break; /* the host does not read: the ring fills, and whole lines are dropped */
      if (sim.tap != NULL) fwrite(pending + pending_at, 1, (size_t)n, sim.tap);
      pending_at += (size_t)n;
      sim.written += (uint64_t)n;
      if (sim.times != NULL) {
        struct timespec t;
        clock_gettime(CLOCK_REALTIME, &t);
        fprintf(sim.times, "%lld %llu\n", (long long)t.tv_sec * 1000000 + t.tv_nsec / 1000, (unsigned long long)sim.written);
      }
    }
    sb_device_poll(&sim.device, tick_at(now)); /* room again */
  }
  if (sim.tap != NULL) fflush(sim.tap);
  if (sim.times != NULL) fflush(sim.times);
}

