/* Any numbers into the encoder: the line must be whole and say them in their one form. */
#include "line.h"
#include <string.h>

static const uint8_t *data;
static size_t left;

static uint32_t draw(void) {
  uint32_t v = 0;
  int i;
  for (i = 0; i < 4 && left > 0; i++, left--) v = v << 8 | *data++;
  return v;
}

static int32_t draw_signed(void) {
  const uint32_t v = draw();
  return v > 0x7fffffffu ? -(int32_t)(0xffffffffu - v) - 1 : (int32_t)v;
}

static uint8_t out[2 * SB_MAX_LINE];
static size_t out_n;
static void put(void *context, uint8_t byte) {
  (void)context;
  if (out_n == sizeof out) broken("line without end");
  out[out_n++] = byte;
}

#define I32 INT32_MIN, INT32_MAX
#define U32 0, UINT32_MAX
static void expect(int64_t got, int64_t wanted) {
  if (got != wanted) broken("another number");
}
static void expect_text(const uint8_t **at, const char *wanted) {
  char text[SB_MAX_LINE];
  if (strcmp(field(at, text), wanted) != 0) broken("another word");
}
/* An index or nothing. */
static void expect_index(const uint8_t **at, uint8_t index) {
  if (index == SB_NONE) expect_text(at, "");
  else expect(number(at, 0, 254), index);
}

static const uint8_t *begin_read(char letter) {
  expect_line(out, out_n);
  if (out[0] != (uint8_t)letter) broken("another letter");
  return out + 2;
}
static void end_read(const uint8_t *at) {
  if (at != out + out_n - 9) broken("more fields");
}

static void sample(struct sb_writer *w) {
  struct sb_sample s;
  const uint8_t *at;
  uint8_t i;
  s.seq = draw();
  s.tick = draw();
  s.channels = (uint8_t)(1 + draw() % SB_MAX_CHANNELS);
  s.fresh = (uint8_t)draw();
  s.status = (uint16_t)draw();
  for (i = 0; i < SB_MAX_CHANNELS; i++) s.counts[i] = draw_signed();
  sb_put_sample(w, &s);
  at = begin_read('S');
  expect(number(&at, U32), s.seq);
  expect(number(&at, U32), s.tick);
  for (i = 0; i < s.channels; i++) {
    if (s.fresh >> i & 1) expect(number(&at, I32), s.counts[i]);
    else expect_text(&at, "");
  }
  expect(number(&at, 0, 65535), s.status);
  end_read(at);
}

static void channel(struct sb_writer *w) {
  struct sb_channel c = {"supply", "ground", "current", 0, 0, 0, 0, 0, 0, 0, 0, 0};
  const uint8_t index = (uint8_t)(draw() % SB_MAX_CHANNELS);
  const uint8_t *at;
  const uint32_t partner = draw() % (SB_MAX_CHANNELS + 1);
  c.partner = partner == SB_MAX_CHANNELS ? SB_NONE : (uint8_t)partner;
  c.bits = (uint8_t)(8 + draw() % 25);
  c.raw_lo = draw_signed();
  c.raw_hi = draw_signed();
  c.el_lo = draw_signed();
  c.el_hi = draw_signed();
  c.range_lo = draw_signed();
  c.range_hi = draw_signed();
  c.rate_mhz = draw();
  sb_put_channel(w, index, &c);
  at = begin_read('C');
  expect(number(&at, 0, 6), index);
  expect_text(&at, "supply");
  expect_text(&at, "ground");
  expect_text(&at, "current");
  expect_index(&at, c.partner);
  expect(number(&at, 8, 32), c.bits);
  expect(number(&at, I32), c.raw_lo);
  expect(number(&at, I32), c.raw_hi);
  expect(number(&at, I32), c.el_lo);
  expect(number(&at, I32), c.el_hi);
  expect(number(&at, I32), c.range_lo);
  expect(number(&at, I32), c.range_hi);
  expect(number(&at, U32), c.rate_mhz);
  end_read(at);
}

static void event(struct sb_writer *w) {
  static const char *const WORDS[] = {"boot", "button", "trip", "return", "fault", "hostlost", "hostback"};
  struct sb_event e;
  const uint8_t *at;
  const uint32_t index = draw() % (SB_MAX_CHANNELS + 1);
  e.number = (uint16_t)draw();
  e.tick = draw();
  e.code = (uint8_t)(draw() % 7);
  e.channel = index == SB_MAX_CHANNELS ? SB_NONE : (uint8_t)index;
  e.has_value = (uint8_t)(draw() & 1);
  e.value = draw_signed();
  sb_put_event(w, &e);
  at = begin_read('E');
  expect(number(&at, 0, 65535), e.number);
  expect(number(&at, U32), e.tick);
  expect_text(&at, WORDS[e.code]);
  expect_index(&at, e.channel);
  if (e.has_value) expect(number(&at, I32), e.value);
  else expect_text(&at, "");
  end_read(at);
}

static void guard(struct sb_writer *w) {
  static const char *const WORDS[] = {"unarmed", "armed", "tripped", "silenced"};
  struct sb_limit l;
  const uint32_t tick = draw();
  const uint8_t state = (uint8_t)(draw() % 4);
  const uint8_t sounder = (uint8_t)(state == SB_IS_TRIPPED);
  const uint8_t *at;
  l.channel = (uint8_t)(draw() % SB_MAX_CHANNELS);
  l.counts = draw_signed();
  l.mbar = (uint16_t)draw();
  sb_put_guard(w, tick, state, &l, sounder);
  at = begin_read('G');
  expect(number(&at, U32), tick);
  expect_text(&at, WORDS[state]);
  if (state == SB_IS_UNARMED) {
    expect_text(&at, "");
    expect_text(&at, "");
    expect_text(&at, "");
  } else {
    expect(number(&at, 0, 6), l.channel);
    expect(number(&at, I32), l.counts);
    expect(number(&at, 0, 65535), l.mbar);
  }
  expect(number(&at, 0, 1), sounder);
  end_read(at);
}

static void reply(struct sb_writer *w) {
  static const char *const WORDS[] = {"ok", "clamped", "refused", "range", "unknown", "busy"};
  struct sb_reply r;
  const uint8_t *at;
  r.command = (uint16_t)draw();
  r.result = (uint8_t)(draw() % 6);
  r.has_value = (uint8_t)(draw() & 1);
  r.value = draw_signed();
  sb_put_reply(w, &r);
  at = begin_read('R');
  expect(number(&at, 0, 65535), r.command);
  expect_text(&at, WORDS[r.result]);
  if (r.has_value) expect(number(&at, I32), r.value);
  else expect_text(&at, "");
  end_read(at);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size) {
  static void (*const FRAMES[])(struct sb_writer *) = {sample, channel, event, guard, reply};
  struct sb_writer w;
  data = bytes;
  left = size;
  w.put = put;
  w.context = NULL;
  while (left > 0) {
    const uint8_t which = (uint8_t)(*data++ % 5);
    left--;
    out_n = 0;
    FRAMES[which](&w);
  }
  return 0;
}
