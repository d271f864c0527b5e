/* Guard and device without a line: time and counts by hand. 4000-36000 counts are 0-6 bar, 5333 a bar. */
#include "../steadybar.h"
#include <stdio.h>
#include <string.h>

static int passed, failed;
static void check(int good, const char *what, int line) {
  if (good) {
    passed++;
  } else {
    failed++;
    printf("FAILED line %d: %s\n", line, what);
  }
}
#define CHECK(c) check((c) != 0, #c, __LINE__)

enum { ZERO = 4000, SMALL = 4533, FLOOR = 3200, BAND = 107, BAR1 = 9333, BAR15 = 12000 };
static const struct sb_limit LIMIT = {0, BAR15, 1500};

static void limit_rules(void) {
  struct sb_guard g;
  struct sb_limit l = LIMIT;
  sb_guard_init(&g, SMALL, FLOOR, BAND);
  CHECK(g.state == SB_IS_UNARMED);
  sb_guard_step(&g, 0, 40000);
  CHECK(g.state == SB_IS_UNARMED && !sb_guard_sounder(&g));

  /* Arming is allowed at any pressure: it can only make things safer. */
  sb_guard_step(&g, 10, BAR1);
  CHECK(sb_guard_set(&g, 10, &l) == SB_OK && g.state == SB_IS_ARMED);
  /* Lowering always. */
  l.counts = BAR15 - 100;
  l.mbar = 1481;
  CHECK(sb_guard_set(&g, 10, &l) == SB_OK && g.limit.counts == BAR15 - 100);
  /* Raising, another channel, a higher label, disarming: not under pressure. */
  l.counts++;
  CHECK(sb_guard_set(&g, 10, &l) == SB_REFUSED && g.limit.counts == BAR15 - 100);
  l.counts--;
  l.channel = 1;
  CHECK(sb_guard_set(&g, 10, &l) == SB_REFUSED);
  l.channel = 0;
  l.mbar++;
  CHECK(sb_guard_set(&g, 10, &l) == SB_REFUSED);
  CHECK(sb_guard_disarm(&g, 10) == SB_REFUSED && g.state == SB_IS_ARMED);
  /* One count under the small pressure is small; at it, it is not. */
  sb_guard_step(&g, 20, SMALL);
  CHECK(sb_guard_disarm(&g, 20) == SB_REFUSED);
  sb_guard_step(&g, 30, SMALL - 1);
  l.counts = BAR15;
  CHECK(sb_guard_set(&g, 30, &l) == SB_OK && g.limit.counts == BAR15);
  /* A pressure known a second ago is no longer known. */
  CHECK(sb_guard_disarm(&g, 30 + SB_SECOND + 1) == SB_REFUSED);
  /* A broken sensor reads low and is not taken for no pressure. */
  sb_guard_step(&g, 20000, FLOOR - 1);
  CHECK(sb_guard_disarm(&g, 20000) == SB_REFUSED);
  sb_guard_step(&g, 20010, ZERO);
  CHECK(sb_guard_disarm(&g, 20010) == SB_OK && g.state == SB_IS_UNARMED);
  /* A limit that any pressure trips is out of range. */
  l.counts = SMALL;
  CHECK(sb_guard_set(&g, 20010, &l) == SB_RANGE && g.state == SB_IS_UNARMED);
}

static void trips(void) {
  struct sb_guard g;
  uint32_t t = 0xfffffff0u; /* the clock wraps on the way */
  sb_guard_init(&g, SMALL, FLOOR, BAND);
  sb_guard_set(&g, t, &LIMIT);
  sb_guard_step(&g, t, BAR15 - 1);
  CHECK(g.state == SB_IS_ARMED);
  sb_guard_step(&g, t += 10, BAR15);
  CHECK(g.state == SB_IS_TRIPPED && sb_guard_sounder(&g) && g.trips == 1 && g.trip_counts == BAR15);
  sb_guard_silence(&g, t);
  CHECK(g.state == SB_IS_SILENCED && !sb_guard_sounder(&g));
  /* Inside the deadband nothing returns. */
  sb_guard_step(&g, t += 10, BAR15 - BAND + 1);
  sb_guard_step(&g, t += 2 * SB_SECOND, BAR15 - BAND + 1);
  CHECK(g.state == SB_IS_SILENCED);
  /* Under it for a second it does, */
  sb_guard_step(&g, t += 10, BAR15 - BAND);
  sb_guard_step(&g, t += SB_SECOND - 1, BAR15 - BAND);
  CHECK(g.state == SB_IS_SILENCED);
  sb_guard_step(&g, t += 1, BAR15 - BAND);
  CHECK(g.state == SB_IS_ARMED && g.returns == 1);
  /* and a new trip sounds again. */
  sb_guard_step(&g, t += 10, BAR15 + 5);
  CHECK(g.state == SB_IS_TRIPPED && g.trips == 2);
  /* A sensor that breaks while tripped is no return. */
  sb_guard_step(&g, t += 10, 0);
  sb_guard_step(&g, t += 3 * SB_SECOND, 0);
  CHECK(g.state == SB_IS_TRIPPED);
  /* Silence ends after two minutes while the pressure stands. */
  sb_guard_silence(&g, t);
  sb_guard_step(&g, t += 119 * SB_SECOND, BAR15);
  CHECK(g.state == SB_IS_SILENCED);
  sb_guard_step(&g, t += SB_SECOND, BAR15);
  CHECK(g.state == SB_IS_TRIPPED && g.trips == 3);
  /* A conversion stamped a little before the last one does not shorten the second. */
  sb_guard_step(&g, t += 10, ZERO);
  sb_guard_step(&g, t - 5, ZERO);
  CHECK(g.state == SB_IS_TRIPPED);
  /* Lowering under the pressure trips at the next conversion. */
  {
    struct sb_limit l = {0, BAR1, 1000};
    sb_guard_init(&g, SMALL, FLOOR, BAND);
    sb_guard_set(&g, t, &LIMIT);
    sb_guard_step(&g, t, BAR1 + 50);
    CHECK(g.state == SB_IS_ARMED);
    sb_guard_set(&g, t, &l);
    sb_guard_step(&g, t + 1, BAR1 + 50);
    CHECK(g.state == SB_IS_TRIPPED);
  }
}

static void supply(void) {
  struct sb_guard g;
  sb_guard_init(&g, SMALL, FLOOR, BAND);
  sb_guard_set(&g, 0, &LIMIT);
  /* 4.6 of 5 V: the sensor gives 0.92 of its counts, and the limit goes with it. */
  sb_guard_supply(&g, 36800, 40000);
  CHECK(g.effective <= 11040 && g.effective >= 11000);
  sb_guard_step(&g, 1, 11040);
  CHECK(g.state == SB_IS_TRIPPED && g.limit.counts == BAR15);
  /* A high supply does not raise it. */
  sb_guard_supply(&g, 44000, 40000);
  CHECK(g.effective == BAR15);
  /* Too low to believe: nothing may be raised, and the correction stops at 0.9. */
  sb_guard_supply(&g, 0, 40000);
  CHECK(g.effective >= 10700 && g.effective <= 10805 && g.supply_1024 == 0);
  sb_guard_step(&g, 2, ZERO);
  CHECK(sb_guard_disarm(&g, 2) == SB_REFUSED);
  /* No overflow at the greatest counts. */
  {
    struct sb_limit l = {0, 0x7fffffff, 1};
    sb_guard_init(&g, SMALL, FLOOR, BAND);
    sb_guard_set(&g, 0, &l);
    sb_guard_supply(&g, 0x73333332, 0x7fffffff);
    CHECK(g.effective > 0x73000000 && g.effective < 0x73800000);
  }
}

static void stored(void) {
  uint8_t record[SB_RECORD];
  struct sb_limit l;
  int i;
  sb_record_write(record, 1, &LIMIT);
  memset(&l, 0, sizeof l);
  CHECK(sb_record_read(record, &l) == 1 && l.channel == 0 && l.counts == BAR15 && l.mbar == 1500);
  for (i = 0; i < SB_RECORD; i++) {
    record[i] ^= 4;
    CHECK(sb_record_read(record, &l) == -1);
    record[i] ^= 4;
  }
  l.counts = INT32_MIN;
  sb_record_write(record, 0, &l);
  l.counts = 0;
  CHECK(sb_record_read(record, &l) == 0 && l.counts == INT32_MIN);
  memset(record, 0xff, sizeof record);
  CHECK(sb_record_read(record, &l) == -1);
  memset(record, 0, sizeof record);
  CHECK(sb_record_read(record, &l) == -1);
}

/* ---- the whole device ------------------------------------------------------------------------------------- */

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

static void say(uint32_t tick, const char *body) {
  char line[SB_MAX_LINE + 1];
  char *at = line;
  struct sb_writer w;
  const char *c;
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
  for (c = line; *c; c++) CHECK(sb_device_receive(&d, tick, (uint8_t)*c));
}

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

/* SPEC.md, part 9: 'unknown' to the guard's verbs, no G, no fault of a guard, bits 4 and 8 stay 0. */
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

int main(void) {
  limit_rules();
  trips();
  supply();
  stored();
  conversation();
  limit_survives();
  host_goes();
  blind_for_days();
  first_answer();
  rate_of_the_wire();
  without_guard();
  printf("%d passed, %d failed\n", passed, failed);
  return failed != 0 || passed == 0;
}
