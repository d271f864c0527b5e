/* Guard without a line and without a device: time and counts by hand. */
#include "../steadybar.h"
#include "check.h"
#include <string.h>

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

int main(void) {
  limit_rules();
  trips();
  supply();
  stored();
  return told();
}
