/* The conversation that SPEC.md, part 7, shows, said by the reference: a device with the second example's sensor whose store is
   still empty. Each line as it goes over the wire, with '>' before the host's and '<' before the device's. */
#include "../steadybar.h"
#include <stdio.h>
#include <string.h>

enum { MS = 10, ZERO = 94, AT_04 = 144, AT_08 = 194, OVER = 285 };

static const struct sb_channel CHANNELS[2] = {
    {"press", "hose", "ratio", 1, 10, 0, 1023, 0, 1091200, 0, 600000, 1000000},
    {"supply", "", "voltage", SB_NONE, 10, 0, 1023, 0, 5456000, 4500000, 5500000, 10000},
};
/* 0.10 bar, 0.40 V of 5 V, 24 mbar and 5 V in counts. */
static const struct sb_config CONFIG = {"my-first-2", "1.0", CHANNELS, 2, 1000, 500000, 0, 106, 75, 3, 1, 937};

static uint8_t memory[SB_RECORD];
static int8_t load(void *context, uint8_t *record) {
  (void)context;
  memcpy(record, memory, SB_RECORD);
  return 0;
}
static int8_t save(void *context, const uint8_t *record) {
  (void)context;
  memcpy(memory, record, SB_RECORD);
  return 0;
}
static const struct sb_hooks HOOKS = {NULL, load, save};

static struct sb_device d;
static uint32_t tick = 41234;
static int32_t pressure = ZERO;
static unsigned phase;

static void show(void) {
  static int begun;
  int16_t byte;
  sb_device_poll(&d, tick);
  while ((byte = sb_ring_take(&d.ring)) >= 0) {
    if (!begun) printf(byte == '\n' ? "<" : "< ");
    begun = byte != '\n';
    putchar(byte);
  }
}

static void pass(unsigned ms) {
  for (; ms > 0; ms--) {
    int32_t counts[2];
    tick += MS;
    counts[0] = pressure;
    counts[1] = 937;
    sb_device_convert(&d, tick, pressure);
    phase += d.rate_hz;
    if (d.rate_hz == 0) phase = 0;
    if (phase >= 1000) {
      phase -= 1000;
      sb_device_sample(&d, tick, counts, 3);
    }
    show();
  }
}

static void print(void *context, uint8_t byte) {
  (void)context;
  putchar(byte);
  sb_device_receive(&d, tick, byte);
}

/* The body of a command without its check; 20 ms later the answer is there. */
static void say(const char *body) {
  struct sb_writer w = {print, NULL, 0};
  printf("> ");
  sb_begin(&w, 'K');
  for (; *body; body += strlen(body) + 1) sb_text(&w, body);
  sb_end(&w);
  pass(20);
}

int main(void) {
  memset(memory, 0xff, sizeof memory);
  sb_device_init(&d, &CONFIG, &HOOKS, 7, 0);
  pass(20);
  say("1\0hello\0");
  say("2\0limit\0" "0\0" "281\0" "1500\0");
  say("3\0start\0" "5\0");
  pressure = AT_04;
  pass(400);
  pressure = OVER;
  pass(200);
  say("4\0silence\0");
  say("5\0limit\0" "0\0" "294\0" "1600\0");
  pressure = AT_08;
  pass(1200);
  say("6\0stop\0");
  return 0;
}
