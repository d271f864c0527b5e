/* A whole device under any order of commands, conversions, samples, pauses, resets and a store that fails: its lines
   are whole, and its limit is never lifted or taken away but at a small pressure. */
#include "line.h"
#include <string.h>

enum { SMALL = 4533, FLOOR = 3200, BAND = 107, NOMINAL = 40000 };

static const struct sb_channel CHANNELS[2] = {
    {"press", "hose", "ratio", 1, 16, 4000, 36000, 100000, 900000, 0, 600000, 1000000},
    {"supply", "", "voltage", SB_NONE, 16, 0, 40000, 0, 5000000, 4500000, 5500000, 10000},
};
static const struct sb_config CONFIG = {"sb-1", "1", CHANNELS, 2, 1000, 115200, 0, SMALL, FLOOR, BAND, 1, NOMINAL};

static uint8_t store[SB_RECORD];
static uint8_t store_fails;
static int8_t load(void *context, uint8_t *record) {
  (void)context;
  memcpy(record, store, SB_RECORD);
  return 0;
}
static int8_t save(void *context, const uint8_t *record) {
  (void)context;
  if (store_fails) return -1;
  memcpy(store, record, SB_RECORD);
  return 0;
}
static const struct sb_hooks HOOKS = {NULL, load, save};

static struct sb_device d;
static uint32_t tick;
static uint64_t ticks; /* the same without an end */
static uint8_t line[SB_MAX_LINE];
static size_t line_n;
static uint8_t armed;
static struct sb_limit limit;
/* The last conversion as the test saw it. */
static uint8_t known;
static int32_t counts;
static uint64_t counts_ticks;

static void start(uint8_t cause) {
  sb_device_init(&d, &CONFIG, &HOOKS, 7, cause);
  tick = 0;
  ticks = 0;
  known = 0;
  line_n = 0;
  armed = (uint8_t)(d.guard.state != SB_IS_UNARMED);
  limit = d.guard.limit;
}

static void pass(uint32_t more) {
  tick += more;
  ticks += more;
}

static void take(uint16_t most) {
  int16_t byte;
  while (most-- > 0 && (byte = sb_ring_take(&d.ring)) >= 0) {
    if (line_n == sizeof line) broken("line without end");
    line[line_n++] = (uint8_t)byte;
    if (byte == '\n') {
      expect_line(line, line_n);
      line_n = 0;
    }
  }
}

/* SPEC.md, part 7, rule 2. */
static void watch(void) {
  const uint8_t now = (uint8_t)(d.guard.state != SB_IS_UNARMED);
  const uint8_t small = (uint8_t)(known && ticks - counts_ticks <= SB_SECOND && counts >= FLOOR && counts < SMALL);
  if (armed && !now && !small) broken("disarmed under pressure");
  if (armed && now && !small &&
      (d.guard.limit.counts > limit.counts || d.guard.limit.mbar > limit.mbar || d.guard.limit.channel != limit.channel))
    broken("limit lifted under pressure");
  if (now && d.guard.limit.counts <= SMALL) broken("limit at no pressure");
  if (now && d.guard.effective > d.guard.limit.counts) broken("supply lifted the limit");
  armed = now;
  limit = d.guard.limit;
}

static void convert(int32_t value) {
  known = 1;
  counts = value;
  counts_ticks = ticks;
  sb_device_convert(&d, tick, value);
  if (armed && value >= limit.counts && d.guard.state != SB_IS_TRIPPED && d.guard.state != SB_IS_SILENCED)
    broken("over the limit and not tripped");
}

static void say(const uint8_t *body, size_t n, uint8_t close) {
  static const char HEX[] = "0123456789abcdef";
  const uint32_t crc = plain_crc(body, n);
  size_t i;
  int shift;
  uint8_t tries;
  uint8_t bytes[80];
  memcpy(bytes, body, n);
  if (close)
    for (shift = 28; shift >= 0; shift -= 4) bytes[n++] = (uint8_t)HEX[crc >> shift & 15];
  bytes[n++] = '\n';
  for (i = 0; i < n; i++)
    for (tries = 0; !sb_device_receive(&d, tick, bytes[i]); tries++) {
      if (tries == 3) return; /* nobody reads what the device says */
      sb_device_poll(&d, tick);
      take(256);
    }
}

static void sample(int32_t value, int32_t supply, uint8_t fresh) {
  int32_t both[2];
  both[0] = value;
  both[1] = supply;
  sb_device_sample(&d, tick, both, fresh);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  size_t at = 0;
  uint8_t hours;
  memset(store, 0xff, sizeof store);
  store_fails = 0;
  start(0);
  while (at + 3 <= size) {
    const uint8_t op = data[at];
    const uint16_t v = (uint16_t)(data[at + 1] << 8 | data[at + 2]);
    at += 3;
    switch (op % 12) {
      case 0:
        convert(v);
        break;
      case 1:
        convert((int32_t)v << 15);
        break;
      case 2:
        sample(v, NOMINAL - (v >> 3), 3);
        break;
      case 3:
        pass(v);
        break;
      case 4:
        /* Hours, in which the main loop runs on. */
        for (hours = 0; hours < 4; hours++) {
          pass((uint32_t)v << 14);
          sb_device_poll(&d, tick);
          take(256);
        }
        break;
      case 5: { /* a command, closed by its check or not */
        size_t n = v & 63;
        if (n > size - at) n = size - at;
        say(data + at, n, (uint8_t)(v >> 8 & 1));
        at += n;
        break;
      }
      case 6:
        sb_device_poll(&d, tick);
        take(v & 511);
        break;
      case 7:
        sb_device_button(&d, tick, (uint8_t)(v & 1));
        break;
      case 8:
        store_fails = (uint8_t)(v & 1);
        break;
      case 9: /* a torn store, seldom */
        if ((v & 0xf00) == 0) store[v % SB_RECORD] ^= 1;
        break;
      case 10:
        if ((v & 0xff) < 16) start((uint8_t)(v & 0x100 ? SB_FAULT_WATCHDOG : 0));
        break;
      default: /* sample of few channels, and everything is read */
        sample(v, v, (uint8_t)(v & 3));
        sb_device_poll(&d, tick);
        take(256);
        break;
    }
    watch();
  }
  sb_device_poll(&d, tick);
  take(256);
  return 0;
}
