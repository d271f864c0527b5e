/* The device's own limit. It moves a sounder and a beacon and nothing else. Rules and reasons: SPEC.md, "Guard". */
#include "steadybar.h"

/* The pressure must be known from a conversion no older than this to raise or disarm; after it the guard is blind. */
#define FRESH (SB_SECOND)
/* Under the limit for so long before the sounder falls silent by itself. */
#define RETURN_AFTER (SB_SECOND)
/* An acknowledged sounder sounds again after this when the pressure is still over the limit. */
#define SILENCE_LASTS (120u * SB_SECOND)
/* 0.9 of the nominal supply in 1024ths. */
#define LEAST_SUPPLY 922

/* A moment later than `now` has an age of 0: the interrupt may have been later than the main loop's tick. */
static uint32_t age(uint32_t now, uint32_t then) {
  const uint32_t ticks = now - then;
  return ticks > 0x80000000u ? 0 : ticks;
}

void sb_guard_init(struct sb_guard *g, int32_t small, int32_t floor, int32_t deadband) {
  g->state = SB_IS_UNARMED;
  g->limit.channel = 0;
  g->limit.counts = 0;
  g->limit.mbar = 0;
  g->effective = 0;
  g->small = small;
  g->floor = floor;
  g->deadband = deadband;
  g->supply_1024 = 1024;
  g->known = 0;
  g->forgotten = 0;
  g->counts = 0;
  g->counts_tick = 0;
  g->below = 0;
  g->below_since = 0;
  g->silenced_tick = 0;
  g->trips = 0;
  g->returns = 0;
  g->trip_counts = 0;
}

void sb_guard_step(struct sb_guard *g, uint32_t tick, int32_t counts) {
  g->counts = counts;
  g->counts_tick = tick;
  g->known = 1;
  g->forgotten = 0;
  if (g->state == SB_IS_UNARMED) return;
  if (counts >= g->effective) {
    g->below = 0;
    if (g->state == SB_IS_ARMED || (g->state == SB_IS_SILENCED && age(tick, g->silenced_tick) >= SILENCE_LASTS)) {
      g->state = SB_IS_TRIPPED;
      g->trip_counts = counts;
      g->trips++;
    }
    return;
  }
  /* A broken sensor reads low: that is no return. */
  if (g->state == SB_IS_ARMED || counts > g->effective - g->deadband || counts < g->floor) {
    g->below = 0;
    return;
  }
  if (!g->below) {
    g->below = 1;
    g->below_since = tick;
  } else if (age(tick, g->below_since) >= RETURN_AFTER) {
    g->below = 0;
    g->state = SB_IS_ARMED;
    g->returns++;
  }
}

uint8_t sb_guard_blind(struct sb_guard *g, uint32_t tick) {
  uint8_t blind;
  SB_LOCK();
  blind = (uint8_t)(g->known ? age(tick, g->counts_tick) >= FRESH : g->forgotten || tick >= FRESH);
  if (blind) {
    g->known = 0;
    g->below = 0;
    g->forgotten = 1;
  }
  SB_UNLOCK();
  return blind;
}

/* value times supply over nominal, never more than value; by shifts, as value may use all 31 bits. */
static int32_t corrected(const struct sb_guard *g, int32_t value) {
  const uint16_t missing = (uint16_t)(1024 - (g->supply_1024 ? g->supply_1024 : LEAST_SUPPLY));
  return value <= 0 ? value : value - (value >> 10) * (int32_t)missing - (((value & 1023) * (int32_t)missing) >> 10);
}

void sb_guard_supply(struct sb_guard *g, int32_t counts, int32_t nominal) {
  uint16_t ratio = 1024;
  if (counts < nominal) {
    while (nominal > 0x1fffff) {
      nominal >>= 1;
      counts >>= 1;
    }
    /* A division, once a second in the main loop. */
    ratio = counts <= 0 ? 0 : (uint16_t)(counts * 1024 / nominal);
    /* Below 0.9 the supply is out of any sensor's band: the correction stops there and nothing may be raised. */
    if (ratio < LEAST_SUPPLY) ratio = 0;
  }
  SB_LOCK();
  g->supply_1024 = ratio;
  g->effective = corrected(g, g->limit.counts);
  SB_UNLOCK();
}

/* 1 when the pressure is known to be small: only then may the limit be raised or taken away. */
static uint8_t is_small(const struct sb_guard *g, uint32_t tick) {
  return (uint8_t)(g->known && age(tick, g->counts_tick) <= FRESH && g->supply_1024 != 0 && g->counts >= g->floor &&
                   g->counts < corrected(g, g->small));
}

enum sb_result sb_guard_set(struct sb_guard *g, uint32_t tick, const struct sb_limit *limit) {
  enum sb_result result = SB_OK;
  SB_LOCK();
  if (limit->counts <= g->small) {
    result = SB_RANGE;
  } else if (g->state != SB_IS_UNARMED &&
             (limit->channel != g->limit.channel || limit->counts > g->limit.counts || limit->mbar > g->limit.mbar) &&
             !is_small(g, tick)) {
    result = SB_REFUSED;
  } else {
    g->limit = *limit;
    g->effective = corrected(g, limit->counts);
    if (g->state == SB_IS_UNARMED) g->state = SB_IS_ARMED;
  }
  SB_UNLOCK();
  return result;
}

enum sb_result sb_guard_disarm(struct sb_guard *g, uint32_t tick) {
  enum sb_result result = SB_OK;
  SB_LOCK();
  if (g->state != SB_IS_UNARMED) {
    if (is_small(g, tick))
      g->state = SB_IS_UNARMED;
    else
      result = SB_REFUSED;
  }
  SB_UNLOCK();
  return result;
}

void sb_guard_silence(struct sb_guard *g, uint32_t tick) {
  SB_LOCK();
  if (g->state == SB_IS_TRIPPED) {
    g->state = SB_IS_SILENCED;
    g->silenced_tick = tick;
  }
  SB_UNLOCK();
}

void sb_guard_restore(struct sb_guard *g, const struct sb_limit *limit) {
  g->limit = *limit;
  g->effective = corrected(g, limit->counts);
  g->state = SB_IS_ARMED;
}

uint8_t sb_guard_sounder(const struct sb_guard *g) {
  return (uint8_t)(g->state == SB_IS_TRIPPED);
}

static uint32_t record_crc(const uint8_t *record) {
  uint32_t crc = 0xffffffffu;
  uint8_t i;
  for (i = 0; i < SB_RECORD - 4; i++) crc = sb_crc_byte(crc, record[i]);
  return ~crc;
}

void sb_record_write(uint8_t record[SB_RECORD], uint8_t armed, const struct sb_limit *limit) {
  const uint32_t counts = (uint32_t)limit->counts;
  uint32_t crc;
  record[0] = SB_VERSION;
  record[1] = armed ? 1 : 0;
  record[2] = limit->channel;
  record[3] = (uint8_t)counts;
  record[4] = (uint8_t)(counts >> 8);
  record[5] = (uint8_t)(counts >> 16);
  record[6] = (uint8_t)(counts >> 24);
  record[7] = (uint8_t)limit->mbar;
  record[8] = (uint8_t)(limit->mbar >> 8);
  crc = record_crc(record);
  record[9] = (uint8_t)crc;
  record[10] = (uint8_t)(crc >> 8);
  record[11] = (uint8_t)(crc >> 16);
  record[12] = (uint8_t)(crc >> 24);
}

int8_t sb_record_read(const uint8_t record[SB_RECORD], struct sb_limit *limit) {
  const uint32_t crc = record_crc(record);
  uint32_t counts;
  if (record[0] != SB_VERSION || record[1] > 1) return -1;
  if (record[9] != (uint8_t)crc || record[10] != (uint8_t)(crc >> 8) || record[11] != (uint8_t)(crc >> 16) ||
      record[12] != (uint8_t)(crc >> 24))
    return -1;
  counts = (uint32_t)record[3] | (uint32_t)record[4] << 8 | (uint32_t)record[5] << 16 | (uint32_t)record[6] << 24;
  limit->channel = record[2];
  limit->counts = counts > 0x7fffffffu ? -(int32_t)(0xffffffffu - counts) - 1 : (int32_t)counts;
  limit->mbar = (uint16_t)(record[7] | record[8] << 8);
  return record[1] ? 1 : 0;
}
