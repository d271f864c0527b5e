/* The device on a pty, made from the C reference. Operations come on stdin, one line each, and are answered by one
   line each on stdout; README.md lists them. */
#define _POSIX_C_SOURCE 200809L
#include "options.h"
#include "port.h"
#include "world.h"
#include <errno.h>
#include <math.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <time.h>
#include <unistd.h>

static struct options options;
static struct port port;
static struct world world;
static struct sb_device device;
static struct sb_config config;
static uint8_t record[SB_RECORD];
static int save_fails;
static FILE *tap;

static int64_t boot_ns, wake_ns;
static uint32_t boots;
/* Sample n of a stream is due at stream_ns plus n periods: no rounding adds up. */
static int64_t stream_ns;
static uint32_t stream_n;
static uint16_t stream_rate;
static uint32_t conversion;
static int64_t deaf_until, silent_until, stalled_until;

static uint8_t pending[65536]; /* left the device, not yet taken by the pty */
static size_t pending_at, pending_end;
static double budget; /* bytes the wire may carry by now */
static uint64_t written, dropped_closed;
static char commands[4096]; /* unread bytes from the host */
static size_t command_at, command_end;

static char ops[8192];
static size_t ops_length;
static int ops_ended;
static int waiting; /* 0 no; 1 for open; 2 for closed */
static int64_t wait_until;

static int64_t now_ns(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (int64_t)t.tv_sec * 1000000000 + t.tv_nsec;
}

static uint32_t tick_at(int64_t ns) {
  return (uint32_t)(options.tick0 + (uint64_t)((ns - boot_ns) / 100000));
}

static int8_t load(void *context, uint8_t out[SB_RECORD]) {
  (void)context;
  if (options.store != NULL) {
    FILE *f = fopen(options.store, "rb");
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
  if (save_fails) return -1;
  memcpy(record, in, SB_RECORD);
  if (options.store != NULL) {
    FILE *f = fopen(options.store, "wb");
    if (f == NULL) return -1;
    if (fwrite(record, 1, sizeof record, f) != sizeof record) {
      fclose(f);
      return -1;
    }
    if (fclose(f) != 0) return -1;
  }
  return 0;
}

static void start_device(uint8_t cause) {
  static const struct sb_hooks HOOKS = {NULL, load, save};
  boots++;
  boot_ns = now_ns();
  sb_device_init(&device, &config, &HOOKS, (options.seed * 2654435761u + boots * 40503u) & 0xffffffffu, cause);
  device.seq = options.seq0;
  stream_rate = 0;
  conversion = 0;
}

static void emit(const uint8_t *bytes, size_t n) {
  if (pending_at == pending_end) pending_at = pending_end = 0;
  if (pending_end + n > sizeof pending) n = sizeof pending - pending_end;
  memcpy(pending + pending_end, bytes, n);
  pending_end += n;
}

/* Which channels have a new conversion at this sample: slow converters, and the supply, every so many ticks. */
static uint8_t fresh_at(uint32_t n, uint16_t rate) {
  uint8_t fresh = 0, i;
  for (i = 0; i < config.count; i++) {
    const uint32_t hz = config.channels[i].rate_mhz / 1000;
    const uint32_t every = hz >= rate ? 1 : (rate + hz - 1) / hz;
    if (n % every == 0) fresh |= (uint8_t)(1u << i);
  }
  return fresh;
}

static void convert(int64_t now) {
  sb_device_convert(&device, tick_at(now), world_convert(&world, CH_PRESS, 0x80000000u | conversion++));
}

static void sample_due(int64_t now) {
  if (device.rate_hz != stream_rate) {
    stream_rate = device.rate_hz;
    stream_ns = now;
    stream_n = 0;
  }
  if (stream_rate == 0) {
    /* Not streaming, the supply is still watched, ten times a second. */
    if (conversion % 100 == 0) {
      int32_t counts[SB_MAX_CHANNELS] = {0};
      counts[CH_SUPPLY] = world_convert(&world, CH_SUPPLY, conversion);
      sb_device_sample(&device, tick_at(now), counts, 1u << CH_SUPPLY);
    }
    return;
  }
  for (;;) {
    const int64_t due = stream_ns + (int64_t)stream_n * 1000000000 / stream_rate;
    int32_t counts[SB_MAX_CHANNELS];
    uint8_t fresh, i;
    if (due > now) return;
    if (now - due > 200000000) { /* this program was held up, as no device would be */
      device.late++;
      stream_ns = now;
      stream_n = 0;
      continue;
    }
    fresh = fresh_at(stream_n, stream_rate);
    for (i = 0; i < config.count; i++)
      counts[i] = fresh >> i & 1 ? world_convert(&world, i, device.seq) : 0;
    sb_device_convert(&device, tick_at(due), counts[CH_PRESS]);
    if (silent_until <= now) sb_device_sample(&device, tick_at(due), counts, fresh);
    stream_n++;
    sb_device_poll(&device, tick_at(now));
  }
}

static void listen_to_host(int64_t now, int open_now) {
  if (open_now && command_at == command_end) {
    const ssize_t n = read(port.master, commands, sizeof commands);
    command_at = 0;
    command_end = n > 0 ? (size_t)n : 0;
  }
  if (deaf_until > now) command_at = command_end;
  while (command_at < command_end) {
    if (!sb_device_receive(&device, tick_at(now), (uint8_t)commands[command_at])) break;
    command_at++;
  }
}

static void drain(int64_t now, int open_now) {
  int16_t byte;
  if (stalled_until > now) return;
  if (config.baud != 0) {
    budget += (double)(now - wake_ns) * config.baud / 10 / 1e9;
    /* A wire cannot catch up: at most what 5 ms carry, for the sake of a coarse timer. */
    if (budget > config.baud / 2000.0) budget = config.baud / 2000.0;
  }
  for (;;) {
    while (pending_end - pending_at < 4096 && (config.baud == 0 || budget >= 1) && (byte = sb_ring_take(&device.ring)) >= 0) {
      const uint8_t b = (uint8_t)byte;
      if (silent_until <= now) emit(&b, 1);
      budget -= 1;
    }
    if (pending_at == pending_end) break;
    if (!open_now) {
      dropped_closed += pending_end - pending_at;
      pending_at = pending_end = 0;
      break;
    }
    {
      const ssize_t n = write(port.master, pending + pending_at, pending_end - pending_at);
      if (n <= 0) break; /* the host does not read: the ring fills, and whole lines are dropped */
      if (tap != NULL) fwrite(pending + pending_at, 1, (size_t)n, tap);
      pending_at += (size_t)n;
      written += (uint64_t)n;
    }
    sb_device_poll(&device, tick_at(now)); /* room again */
  }
  if (tap != NULL) fflush(tap);
}

static void answer(const char *text) {
  puts(text);
  fflush(stdout);
}

static void say_state(int open_now) {
  static const char *const STATES[] = {"unarmed", "armed", "tripped", "silenced"};
  printf("ok open=%d pts=%s boot=%lu heard=%d rate=%u seq=%lu tick=%lu guard=%s sounder=%d beacon=%d written=%llu "
         "unheard=%llu truePa=%.1f\n",
         open_now, port.master >= 0 ? port.path : "-", (unsigned long)device.boot_id, device.heard, device.rate_hz,
         (unsigned long)device.seq, (unsigned long)tick_at(now_ns()), STATES[device.guard.state],
         sb_guard_sounder(&device.guard), sb_device_beacon(&device), (unsigned long long)written,
         (unsigned long long)dropped_closed, world.pressure_pa);
  fflush(stdout);
}

static int need_port(void) {
  if (port.master >= 0) return 1;
  answer("error no port: open or plug first");
  return 0;
}

static void op_plug(const char *op) {
  if (strcmp(op, "plug") == 0 && geteuid() != 0) {
    answer("error not run: needs root");
    return;
  }
  if (port.master < 0 && port_make(&port) != 0) {
    printf("error %s\n", strerror(errno));
  } else if (strcmp(op, "plug") == 0 && port_announce(&port, "add") != 0) {
    printf("error not run: %s\n", errno == EPERM ? "needs root" : strerror(errno));
  } else {
    printf("ok %s\n", port.path);
  }
  fflush(stdout);
}

static void op_remove(const char *op) {
  const int told = strcmp(op, "hangup") == 0 ? 0 : port_announce(&port, "remove");
  if (strcmp(op, "remove") != 0) port_drop(&port);
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
  if (!strcmp(name, "supply")) world.supply_mv = a;
  else if (!strcmp(name, "open")) world.open |= (uint8_t)(1u << ch);
  else if (!strcmp(name, "stuck")) world.stuck |= (uint8_t)(1u << ch);
  else if (!strcmp(name, "offset")) world.offset[ch] = b;
  else if (!strcmp(name, "spike")) world.spike[ch] = (int32_t)b;
  else if (!strcmp(name, "noise")) world.noise[ch] = b;
  else if (!strcmp(name, "silence")) silent_until = now + ms;
  else if (!strcmp(name, "stall")) stalled_until = now + ms;
  else if (!strcmp(name, "deaf")) deaf_until = now + ms;
  else if (!strcmp(name, "store")) save_fails = 1;
  else if (!strcmp(name, "drop")) {
    device.seq += (uint32_t)a;
    device.missed++;
  } else {
    answer("error fault: supply, open, stuck, offset, spike, noise, silence, stall, deaf, store or drop");
    return;
  }
  answer("ok");
}

static void op_clear(void) {
  struct world fresh;
  int i;
  world_init(&fresh, world.seed);
  for (i = 0; i < CHANNELS; i++) {
    world.noise[i] = fresh.noise[i];
    world.offset[i] = 0;
    world.spike[i] = 0;
  }
  world.stuck = world.open = 0;
  world.supply_mv = fresh.supply_mv;
  silent_until = stalled_until = deaf_until = 0;
  save_fails = 0;
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
      world.ramp_to_pa = a;
      world.ramp_pa_per_s = (a - world.pressure_pa) / b;
    } else {
      world.ramp_pa_per_s = 0;
      world.pressure_pa = a;
      if (n > 1) world.sleeve_mc = b;
      if (n > 2) world.air_mc = c;
      if (n > 3) world.junction_mc = d;
    }
    answer("ok");
  } else if (!strcmp(op, "open") || !strcmp(op, "plug")) {
    if (!strcmp(op, "plug") && word[0]) snprintf(port.name, sizeof port.name, "%.31s", word);
    op_plug(op);
  } else if (!strcmp(op, "unplug") || !strcmp(op, "hangup") || !strcmp(op, "remove")) {
    if (need_port()) op_remove(op);
  } else if (!strcmp(op, "wait_open") || !strcmp(op, "wait_closed")) {
    waiting = op[5] == 'o' ? 1 : 2;
    wait_until = now + (word[0] ? strtol(word, NULL, 10) : 5000) * 1000000;
  } else if (!strcmp(op, "reset")) {
    /* The line stops where it was. The limit is in the store, all else is gone. */
    start_device(strcmp(word, "watchdog") ? 0 : SB_FAULT_WATCHDOG);
    printf("ok boot=%lu\n", (unsigned long)device.boot_id);
    fflush(stdout);
  } else if (!strcmp(op, "garbage")) {
    op_garbage(word);
  } else if (!strcmp(op, "fault")) {
    sscanf(line, "%*s %*s %lf %lf", &a, &b);
    op_fault(word, a, b, now);
  } else if (!strcmp(op, "clear")) {
    op_clear();
  } else if (!strcmp(op, "button")) {
    sb_device_button(&device, tick_at(now), 1);
    if (strcmp(word, "hold")) sb_device_button(&device, tick_at(now), 0);
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

/* Reads stdin and carries out whole lines. 0: the program ends. */
static int operations(int64_t now, int open_now) {
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

static void wait_for(int64_t until) {
  struct timespec t;
  t.tv_sec = (time_t)(until / 1000000000);
  t.tv_nsec = (long)(until % 1000000000);
  while (clock_nanosleep(CLOCK_MONOTONIC, TIMER_ABSTIME, &t, NULL) == EINTR) {
  }
}

int main(int argc, char **argv) {
  int running = 1;
  if (!read_options(&options, argc, argv)) return 2;
  if (options.tap != NULL && (tap = fopen(options.tap, "wb")) == NULL) {
    fprintf(stderr, "tap %s: %s\n", options.tap, strerror(errno));
    return 2;
  }
  port.master = -1;
  snprintf(port.name, sizeof port.name, "ttyUSB0");
  snprintf(port.vid, sizeof port.vid, "%.7s", options.vid);
  snprintf(port.pid, sizeof port.pid, "%.7s", options.pid);
  snprintf(port.serial, sizeof port.serial, "%.31s", options.serial);
  config.device_id = options.id;
  config.firmware = "1.0.0";
  config.channels = CHANNEL_TABLE;
  config.count = (uint8_t)options.channels;
  config.max_rate_hz = 1000;
  config.baud = options.baud;
  config.guard_channel = CH_PRESS;
  config.guard_small = GUARD_SMALL;
  config.guard_floor = GUARD_FLOOR;
  config.guard_deadband = GUARD_DEADBAND;
  config.supply_channel = CH_SUPPLY;
  config.supply_nominal = SUPPLY_NOMINAL;
  world_init(&world, options.seed);
  start_device(0);
  wake_ns = now_ns();
  while (running) {
    int open_now, opened;
    int64_t now;
    /* About a millisecond: bytes reach a host in bunches of that length, as a USB bridge sends them. */
    wait_for(wake_ns + 1000000);
    now = now_ns();
    open_now = port_is_open(&port, &opened);
    if (opened && options.reset_on_open) start_device(0);
    world_step(&world, (double)(now - wake_ns) / 1e9);
    convert(now);
    sample_due(now);
    listen_to_host(now, open_now);
    sb_device_poll(&device, tick_at(now));
    drain(now, open_now);
    running = operations(now, open_now);
    wake_ns = now;
  }
  if (tap != NULL) fclose(tap);
  port_drop(&port);
  return 0;
}
