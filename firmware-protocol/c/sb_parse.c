/* Parser of host commands: byte by byte, one canonical form, resync at LF, nothing is ever thrown away unseen. */
#include "steadybar.h"

static const char *const VERBS[] = {"hello", "start", "stop", "beat", "limit", "read", "disarm", "silence"};
enum { VERB_COUNT = sizeof VERBS / sizeof VERBS[0], TAIL = 9 };
SB_EVERY(verb, VERBS, SB_SILENCE);

void sb_parser_init(struct sb_parser *p) {
  p->length = 0;
  p->fill = 0;
  p->discarding = 0;
  p->opened = 0;
  p->numbered = 0;
}

struct cursor {
  const uint8_t *at;
  const uint8_t *end; /* after the last comma */
};

/* Up to ten digits and their comma, no leading zero. 0: not canonical, or more than 32 bits. */
static uint8_t digits(struct cursor *c, uint32_t *value) {
  uint32_t v = 0;
  const uint8_t *first = c->at;
  while (c->at < c->end && *c->at >= '0' && *c->at <= '9') {
    const uint8_t d = (uint8_t)(*c->at - '0');
    if (v > 429496729u || (v == 429496729u && d > 5)) return 0;
    if (c->at != first && *first == '0') return 0;
    v = v * 10u + d;
    c->at++;
  }
  if (c->at == first || c->at >= c->end || *c->at != ',') return 0;
  c->at++;
  *value = v;
  return 1;
}

static uint8_t ranged(struct cursor *c, uint32_t min, uint32_t max, uint32_t *value) {
  return (uint8_t)(digits(c, value) && *value >= min && *value <= max);
}

static uint8_t signed_digits(struct cursor *c, int32_t *value) {
  uint32_t v;
  const uint8_t negative = (uint8_t)(c->at < c->end && *c->at == '-');
  if (negative) c->at++;
  if (!digits(c, &v)) return 0;
  if (negative) {
    if (v == 0 || v > 0x80000000u) return 0;
    *value = v == 0x80000000u ? INT32_MIN : -(int32_t)v;
  } else {
    if (v > 0x7fffffffu) return 0;
    *value = (int32_t)v;
  }
  return 1;
}

/* The verb at the cursor, or VERB_COUNT. */
static uint8_t verb(struct cursor *c) {
  uint8_t i;
  for (i = 0; i < VERB_COUNT; i++) {
    const char *word = VERBS[i];
    const uint8_t *at = c->at;
    while (*word && at < c->end && *at == (uint8_t)*word) {
      at++;
      word++;
    }
    if (*word == 0 && at < c->end && *at == ',') {
      c->at = at + 1;
      return i;
    }
  }
  return VERB_COUNT;
}

static enum sb_input command(struct sb_parser *p, uint8_t body) {
  struct cursor c;
  uint32_t v;
  struct sb_command *k = &p->command;
  c.at = p->line + 2;
  c.end = p->line + body;
  p->numbered = 0;
  if (!ranged(&c, 0, 0xffff, &v)) return SB_IN_FORM;
  k->number = (uint16_t)v;
  p->numbered = 1;
  p->refusal = SB_UNKNOWN_VERB;
  k->verb = verb(&c);
  if (k->verb == VERB_COUNT) return SB_IN_FORM;
  p->refusal = SB_RANGE;
  if (k->verb == SB_START) {
    if (!ranged(&c, 1, 1000, &v)) return SB_IN_FORM;
    k->rate_hz = (uint16_t)v;
  }
  if (k->verb == SB_LIMIT) {
    if (!ranged(&c, 0, SB_MAX_CHANNELS - 1, &v)) return SB_IN_FORM;
    k->limit.channel = (uint8_t)v;
    if (!signed_digits(&c, &k->limit.counts)) return SB_IN_FORM;
    if (!ranged(&c, 1, 0xffff, &v)) return SB_IN_FORM;
    k->limit.mbar = (uint16_t)v;
  }
  return c.at == c.end ? SB_COMMAND : SB_IN_FORM;
}

static uint8_t is_printable(const struct sb_parser *p) {
  uint8_t i;
  for (i = 0; i + 1 < p->length; i++)
    if (p->line[i] < 0x20 || p->line[i] > 0x7e) return 0;
  return 1;
}

/* 1 when the line is closed by the CRC of what stands before it. */
static uint8_t crc_holds(const struct sb_parser *p) {
  uint32_t crc = 0xffffffffu, given = 0;
  uint8_t i;
  const uint8_t body = (uint8_t)(p->length - TAIL);
  if (p->length <= TAIL || p->line[body - 1] != ',') return 0;
  for (i = body; i < body + 8; i++) {
    const uint8_t ch = p->line[i];
    uint8_t d;
    if (ch >= '0' && ch <= '9')
      d = (uint8_t)(ch - '0');
    else if (ch >= 'a' && ch <= 'f')
      d = (uint8_t)(ch - 'a' + 10);
    else
      return 0;
    given = (given << 4) | d;
  }
  for (i = 0; i < body; i++) crc = sb_crc_byte(crc, p->line[i]);
  return (uint8_t)(~crc == given);
}

static enum sb_input whole_line(struct sb_parser *p) {
  const uint8_t opened = p->opened;
  uint8_t lettered, ours;
  p->opened = 1;
  if (p->discarding) {
    p->discarding = 0;
    return SB_IN_LONG;
  }
  lettered = (uint8_t)(p->length > 2 && p->line[1] == ',' && p->line[0] >= 'A' && p->line[0] <= 'Z');
  ours = (uint8_t)(lettered && p->line[0] == 'K');
  if (!crc_holds(p)) {
    if (!opened) return SB_IN_PARTIAL;
    return ours && is_printable(p) ? SB_IN_CRC : SB_IN_GARBAGE;
  }
  if (!lettered || !is_printable(p)) return SB_IN_GARBAGE;
  if (!ours) return SB_IN_UNKNOWN;
  return command(p, (uint8_t)(p->length - TAIL));
}

enum sb_input sb_parser_push(struct sb_parser *p, uint8_t byte) {
  p->numbered = 0;
  p->line[p->fill++] = byte;
  if (byte == '\n') {
    p->length = p->fill;
    p->fill = 0;
    return whole_line(p);
  }
  if (p->fill == SB_MAX_LINE) {
    p->length = p->fill;
    p->fill = 0;
    p->discarding = 1;
    p->opened = 1;
    return SB_IN_LONG;
  }
  return SB_MORE;
}
