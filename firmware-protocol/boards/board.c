#include "board.h"

static struct sb_device device;
/* Time at the last interrupt of 1 ms; one is ten ticks. */
static volatile uint32_t now;
/* Thousandths of a sample that are due: the rate is added once a millisecond. */
static uint16_t due;
/* Milliseconds since supply and temperature were sent: ten times a second will do. */
static uint8_t slow;

static uint32_t ticks(void) {
  uint32_t t;
  SB_LOCK();
  t = now;
  SB_UNLOCK();
  return t;
}

/* ---- store: a number of starts, and two places for the limit, so that a write cut short leaves the one before ------ */

#define AT_STARTS 0
#define AT_SLOT(n) (uint8_t)(4 + (n) * (SB_RECORD + 1))

/* The order number of a slot and its record; 0 where it is none. */
static uint8_t read_slot(uint8_t slot, uint8_t record[SB_RECORD], uint8_t *order) {
  struct sb_limit limit;
  uint8_t i;
  for (i = 0; i < SB_RECORD; i++) record[i] = port_load((uint8_t)(AT_SLOT(slot) + 1 + i));
  *order = port_load(AT_SLOT(slot));
  return (uint8_t)(sb_record_read(record, &limit) >= 0);
}

/* The slot with the newer sound record, and that record; 2 where there is none. */
static uint8_t newest(uint8_t record[SB_RECORD], uint8_t *order) {
  uint8_t other[SB_RECORD], order_of_other, i;
  const uint8_t first = read_slot(0, record, order);
  const uint8_t second = read_slot(1, other, &order_of_other);
  if (!second || (first && (uint8_t)(order_of_other - *order) > 127)) return first ? 0 : 2;
  for (i = 0; i < SB_RECORD; i++) record[i] = other[i];
  *order = order_of_other;
  return 1;
}

static int8_t load(void *context, uint8_t record[SB_RECORD]) {
  uint8_t order;
  (void)context;
  newest(record, &order);
  return 0;
}

static int8_t save(void *context, const uint8_t record[SB_RECORD]) {
  uint8_t kept[SB_RECORD], order = 0, i, slot;
  (void)context;
  slot = newest(kept, &order);
  slot = (uint8_t)(slot == 0 ? 1 : 0);
  order++;
  for (i = 0; i < SB_RECORD; i++) port_save((uint8_t)(AT_SLOT(slot) + 1 + i), record[i]);
  port_save(AT_SLOT(slot), order);
  for (i = 0; i < SB_RECORD; i++)
    if (port_load((uint8_t)(AT_SLOT(slot) + 1 + i)) != record[i]) return -1;
  return 0;
}

static uint32_t count_start(void) {
  uint32_t starts = 0;
  uint8_t i;
  for (i = 0; i < 4; i++) starts |= (uint32_t)port_load((uint8_t)(AT_STARTS + i)) << (8 * i);
  starts++;
  for (i = 0; i < 4; i++) port_save((uint8_t)(AT_STARTS + i), (uint8_t)(starts >> (8 * i)));
  return starts;
}

/* ---- interrupt of 1 ms ---------------------------------------------------------------------------------------- */

static void show(void) {
  const uint8_t light = sb_device_beacon(&device);
  /* A flash of half a second, by the clock's bits alone. */
  port_out(sb_guard_sounder(&device.guard), (uint8_t)(light == 2 || (light == 1 && (now >> 12 & 1))));
}

void board_convert(int32_t counts) {
  now += 10;
  sb_device_convert(&device, now, counts);
  show();
}

void board_sample(const int32_t counts[INPUTS]) {
  uint8_t fresh = 1;
  if (slow < 100) slow++;
  due = (uint16_t)(due + device.rate_hz);
  if (device.rate_hz == 0) {
    /* The supply is watched all the same. */
    if (slow < 100) return;
  } else {
    if (due < 1000) return;
    due = (uint16_t)(due - 1000);
  }
  if (slow == 100) {
    slow = 0;
    fresh = (1u << INPUTS) - 1u;
  }
  sb_device_sample(&device, now, counts, fresh);
}

/* ---- main loop -------------------------------------------------------------------------------------------------- */

int16_t board_take(void) {
  return sb_ring_take(&device.ring);
}

int main(void) {
  static const struct sb_hooks HOOKS = {0, load, save};
  int16_t byte = -1;
  /* The guard stands before the first conversion. */
  sb_device_init(&device, &PORT_CONFIG, &HOOKS, count_start(), port_cause());
  port_init();
  for (;;) {
    if (byte < 0) byte = port_get();
    while (byte >= 0 && sb_device_receive(&device, ticks(), (uint8_t)byte)) byte = port_get();
    sb_device_button(&device, ticks(), port_button());
    sb_device_poll(&device, ticks());
    if (device.ring.head != device.ring.tail) port_send();
    port_rest();
  }
}
