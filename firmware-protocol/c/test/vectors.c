/* The C runner over vectors.txt (see vectors/to-text.mjs). Commands go through the parser. What a device sends is
   written by the encoder from the expected values and, with the stray bytes, has to give the vector's bytes. */
#include "../steadybar.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MOST 4096
static uint8_t input[MOST], built[MOST];
static size_t input_length, built_length;
static char name[300];
static int host, failed_here;
static int passed, failed;

/* What the parser found in a host vector, one line each in the form of the file. */
static char found[8][700];
static int found_count, found_at;

static void fail(const char *why, const char *detail) {
  if (!failed_here) printf("FAILED %s: %s %s\n", name, why, detail);
  failed_here = 1;
}

static void put(void *context, uint8_t byte) {
  (void)context;
  if (built_length < MOST) built[built_length++] = byte;
}

static size_t unhex(const char *hex, uint8_t *out) {
  size_t n = 0;
  unsigned b;
  while (n < MOST && sscanf(hex + 2 * n, "%2x", &b) == 1) out[n++] = (uint8_t)b;
  return n;
}

static void note_stray(const char *reason, const uint8_t *bytes, size_t n) {
  char *at = found[found_count];
  size_t i;
  if (n == 0 || found_count == 8) return;
  at += sprintf(at, "s %s ", reason);
  for (i = 0; i < n && i < 300; i++) at += sprintf(at, "%02x", bytes[i]);
  found_count++;
}

static void parse_all(void) {
  static const char *const VERBS[] = {"hello", "start", "stop", "beat", "limit", "read", "disarm", "silence"};
  static const char *const REASONS[] = {"", "", "garbage", "crc", "form", "long", "partial", "unknown"};
  struct sb_parser p;
  size_t i;
  found_count = found_at = 0;
  sb_parser_init(&p);
  for (i = 0; i < input_length; i++) {
    const enum sb_input in = sb_parser_push(&p, input[i]);
    if (in == SB_COMMAND && found_count < 8) {
      const struct sb_command *k = &p.command;
      char *at = found[found_count++];
      at += sprintf(at, "f K %u %s", k->number, VERBS[k->verb]);
      if (k->verb == SB_START) sprintf(at, " %u", k->rate_hz);
      if (k->verb == SB_LIMIT) sprintf(at, " %u %ld %u", k->limit.channel, (long)k->limit.counts, k->limit.mbar);
    } else if (in != SB_MORE && in != SB_COMMAND) {
      note_stray(REASONS[in], p.line, p.length);
    }
  }
  /* The unfinished line, as the end of the input leaves it. */
  note_stray(p.discarding ? "long" : "partial", p.line, p.fill);
}

static char *fields[20];
static int field_count;
static int next;

static const char *word(void) {
  const char *f = next < field_count ? fields[next++] : "";
  return strcmp(f, "~") ? f : "";
}
static uint32_t u32(void) { return (uint32_t)strtoul(word(), NULL, 10); }
static int32_t i32(void) { return (int32_t)strtol(word(), NULL, 10); }
static int is_empty(void) { return next < field_count && !strcmp(fields[next], "~"); }
static uint8_t index_or_none(void) {
  if (is_empty()) {
    next++;
    return SB_NONE;
  }
  return (uint8_t)u32();
}
static int find(const char *const *list, int n) {
  const char *w = word();
  int i;
  for (i = 0; i < n; i++)
    if (!strcmp(list[i], w)) return i;
  fail("no such word", w);
  return 0;
}

static void encode(char letter) {
  static const char *const CODES[] = {"boot", "button", "trip", "return", "fault", "hostlost", "hostback"};
  static const char *const STATES[] = {"unarmed", "armed", "tripped", "silenced"};
  static const char *const RESULTS[] = {"ok", "clamped", "refused", "range", "unknown", "busy"};
  struct sb_writer w;
  w.put = put;
  w.context = NULL;
  if (letter == 'S') {
    struct sb_sample s;
    memset(&s, 0, sizeof s);
    s.seq = u32();
    s.tick = u32();
    while (next < field_count - 1 && s.channels < SB_MAX_CHANNELS) {
      if (!is_empty()) s.fresh |= (uint8_t)(1u << s.channels);
      s.counts[s.channels++] = i32();
    }
    s.status = (uint16_t)u32();
    sb_put_sample(&w, &s);
  } else if (letter == 'H') {
    struct sb_hello h;
    h.version = (uint16_t)u32();
    h.device_id = word();
    h.firmware = word();
    h.boot_id = u32();
    h.uptime = u32();
    h.channels = (uint8_t)u32();
    h.max_rate_hz = (uint16_t)u32();
    sb_put_hello(&w, &h);
  } else if (letter == 'C') {
    struct sb_channel c;
    const uint8_t index = (uint8_t)u32();
    c.quantity = word();
    c.place = word();
    c.signal = word();
    c.partner = index_or_none();
    c.bits = (uint8_t)u32();
    c.raw_lo = i32();
    c.raw_hi = i32();
    c.el_lo = i32();
    c.el_hi = i32();
    c.range_lo = i32();
    c.range_hi = i32();
    c.rate_mhz = u32();
    sb_put_channel(&w, index, &c);
  } else if (letter == 'E') {
    struct sb_event e;
    e.number = (uint16_t)u32();
    e.tick = u32();
    e.code = (uint8_t)find(CODES, 7);
    e.channel = index_or_none();
    e.has_value = (uint8_t)!is_empty();
    e.value = i32();
    sb_put_event(&w, &e);
  } else if (letter == 'G') {
    struct sb_limit limit;
    const uint32_t tick = u32();
    const uint8_t state = (uint8_t)find(STATES, 4);
    limit.channel = (uint8_t)u32();
    limit.counts = i32();
    limit.mbar = (uint16_t)u32();
    sb_put_guard(&w, tick, state, &limit, (uint8_t)u32());
  } else if (letter == 'R') {
    struct sb_reply r;
    r.command = (uint16_t)u32();
    r.result = (uint8_t)find(RESULTS, 6);
    r.has_value = (uint8_t)!is_empty();
    r.value = i32();
    sb_put_reply(&w, &r);
  } else {
    fail("a device sends no such frame", "");
  }
}

static void close_vector(void) {
  if (!name[0]) return;
  if (host) {
    if (found_at != found_count) fail("the parser found more:", found[found_at]);
  } else if (built_length != input_length || memcmp(built, input, input_length) != 0) {
    fail("other bytes:", (const char *)built);
  }
  if (failed_here) failed++;
  else passed++;
}

static void expect(char *line) {
  if (host) {
    if (found_at == found_count || strcmp(found[found_at], line)) fail("expected", line);
    else found_at++;
    return;
  }
  field_count = next = 0;
  if (line[0] == 's') {
    char *hex = strchr(line + 2, ' ');
    if (hex != NULL) built_length += unhex(hex + 1, built + built_length);
    return;
  }
  for (line = strtok(line + 4, " "); line != NULL && field_count < 20; line = strtok(NULL, " ")) fields[field_count++] = line;
}

int main(int argc, char **argv) {
  static char line[2 * MOST + 10];
  FILE *f = argc > 1 ? fopen(argv[1], "r") : NULL;
  if (f == NULL) {
    fprintf(stderr, "usage: vectors vectors.txt\n");
    return 2;
  }
  while (fgets(line, sizeof line, f) != NULL) {
    line[strcspn(line, "\n")] = 0;
    if (line[0] == 'v') {
      close_vector();
      failed_here = 0;
      host = !strncmp(line + 2, "host ", 5);
      snprintf(name, sizeof name, "%.290s", line + 2);
      built_length = input_length = 0;
      memset(built, 0, sizeof built);
    } else if (line[0] == 'x') {
      input_length = line[2] == '-' ? 0 : unhex(line + 2, input);
      if (host) parse_all();
    } else {
      const char letter = line[0] == 'f' ? line[2] : 0;
      expect(line);
      if (!host && letter) encode(letter);
    }
  }
  close_vector();
  fclose(f);
  printf("%d passed, %d failed\n", passed, failed);
  return failed != 0 || passed == 0;
}
