/* The least device of SPEC.md, part 8: one pressure, no guard, no events; C99, nothing of a library. */
#include "least.h"

/* Your own: name and firmware, the channel's line, and the rate: as quick as it converts, and the wire carries (part 5, Rate: 45 bytes a line here). */
static const char HELLO[] = "my-first-1,1.0", CHANNEL[] = "0,press,hose,current,,16,0,32768,0,20480,0,600000,100000";
enum { MOST_HZ = 100 }; /* 115200 baud carry 230 */

static uint32_t crc, seq, rate, last, due, heard_at;
static char line[129]; /* what the host said, so far; one more byte than a line may have */
static int length, heard;

static void check(char c) {
  crc ^= (uint8_t)c;
  for (int bit = 0; bit < 8; bit++) crc = crc >> 1 ^ (crc & 1 ? 0x82f63b78u : 0);
}
static char digit(int n) { return "0123456789abcdef"[~crc >> (28 - 4 * n) & 15]; }
static void out(char c) { check(c), put(c); }
static void text(const char *s) { for (; *s; s++) out(*s); out(','); }
static void number(uint32_t v) {
  char digits[11] = "", *at = digits + 10;
  do *--at = (char)('0' + v % 10); while (v /= 10);
  text(at);
}
static void begin(const char *letter) { crc = ~0u, text(letter); }
static void end(void) { for (int n = 0; n < 8; n++) put(digit(n)); put('\n'); }
static void reply(const char *result) { begin("R"), text(line + 2), text(result); } /* its value and the end are still to come */
static const char *after(const char *at, const char *word) { while (*word) if (*at++ != *word++) return 0; return at; }

static void command(void) { /* K,number,verb,arguments,check and LF */
  char *close = line + length - 9, *verb = line + 2, *at;
  const char *rest;
  uint32_t hz = 0;
  if (length < 13 || length > 128 || line[0] != 'K' || line[1] != ',' || close[-1] != ',') return;
  for (crc = ~0u, at = line; at < close; check(*at++)) if (*at < ' ' || *at > '~') return;
  for (int n = 0; n < 8; n++) if (close[n] != digit(n)) return;
  while (*verb >= '0' && *verb <= '9' && hz <= 65535) hz = hz * 10 + (uint32_t)(*verb++ - '0');
  if (*verb != ',' || verb == line + 2 || hz > 65535 || (line[2] == '0' && verb > line + 3)) return;
  *verb++ = 0, hz = 0; /* the number is sent back as it came */
  if (!heard) put('\n');
  heard = 1, heard_at = ticks();
  if ((rest = after(verb, "start,"))) {
    while (*rest >= '0' && *rest <= '9' && hz <= 1000) hz = hz * 10 + (uint32_t)(*rest++ - '0');
    if (rest + 1 != close || hz < 1 || hz > 1000 || verb[6] == '0') { reply("range"), text(""), end(); return; }
    last = heard_at, due = 0, rate = hz < MOST_HZ ? hz : MOST_HZ;
    reply(rate < hz ? "clamped" : "ok"), number(rate), end();
  } else if ((rest = after(verb, "hello,")) || (rest = after(verb, "stop,")) || (rest = after(verb, "beat,"))) {
    reply(rest == close ? "ok" : "range"), text(""), end();
    if (rest == close && *verb == 's') rate = 0;
    if (rest != close || *verb != 'h') return;
    begin("H"), text("1"), text(HELLO), number(boot_id()), number(heard_at), text("1"), number(MOST_HZ), end();
    begin("C"), text(CHANNEL), end();
  } else reply("unknown"), text(""), end();
}

void least(void) {
  const uint32_t now = ticks();
  const int c = get();
  if (c >= 0 && length < 129) line[length++] = (char)c;
  if (c == '\n') command(), length = 0;
  if (!rate || last == now) return;
  due += (now - last) * rate, last = now; /* 10000 make a period */
  if (due < 10000) return;
  seq += due / 10000, due %= 10000; /* where the wire was late, the gap shows */
  begin("S"), number(seq - 1), number(now), number(convert()), text(now - heard_at < 30000 ? "0" : "32"), end();
}
