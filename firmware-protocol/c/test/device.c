/* The whole device without a wire: what it is told goes in byte by byte, what it says is read as text. */
#include "../steadybar.h"
#include "check.h"
#include <string.h>

static const struct sb_limit LIMIT = {0, BAR15, 1500};
static const struct sb_channel CHANNELS[2] = {
    {"press", "hose", "ratio", 1, 16, 4000, 36000, 100000, 900000, 0, 600000, 1000000},
    {"supply", "", "voltage", SB_NONE, 16, 0, 40000, 0, 5000000, 4500000, 5500000, 10000},
};
static struct sb_config config = {"sb-1", "1", CHANNELS, 2, 1000, 115200, 0, SMALL, FLOOR, BAND, 1, 40000};
static uint8_t memory[SB_RECORD];
static int memory_fails, saves;
static int8_t load(void *c, uint8_t *r) {
  (void)c;
  memcpy(r, memory, SB_RECORD);
  return 0;
}
static int8_t save(void *c, const uint8_t *r) {
  (void)c;
  if (memory_fails) return -1;
  saves++;
  memcpy(memory, r, SB_RECORD);
  return 0;
}
static const struct sb_hooks HOOKS = {NULL, load, save};
static struct sb_device d;
static char text[20000];
static size_t length;

static void put_text(void *context, uint8_t byte) {
  char **at = context;
  *(*at)++ = (char)byte;
  **at = 0;
}

/* What the device sent since the last call, as text. */
static const char *sent(uint32_t tick) {
  int16_t byte;
  length = 0;
  for (;;) {
    sb_device_poll(&d, tick);
    if (d.ring.head == d.ring.tail) break;
    while ((byte = sb_ring_take(&d.ring)) >= 0) text[length++] = (char)byte;
  }
  text[length] = 0;
  return text;
}

/* Was every byte of the command taken? */
static int heard(uint32_t tick, const char *body) {
  char line[SB_MAX_LINE + 1];
  char *at = line;
  struct sb_writer w;
  const char *c;
  int all = 1;
  w.put = put_text;
  w.context = &at;
  sb_begin(&w, 'K');
  {
    char copy[100];
    char *f;
    snprintf(copy, sizeof copy, "%s", body);
    for (f = strtok(copy, ","); f != NULL; f = strtok(NULL, ",")) sb_text(&w, f);
  }
  sb_end(&w);
  for (c = line; *c; c++) all &= sb_device_receive(&d, tick, (uint8_t)*c) != 0;
  return all;
}

static void say(uint32_t tick, const char *body) { CHECK(heard(tick, body)); }

static int has(const char *what) { return strstr(text, what) != NULL; }

static void conversation(void) {
  const int32_t counts[2] = {BAR1, 40000};
  uint32_t t = 100;
  int i;
  memset(memory, 0xff, sizeof memory);
  sb_device_init(&d, &config, &HOOKS, 77, 0);
  sb_device_convert(&d, t, ZERO);
  CHECK(sent(t)[0] == 0); /* silent until spoken to */
  say(t, "1,hello");
  sent(t);
  /* LF first, should the last start have been cut in mid-line. */
  CHECK(!strncmp(text, "\nR,1,ok,,", 9) && has("H,1,sb-1,1,77,100,2,") && has("\nC,0,press") && has("\nC,1,supply"));
  CHECK(has(",fault,,6,") && has(",unarmed,,,,0,") && !has(",boot,"));
  /* The rate that the baud carries: 10368 bytes a second, 51 the longest line. */
  say(t, "2,start,500");
  CHECK(!strncmp(sent(t), "R,2,clamped,203,", 16) && d.rate_hz == 203 && sb_rate_limit(&config) == 203);
  /* A repeated number is answered again and not carried out again. */
  say(t, "2,stop");
  CHECK(!strncmp(sent(t), "R,2,clamped,203,", 16) && d.rate_hz == 203);
  say(t, "3,fly");
  CHECK(!strncmp(sent(t), "R,3,unknown,,", 13));
  say(t, "4,start,0");
  CHECK(!strncmp(sent(t), "R,4,range,,", 11) && d.rate_hz == 203);
  sb_device_sample(&d, t, counts, 1);
  CHECK(!strncmp(sent(t), "S,0,100,9333,,0,", 16));
  /* A full fifo drops the newest and says so in the next line; the number shows how many. */
  for (i = 0; i < 6; i++) sb_device_sample(&d, t + 50, counts, 3);
  sent(t + 50);
  CHECK(has("S,1,150,9333,40000,1,") && has("S,3,150,9333,40000,0,") && !has("S,4,"));
  sb_device_sample(&d, t + 60, counts, 3);
  CHECK(!strncmp(sent(t + 60), "S,7,160,9333,40000,0,", 21));
  /* A ring that nobody empties: whole lines or nothing, and the bit sticks until a line leaves. */
  for (i = 0; i < 40; i++) {
    sb_device_sample(&d, t + 70, counts, 3);
    sb_device_poll(&d, t + 70);
  }
  sent(t + 70);
  CHECK(length > 200 && text[length - 1] == '\n');
  sb_device_sample(&d, t + 80, counts, 3);
  CHECK(!strncmp(sent(t + 80), "S,48,180,9333,40000,1,", 22));
  sb_device_sample(&d, t + 90, counts, 3);
  CHECK(!strncmp(sent(t + 90), "S,49,190,9333,40000,0,", 22));
}

static void limit_survives(void) {
  uint32_t t = 500;
  const int before = saves;
  say(t, "10,limit,0,12000,1500");
  CHECK(!strncmp(sent(t), "R,10,ok,12000,", 14) && has("G,500,armed,0,12000,1500,0,") && saves == before + 1);
  say(t, "11,limit,1,12000,1500");
  CHECK(!strncmp(sent(t), "R,11,range,12000,", 17));
  say(t, "12,limit,0,36001,6000");
  CHECK(!strncmp(sent(t), "R,12,range,12000,", 17));
  sb_device_convert(&d, t, BAR1);
  say(t, "13,limit,0,12001,1501");
  CHECK(!strncmp(sent(t), "R,13,refused,12000,", 19) && saves == before + 1);
  /* A trip is told at once, and the button acknowledges. */
  sb_device_convert(&d, t + 1, BAR15);
  sent(t + 1);
  CHECK(has(",trip,0,12000,") && has("G,501,tripped,0,12000,1500,1,") && sb_device_beacon(&d) == 2);
  sb_device_button(&d, t + 2, 1);
  sb_device_button(&d, t + 2, 1);
  sent(t + 2);
  CHECK(has(",button,,,") && has("G,502,silenced,0,12000,1500,0,") && sb_device_beacon(&d) == 2);
  /* Another start: the limit is there, and the start is told to whoever speaks without a hello. */
  sb_device_init(&d, &config, &HOOKS, 78, SB_FAULT_WATCHDOG);
  CHECK(d.guard.state == SB_IS_ARMED && d.guard.limit.counts == 12000);
  sb_device_convert(&d, 5, BAR15);
  CHECK(sb_guard_sounder(&d.guard)); /* before any host spoke */
  CHECK(sent(5)[0] == 0);
  say(6, "20,beat");
  sent(6);
  CHECK(!strncmp(text, "\nR,20,ok,,", 10) && has("E,0,0,boot,,2,") && has(",trip,0,12000,"));
  /* Not kept where the store fails: carried out, and said. */
  sb_device_convert(&d, 7, ZERO);
  memory_fails = 1;
  say(7, "21,disarm");
  sent(7);
  CHECK(!strncmp(text, "R,21,ok,,", 9) && has(",fault,,1,") && d.guard.state == SB_IS_UNARMED);
  memory_fails = 0;
  sb_device_init(&d, &config, &HOOKS, 79, 0);
  CHECK(d.guard.state == SB_IS_ARMED); /* what the store says, which is the safe side */
}

static void host_goes(void) {
  uint32_t t = 100;
  const int32_t counts[2] = {ZERO, 34000};
  sb_device_init(&d, &config, &HOOKS, 80, 0);
  sb_device_convert(&d, t, ZERO);
  say(t, "1,start,100");
  sent(t);
  sb_device_convert(&d, t += 3 * SB_SECOND - 1, ZERO);
  CHECK(!strstr(sent(t), "hostlost"));
  sb_device_convert(&d, t += 1, ZERO);
  CHECK(strstr(sent(t), ",hostlost,,,") != NULL && sb_device_beacon(&d) == 1);
  sb_device_sample(&d, t, counts, 3);
  sent(t);
  CHECK(has(",4000,34000,52,")); /* armed, supply low at 4.25 V, host silent */
  CHECK(has(",fault,1,4,"));
  say(t, "2,beat");
  CHECK(strstr(sent(t), ",hostback,,,") != NULL);
  sb_device_sample(&d, t, counts, 1);
  CHECK(strstr(sent(t), ",4000,,20,") != NULL); /* armed, supply low */
  /* No conversion for a second: the guard is blind, and says so once. */
  say(t += SB_SECOND, "3,beat");
  CHECK(strstr(sent(t), ",fault,0,3,") != NULL);
  CHECK(strstr(sent(t + 1), ",fault,0,3,") == NULL);
}

/* An age of more than half of the clock's span is none: what is known is forgotten before. */
static void blind_for_days(void) {
  uint32_t t = 100;
  int hours;
  memset(memory, 0xff, sizeof memory);
  sb_device_init(&d, &config, &HOOKS, 84, 0);
  sb_device_convert(&d, t, ZERO);
  say(t, "1,limit,0,12000,1500");
  sent(t);
  for (hours = 0; hours < 130; hours++) {
    t += 3600 * SB_SECOND;
    say(t, "2,beat");
    sent(t);
    CHECK(has(",fault,0,3,") == (hours == 0));
    say(t, "3,disarm");
    CHECK(!strncmp(sent(t), "R,3,refused,,", 13) && sb_device_beacon(&d) == 1);
  }
  sb_device_convert(&d, t, ZERO);
  sent(t);
  say(t, "4,disarm");
  CHECK(!strncmp(sent(t), "R,4,ok,,", 8));
}

/* Where `what` begins in the text, or past its end. */
static size_t place(const char *what) {
  const char *at = strstr(text, what);
  return at == NULL ? sizeof text : (size_t)(at - text);
}

/* SPEC.md, part 4: empty line, R, events by their numbers, G, then what the verb asks for. */
static void first_answer(void) {
  memset(memory, 0xff, sizeof memory);
  sb_device_init(&d, &config, &HOOKS, 81, SB_FAULT_WATCHDOG);
  sb_device_convert(&d, 5, ZERO);
  sent(5);
  say(5, "1,hello");
  sent(5);
  CHECK(place("\nR,1,ok,,") == 0 && place("R,1") < place("E,0,0,boot,,2,") && place("E,0") < place("E,1,0,fault,,6,"));
  CHECK(place("E,1") < place("G,5,unarmed") && place("G,5") < place("H,1,sb-1") && place("H,1") < place("C,0,press"));
  CHECK(place("C,0,press") < place("C,1,supply") && place("C,1,supply") < length);
  /* Number 0 is that of boot, also where a hello makes it needless. */
  sb_device_init(&d, &config, &HOOKS, 82, 0);
  sb_device_convert(&d, 5, ZERO);
  say(5, "1,hello");
  sent(5);
  CHECK(!has("boot") && has("E,1,0,fault,,6,"));
}

/* SPEC.md, part 5, Rate: the worked example. */
static void rate_of_the_wire(void) {
  static const struct sb_channel PAIR[2] = {
      {"press", "hose", "ratio", 1, 10, 0, 1023, 0, 1091200, 0, 600000, 1000000},
      {"supply", "", "voltage", SB_NONE, 10, 0, 1023, 0, 5456000, 4500000, 5500000, 10000},
  };
  struct sb_config c = config;
  c.channels = PAIR;
  c.baud = 500000;
  CHECK(sb_rate_limit(&c) == 918);
  c.baud = 115200;
  CHECK(sb_rate_limit(&c) == 211);
  c.baud = 9600;
  CHECK(sb_rate_limit(&c) == 17);
  c.baud = 300;
  CHECK(sb_rate_limit(&c) == 1);
  c.baud = 0;
  CHECK(sb_rate_limit(&c) == 1000);
}

/* SPEC.md, part 8: 'unknown' to the guard's verbs, no G, no fault of a guard, bits 4 and 8 stay 0. */
static void without_guard(void) {
  const int32_t counts[2] = {BAR15, 40000};
  static const char *const OF_GUARD[] = {"limit,0,12000,1500", "limit,9,0,0", "read", "disarm", "silence"};
  struct sb_config bare = config;
  const struct sb_limit limit = LIMIT;
  uint32_t t = 10;
  size_t i;
  bare.guard_channel = SB_NONE;
  sb_record_write(memory, 1, &limit); /* left by other firmware */
  sb_device_init(&d, &bare, &HOOKS, 83, 0);
  CHECK(d.guard.state == SB_IS_UNARMED);
  say(t, "1,hello");
  sent(t);
  CHECK(!strncmp(text, "\nR,1,ok,,", 9) && has("H,1,sb-1") && has("C,1,supply") && !has("G,") && !has("E,"));
  for (i = 0; i < sizeof OF_GUARD / sizeof OF_GUARD[0]; i++) {
    char body[40];
    snprintf(body, sizeof body, "%u,%s", (unsigned)i + 2, OF_GUARD[i]);
    say(t, body);
    sent(t);
    snprintf(body, sizeof body, "R,%u,unknown,,", (unsigned)i + 2);
    CHECK(!strncmp(text, body, strlen(body)) && !has("G,"));
  }
  say(t, "20,start,100");
  sent(t);
  sb_device_convert(&d, t, BAR15);
  sb_device_sample(&d, t += 2 * SB_SECOND, counts, 3);
  sent(t);
  CHECK(has(",12000,40000,0,") && !has("G,") && !has("E,"));
  CHECK(!sb_guard_sounder(&d.guard) && sb_device_beacon(&d) == 0);
}

/* A day whose middle is the end of the clock: ten samples a second, none lost, each a tenth of a second after the last one. */
static void a_day(void) {
  const uint32_t noon = 12u * 3600 * SB_SECOND;
  const int32_t counts[2] = {BAR1, 40000};
  uint32_t t = 0u - noon, wrong = 0, n;
  char expected[64];
  memset(memory, 0xff, sizeof memory);
  sb_device_init(&d, &config, &HOOKS, 85, 0);
  sb_device_convert(&d, t, ZERO);
  say(t, "1,limit,0,12000,1500");
  sent(t);
  say(t, "2,start,10");
  sent(t);
  for (n = 0; n < 24u * 3600 * 10; n++) {
    t += SB_SECOND / 10;
    sb_device_convert(&d, t, BAR1);
    sb_device_sample(&d, t, counts, 3);
    if (n % 10 == 0) {
      snprintf(expected, sizeof expected, "%u,beat", (unsigned)(n / 10 % 1000 + 3));
      if (!heard(t, expected)) wrong++;
    }
    sent(t);
    snprintf(expected, sizeof expected, "S,%lu,%lu,9333,40000,4,", (unsigned long)n, (unsigned long)t);
    if (!has(expected) || has("E,")) wrong++;
  }
  CHECK(wrong == 0 && t == noon && d.guard.state == SB_IS_ARMED);
  /* And a second is a second: trip, and return one after it. */
  sb_device_convert(&d, t, BAR15);
  CHECK(sb_guard_sounder(&d.guard));
  sb_device_convert(&d, t += 1, BAR1);
  sb_device_convert(&d, t += SB_SECOND - 1, BAR1);
  CHECK(sb_guard_sounder(&d.guard));
  sb_device_convert(&d, t += 1, BAR1);
  CHECK(!sb_guard_sounder(&d.guard));
}

int main(void) {
  conversation();
  limit_survives();
  host_goes();
  blind_for_days();
  a_day();
  first_answer();
  rate_of_the_wire();
  without_guard();
  return told();
}
