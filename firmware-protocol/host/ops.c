/* Operations on stdin: README.md. */
#define _POSIX_C_SOURCE 200809L
#include "sim.h"
#include <errno.h>
#include <math.h>
#include <poll.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static char ops[8192];
static size_t ops_length;
static int ops_ended;
static int waiting; /* 0 no; 1 for open; 2 for closed */
static int64_t wait_until;

static void answer(const char *text) {
  puts(text);
  fflush(stdout);
}

static void say_state(int open_now) {
  static const char *const STATES[] = {"unarmed", "armed", "tripped", "silenced"};
  printf("ok open=%d pts=%s boot=%lu heard=%d rate=%u seq=%lu tick=%lu guard=%s sounder=%d beacon=%d written=%llu "
         "unheard=%llu truePa=%.1f\n",
         open_now, sim.port.master >= 0 ? sim.port.path : "-", (unsigned long)sim.device.boot_id, sim.device.heard, sim.device.rate_hz,
         (unsigned long)sim.device.seq, (unsigned long)tick_at(now_ns()), STATES[sim.device.guard.state],
         sb_guard_sounder(&sim.device.guard), sb_device_beacon(&sim.device), (unsigned long long)sim.written,
         (unsigned long long)sim.unheard, sim.world.pressure_pa);
  fflush(stdout);
}

static int need_port(void) {
  if (sim.port.master >= 0) return 1;
  answer("error no port: open or plug first");
  return 0;
}

/* The path that programs were last told is there; empty: none is. */
static char announced[sizeof sim.port.path];

/* A port that hung up and was told gone by nobody is told gone before another one is told there: no system keeps two. */
static void forget_announced(void) {
  struct port old = sim.port;
  if (!announced[0]) return;
  memcpy(old.path, announced, sizeof old.path);
  port_announce(&old, "remove");
  announced[0] = 0;
}

static void op_plug(const char *op) {
  if (strcmp(op, "plug") == 0 && geteuid() != 0) {
    answer("error not run: needs root");
    return;
  }
  if (sim.options.bus_powered && sim.port.master < 0) start_device(0);
  if (sim.port.master < 0 && port_make(&sim.port) != 0) {
    printf("error %s\n", strerror(errno));
  } else if (strcmp(op, "plug") == 0 && (forget_announced(), port_announce(&sim.port, "add")) != 0) {
    printf("error not run: %s\n", errno == EPERM ? "needs root" : strerror(errno));
  } else {
    if (strcmp(op, "plug") == 0) memcpy(announced, sim.port.path, sizeof announced);
    printf("ok %s\n", sim.port.path);
  }
  fflush(stdout);
}

static void op_remove(const char *op) {
  const int told = strcmp(op, "hangup") == 0 ? 0 : port_announce(&sim.port, "remove");
  if (strcmp(op, "hangup") != 0) announced[0] = 0;
  if (strcmp(op, "remove") != 0) port_drop(&sim.port);
  if (told != 0)
    printf("error %s\n", strerror(errno));
  else
    puts("ok");
  fflush(stdout);
}

static void op_garbage(const char *arg) {
  uint8_t bytes[512];
  size_t n = 0, i;
  const size_t length = strlen(arg);
  if (length > 3 && strspn(arg, "0123456789abcdefABCDEF") == length && length % 2 == 0 && length <= 2 * sizeof bytes) {
    for (i = 0; i < length; i += 2) {
      unsigned b;
      sscanf(arg + i, "%2x", &b);
      bytes[n++] = (uint8_t)b;
    }
  } else {
    static uint32_t lcg = 12345;
    n = (size_t)strtoul(arg, NULL, 10);
    if (n < 1 || n > sizeof bytes) {
      answer("error garbage: 1-512 random bytes by number, or hex of two bytes or more");
      return;
    }
    for (i = 0; i < n; i++) {
      lcg = lcg * 1664525u + 1013904223u;
      bytes[i] = (uint8_t)(lcg >> 24);
    }
  }
  emit(bytes, n);
  answer("ok");
}

static void op_fault(const char *name, double a, double b, int64_t now) {
  const int ch = (int)a;
  const int64_t ms = (int64_t)a * 1000000;
  const int channel_fault = !strcmp(name, "open") || !strcmp(name, "stuck") || !strcmp(name, "offset") ||
                            !strcmp(name, "spike") || !strcmp(name, "noise");
  if (channel_fault && (ch < 0 || ch >= CHANNELS)) {
    answer("error fault: no such channel");
    return;
  }
  if (!strcmp(name, "supply")) sim.world.supply_mv = a;
  else if (!strcmp(name, "open")) sim.world.open |= (uint8_t)(1u << ch);
  else if (!strcmp(name, "stuck")) sim.world.stuck |= (uint8_t)(1u << ch);
  else if (!strcmp(name, "offset")) sim.world.offset[ch] = b;
  else if (!strcmp(name, "spike")) sim.world.spike[ch] = (int32_t)b;
  else if (!strcmp(name, "noise")) sim.world.noise[ch] = b;
  else if (!strcmp(name, "silence")) sim.silent_until = now + ms;
  else if (!strcmp(name, "stall")) sim.stalled_until = now + ms;
  else if (!strcmp(name, "deaf")) sim.deaf_until = now + ms;
  else if (!strcmp(name, "store")) sim.save_fails = 1;
  else if (!strcmp(name, "swap")) sim.swaps = (uint32_t)a;
  else if (!strcmp(name, "clock")) sim.boot_ns -= ms;
  else if (!strcmp(name, "rate")) sim.device.rate_hz = (uint16_t)a;
  else if (!strcmp(name, "drop")) {
    sim.device.seq += (uint32_t)a;
    sim.device.missed++;
  } else {
    answer("error fault: supply, open, stuck, offset, spike, noise, silence, stall, deaf, drop, swap, clock, rate or store");
    return;
  }
  answer("ok");
}

static void op_clear(void) {
  struct world fresh;
  int i;
  world_init(&fresh, sim.world.seed);
  for (i = 0; i < CHANNELS; i++) {
    sim.world.noise[i] = fresh.noise[i];
    sim.world.offset[i] = 0;
    sim.world.spike[i] = 0;
  }
  sim.world.stuck = sim.world.open = 0;
  sim.world.supply_mv = fresh.supply_mv;
  sim.silent_until = sim.stalled_until = sim.deaf_until = 0;
  sim.swaps = 0;
  sim.save_fails = 0;
  answer("ok");
}

/* 0: the program ends. */
static int operation(char *line, int64_t now, int open_now) {
  char op[32] = "", word[1100] = "";
  double a = 0, b = 0, c = 0, d = 0;
  if (sscanf(line, "%31s %1099s", op, word) < 1) {
    answer("error empty line");
  } else if (!strcmp(op, "true") || !strcmp(op, "ramp")) {
    const int n = sscanf(line, "%*s %lf %lf %lf %lf", &a, &b, &c, &d);
    if (n < 1 || !isfinite(a) || (op[0] == 'r' && (n != 2 || b <= 0))) {
      answer(op[0] == 't' ? "error true: <line_Pa> [sleeve_mC] [air_mC] [junction_mC]" : "error ramp: <line_Pa> <seconds>");
      return 1;
    }
    if (op[0] == 'r') {
      sim.world.ramp_to_pa = a;
      sim.world.ramp_pa_per_s = (a - sim.world.pressure_pa) / b;
    } else {
      sim.world.ramp_pa_per_s = 0;
      sim.world.pressure_pa = a;
      if (n > 1) sim.world.sleeve_mc = b;
      if (n > 2) sim.world.air_mc = c;
      if (n > 3) sim.world.junction_mc = d;
    }
    answer("ok");
  } else if (!strcmp(op, "open") || !strcmp(op, "plug")) {
    if (!strcmp(op, "plug") && word[0]) snprintf(sim.port.name, sizeof sim.port.name, "%.31s", word);
    op_plug(op);
  } else if (!strcmp(op, "unplug") || !strcmp(op, "hangup") || !strcmp(op, "remove")) {
    if (need_port()) op_remove(op);
  } else if (!strcmp(op, "wait_open") || !strcmp(op, "wait_closed")) {
    waiting = op[5] == 'o' ? 1 : 2;
    wait_until = now + (word[0] ? strtol(word, NULL, 10) : 5000) * 1000000;
  } else if (!strcmp(op, "reset")) {
    /* The line stops where it was. The limit is in the store, all else is gone. */
    start_device(strcmp(word, "watchdog") ? 0 : SB_FAULT_WATCHDOG);
    printf("ok boot=%lu\n", (unsigned long)sim.device.boot_id);
    fflush(stdout);
  } else if (!strcmp(op, "garbage")) {
    op_garbage(word);
  } else if (!strcmp(op, "fault")) {
    sscanf(line, "%*s %*s %lf %lf", &a, &b);
    op_fault(word, a, b, now);
  } else if (!strcmp(op, "clear")) {
    op_clear();
  } else if (!strcmp(op, "button")) {
    sb_device_button(&sim.device, tick_at(now), 1);
    if (strcmp(word, "hold")) sb_device_button(&sim.device, tick_at(now), 0);
    answer("ok");
  } else if (!strcmp(op, "state")) {
    say_state(open_now);
  } else if (!strcmp(op, "quit")) {
    answer("ok");
    return 0;
  } else {
    answer("error unknown operation");
  }
  return 1;
}

int operations(int64_t now, int open_now) {
  struct pollfd f;
  char *end;
  f.fd = 0;
  f.events = POLLIN;
  f.revents = 0;
  if (!ops_ended && ops_length < sizeof ops - 1 && poll(&f, 1, 0) > 0) {
    const ssize_t n = read(0, ops + ops_length, sizeof ops - 1 - ops_length);
    if (n <= 0) ops_ended = 1;
    else ops_length += (size_t)n;
  }
  if (waiting) {
    if (open_now != (waiting == 1) && now < wait_until) return 1;
    waiting = 0;
    printf("ok open=%d\n", open_now);
    fflush(stdout);
  }
  ops[ops_length] = 0;
  while (!waiting && (end = strchr(ops, '\n')) != NULL) {
    const size_t used = (size_t)(end - ops) + 1;
    int more;
    *end = 0;
    more = operation(ops, now, open_now);
    memmove(ops, ops + used, ops_length - used + 1);
    ops_length -= used;
    if (!more) return 0;
  }
  return !(ops_ended && !waiting);
}

