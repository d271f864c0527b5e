/* Any bytes into the parser of commands. Nothing is lost, and what is taken for a command has exactly that one form. */
#include "line.h"
#include <string.h>

static const char *const VERBS[] = {"hello", "start", "stop", "beat", "limit", "read", "disarm", "silence"};

struct bytes {
  uint8_t data[2 * SB_MAX_LINE];
  size_t n;
};

static void put(void *context, uint8_t byte) {
  struct bytes *b = context;
  if (b->n < sizeof b->data) b->data[b->n++] = byte;
}

/* The command written anew must be the bytes that came. */
static void same_again(const struct sb_parser *p) {
  struct bytes b;
  struct sb_writer w;
  const struct sb_command *k = &p->command;
  b.n = 0;
  w.put = put;
  w.context = &b;
  sb_begin(&w, 'K');
  sb_u32(&w, k->number);
  if (k->verb > SB_SILENCE) broken("verb");
  sb_text(&w, VERBS[k->verb]);
  if (k->verb == SB_START) {
    if (k->rate_hz < 1 || k->rate_hz > 1000) broken("rate");
    sb_u32(&w, k->rate_hz);
  }
  if (k->verb == SB_LIMIT) {
    if (k->limit.channel >= SB_MAX_CHANNELS || k->limit.mbar < 1) broken("limit");
    sb_u32(&w, k->limit.channel);
    sb_i32(&w, k->limit.counts);
    sb_u32(&w, k->limit.mbar);
  }
  sb_end(&w);
  if (b.n != p->length || memcmp(b.data, p->line, b.n) != 0) broken("command in two forms");
}

/* What came in one piece. */
static size_t took(const struct sb_parser *p, enum sb_input input) {
  if (p->length == 0 || p->length > SB_MAX_LINE) broken("length");
  if (input == SB_COMMAND) same_again(p);
  if (p->numbered && input != SB_COMMAND && input != SB_IN_FORM) broken("number of no command");
  if (p->numbered && input == SB_IN_FORM && p->refusal != SB_RANGE && p->refusal != SB_UNKNOWN_VERB) broken("refusal");
  return p->length;
}

static size_t push(struct sb_parser *p, uint8_t byte) {
  const enum sb_input input = sb_parser_push(p, byte);
  return input == SB_MORE ? 0 : took(p, input);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  struct sb_parser p;
  size_t i, from = 1, sent = 0, seen = 0;
  if (size == 0) return 0;
  sb_parser_init(&p);
  for (i = 1; i < size; i++) {
    /* Where the first byte says so, a line is closed by its right check: else nothing would pass it. */
    if (data[i] == '\n' && (data[0] & 1)) {
      static const char HEX[] = "0123456789abcdef";
      const uint32_t crc = plain_crc(data + from, i - from);
      int shift;
      for (shift = 28; shift >= 0; shift -= 4) {
        seen += push(&p, (uint8_t)HEX[crc >> shift & 15]);
        sent++;
      }
    }
    seen += push(&p, data[i]);
    sent++;
    if (data[i] == '\n') from = i + 1;
  }
  if (seen + p.fill != sent) broken("bytes lost");
  return 0;
}
