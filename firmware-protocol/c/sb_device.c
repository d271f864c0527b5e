/* The conversation: commands in, lines out, timers. What the interrupt and the main loop share is listed in
   steadybar.h. A line that does not fit into the ring now is tried again at the next poll, samples excepted. */
#include "steadybar.h"

#define HOST_SILENT_AFTER (3u * SB_SECOND)

static void begin(struct sb_device *d, struct sb_writer *w) {
  sb_ring_begin(&d->ring);
  w->put = sb_ring_put;
  w->context = &d->ring;
}

uint16_t sb_rate_limit(const struct sb_config *config) {
  /* Longest sample line: letter, seq, tick, each count with sign and comma, status, CRC, LF. */
  uint16_t bytes = 2 + 11 + 11 + 6 + 9;
  uint32_t most;
  uint8_t i;
  if (config->baud == 0) return config->max_rate_hz;
  for (i = 0; i < config->count; i++) {
    const struct sb_channel *c = &config->channels[i];
    uint32_t top = c->raw_hi < 0 ? 0 : (uint32_t)c->raw_hi;
    if (c->raw_lo < 0) {
      bytes++;
      if (0u - (uint32_t)c->raw_lo > top) top = 0u - (uint32_t)c->raw_lo;
    }
    bytes++;
    do {
      bytes++;
      top /= 10;
    } while (top > 0);
  }
  /* Ten bits a byte on the wire; a tenth is kept free for replies, events and guard lines. */
  most = config->baud / 10 * 9 / 10 / bytes;
  if (most < 1) most = 1;
  return most < config->max_rate_hz ? (uint16_t)most : config->max_rate_hz;
}

static uint8_t has_guard(const struct sb_device *d) {
  return (uint8_t)(d->config->guard_channel != SB_NONE);
}

/* Without a guard nothing is ever shown of one. */
static void show_guard(struct sb_device *d) {
  d->guard_due = has_guard(d);
}

static uint8_t is_of_guard(uint8_t verb) {
  return (uint8_t)(verb == SB_LIMIT || verb == SB_READ || verb == SB_DISARM || verb == SB_SILENCE);
}

static void add_event(struct sb_device *d, uint32_t tick, uint8_t code, uint8_t channel, uint8_t has_value, int32_t value) {
  struct sb_event *e;
  const uint16_t number = d->event_number++;
  if (d->event_count == SB_EVENTS) return; /* lost: the next number shows it */
  e = &d->events[(uint8_t)(d->event_head + d->event_count) % SB_EVENTS];
  d->event_count++;
  e->number = number;
  e->tick = tick;
  e->code = code;
  e->channel = channel;
  e->has_value = has_value;
  e->value = value;
}

void sb_device_fault(struct sb_device *d, uint32_t tick, uint8_t channel, uint8_t fault) {
  const uint8_t bit = (uint8_t)(1u << fault);
  if (d->faults & bit) return; /* once, until it is seen good again */
  d->faults |= bit;
  add_event(d, tick, SB_FAULT, channel, 1, fault);
}

static void no_fault(struct sb_device *d, uint8_t fault) {
  d->faults &= (uint8_t)~(1u << fault);
}

void sb_device_init(struct sb_device *d, const struct sb_config *config, const struct sb_hooks *hooks, uint32_t boot_id,
                    uint8_t cause) {
  uint8_t record[SB_RECORD];
  struct sb_limit limit;
  uint8_t *byte = (uint8_t *)d;
  while (byte != (uint8_t *)(d + 1)) *byte++ = 0;
  d->config = config;
  d->hooks = *hooks;
  d->boot_id = boot_id;
  sb_parser_init(&d->parser);
  sb_guard_init(&d->guard, config->guard_small, config->guard_floor, config->guard_deadband);
  add_event(d, 0, SB_BOOT, SB_NONE, cause != 0, cause);
  if (!has_guard(d)) return;
  if (d->hooks.load(d->hooks.context, record) != 0) {
    sb_device_fault(d, 0, SB_NONE, SB_FAULT_STORE);
  } else {
    const int8_t found = sb_record_read(record, &limit);
    if (found > 0 && limit.channel == config->guard_channel && limit.counts > config->guard_small &&
        limit.counts <= config->channels[limit.channel].raw_hi)
      sb_guard_restore(&d->guard, &limit);
    else if (found != 0)
      sb_device_fault(d, 0, SB_NONE, SB_FAULT_RECORD);
  }
}

/* ---- converter's side ------------------------------------------------------------------------------------- */

void sb_device_convert(struct sb_device *d, uint32_t tick, int32_t counts) {
  sb_guard_step(&d->guard, tick, counts);
}

void sb_device_sample(struct sb_device *d, uint32_t tick, const int32_t *counts, uint8_t fresh) {
  const uint8_t next = (uint8_t)((d->fifo_head + 1) % SB_FIFO);
  const uint8_t supply = d->config->supply_channel;
  struct sb_sample *s = &d->fifo[d->fifo_head];
  uint8_t i;
  if (supply != SB_NONE && (fresh >> supply & 1)) {
    d->supply_counts = counts[supply];
    d->supply_fresh = 1;
  }
  if (d->rate_hz == 0) return;
  /* The number is taken here, at sampling: whatever is lost from now on shows as a gap. */
  if (next == d->fifo_tail) {
    d->seq++;
    d->missed++;
    return;
  }
  s->seq = d->seq++;
  s->tick = tick;
  s->channels = d->config->count;
  s->fresh = fresh;
  for (i = 0; i < d->config->count; i++) s->counts[i] = counts[i];
  d->fifo_head = next;
}

/* ---- main loop -------------------------------------------------------------------------------------------- */

static void save_limit(struct sb_device *d, uint32_t tick) {
  uint8_t record[SB_RECORD];
  sb_record_write(record, d->guard.state != SB_IS_UNARMED, &d->guard.limit);
  if (d->hooks.save(d->hooks.context, record) != 0)
    sb_device_fault(d, tick, SB_NONE, SB_FAULT_STORE);
  else {
    no_fault(d, SB_FAULT_STORE);
    no_fault(d, SB_FAULT_RECORD);
  }
}

static void answer_limit(struct sb_device *d, uint32_t tick, const struct sb_limit *limit) {
  struct sb_reply *r = &d->last;
  if (limit->channel != d->config->guard_channel || limit->counts > d->config->channels[limit->channel].raw_hi)
    r->result = SB_RANGE;
  else
    r->result = (uint8_t)sb_guard_set(&d->guard, tick, limit);
  if (r->result == SB_OK) save_limit(d, tick);
  if (d->guard.state != SB_IS_UNARMED) {
    r->has_value = 1;
    r->value = d->guard.limit.counts;
  }
  show_guard(d);
}

/* More than a byte that the interrupt reads. */
static void set_rate(struct sb_device *d, uint16_t rate_hz) {
  SB_LOCK();
  d->rate_hz = rate_hz;
  SB_UNLOCK();
}

static void carry_out(struct sb_device *d, uint32_t tick, const struct sb_command *k) {
  struct sb_reply *r = &d->last;
  uint16_t most;
  r->result = SB_OK;
  r->has_value = 0;
  if (is_of_guard(k->verb) && !has_guard(d)) {
    r->result = SB_UNKNOWN_VERB;
    return;
  }
  switch ((enum sb_verb)k->verb) {
    case SB_START:
      most = sb_rate_limit(d->config);
      r->result = k->rate_hz > most ? SB_CLAMPED : SB_OK;
      set_rate(d, k->rate_hz > most ? most : k->rate_hz);
      r->has_value = 1;
      r->value = d->rate_hz;
      break;
    case SB_STOP:
      set_rate(d, 0);
      break;
    case SB_LIMIT:
      answer_limit(d, tick, &k->limit);
      break;
    case SB_DISARM:
      r->result = (uint8_t)sb_guard_disarm(&d->guard, tick);
      if (r->result == SB_OK) save_limit(d, tick);
      show_guard(d);
      break;
    case SB_SILENCE:
      sb_guard_silence(&d->guard, tick);
      break;
    case SB_HELLO:
    case SB_BEAT:
    case SB_READ:
      break;
  }
}

/* A command whose line was whole: any of them is a sign of life. */
static void alive(struct sb_device *d, uint32_t tick, uint8_t is_hello) {
  if (!d->heard) {
    d->heard = 1;
    d->lf_due = 1;
    show_guard(d);
    /* A hello already tells boot id and uptime; to any other command the start has to be announced. */
    if (is_hello && d->event_count > 0 && d->events[d->event_head].code == SB_BOOT && !d->events[d->event_head].has_value) {
      d->event_head = (uint8_t)((d->event_head + 1) % SB_EVENTS);
      d->event_count--;
    }
  } else if (d->host_lost) {
    add_event(d, tick, SB_HOST_BACK, SB_NONE, 0, 0);
  }
  d->host_lost = 0;
  d->heard_tick = tick;
}

uint8_t sb_device_receive(struct sb_device *d, uint32_t tick, uint8_t byte) {
  enum sb_input input;
  const struct sb_command *k = &d->parser.command;
  if (d->reply_due) return 0;
  input = sb_parser_push(&d->parser, byte);
  if (input == SB_COMMAND) {
    alive(d, tick, k->verb == SB_HELLO);
    /* A repeated number is answered again and not carried out twice. */
    if (!d->have_last || d->last.command != k->number) {
      d->have_last = 1;
      d->last.command = k->number;
      carry_out(d, tick, k);
    }
    d->reply_due = 1;
    if (k->verb == SB_HELLO) d->hello_next = 1;
    if (k->verb == SB_READ || k->verb == SB_LIMIT) show_guard(d);
  } else if (input == SB_IN_FORM && d->parser.numbered) {
    alive(d, tick, 0);
    d->have_last = 1;
    d->last.command = k->number;
    d->last.result = is_of_guard(k->verb) && !has_guard(d) ? SB_UNKNOWN_VERB : d->parser.refusal;
    d->last.has_value = 0;
    d->reply_due = 1;
  }
  return 1;
}

void sb_device_button(struct sb_device *d, uint32_t tick, uint8_t held) {
  if (held && !d->button) {
    add_event(d, tick, SB_BUTTON_PRESS, SB_NONE, 0, 0);
    sb_guard_silence(&d->guard, tick);
  }
  d->button = held;
}

/* What the guard has to tell: that it is blind, that its sensor is broken, that it tripped. */
static void watch_guard(struct sb_device *d, uint32_t tick) {
  struct sb_guard *g = &d->guard;
  const uint8_t blind = sb_guard_blind(g, tick);
  uint8_t known, trips, returns;
  int32_t counts, trip_counts;
  {
    SB_LOCK();
    known = g->known;
    counts = g->counts;
    trips = g->trips;
    trip_counts = g->trip_counts;
    returns = g->returns;
    SB_UNLOCK();
  }
  if (blind)
    sb_device_fault(d, tick, d->config->guard_channel, SB_FAULT_LATE);
  else
    no_fault(d, SB_FAULT_LATE);
  if (known && counts < g->floor)
    sb_device_fault(d, tick, d->config->guard_channel, SB_FAULT_SENSOR);
  else if (known && counts >= g->floor + g->deadband)
    no_fault(d, SB_FAULT_SENSOR);
  if (d->trips_seen != trips) {
    d->trips_seen = trips;
    add_event(d, tick, SB_TRIP, g->limit.channel, 1, trip_counts);
  }
  if (d->returns_seen != returns) {
    d->returns_seen = returns;
    add_event(d, tick, SB_RETURN, g->limit.channel, 1, counts);
  }
  if (d->heard && (d->guard_shown != g->state || tick - d->guard_tick >= SB_SECOND)) show_guard(d);
}

static void timers(struct sb_device *d, uint32_t tick) {
  struct sb_guard *g = &d->guard;
  if (d->heard && !d->host_lost && tick - d->heard_tick >= HOST_SILENT_AFTER) {
    d->host_lost = 1;
    add_event(d, tick, SB_HOST_LOST, SB_NONE, 0, 0);
  }
  if (d->supply_fresh) {
    int32_t counts;
    {
      SB_LOCK();
      d->supply_fresh = 0;
      counts = d->supply_counts;
      SB_UNLOCK();
    }
    sb_guard_supply(g, counts, d->config->supply_nominal);
    if (g->supply_1024 == 0)
      sb_device_fault(d, tick, d->config->supply_channel, SB_FAULT_SUPPLY);
    else
      no_fault(d, SB_FAULT_SUPPLY);
  }
  if (has_guard(d)) watch_guard(d, tick);
}

static uint16_t status(const struct sb_device *d) {
  uint16_t s = 0;
  if (d->dropped) s |= SB_DROPPED;
  if (d->overrun) s |= SB_OVERRUN;
  if (d->guard.state != SB_IS_UNARMED) s |= SB_ARMED;
  if (d->guard.state == SB_IS_TRIPPED || d->guard.state == SB_IS_SILENCED) s |= SB_TRIPPED;
  if (d->guard.supply_1024 == 0) s |= SB_SUPPLY_LOW;
  if (d->host_lost) s |= SB_HOST_SILENT;
  if (d->button) s |= SB_BUTTON;
  return s;
}

static uint8_t send_hello(struct sb_device *d, uint32_t tick) {
  const struct sb_config *c = d->config;
  struct sb_writer w;
  begin(d, &w);
  if (d->hello_next == 1) {
    struct sb_hello h;
    h.version = SB_VERSION;
    h.device_id = c->device_id;
    h.firmware = c->firmware;
    h.boot_id = d->boot_id;
    h.uptime = tick;
    h.channels = c->count;
    h.max_rate_hz = sb_rate_limit(c);
    sb_put_hello(&w, &h);
  } else {
    const uint8_t index = (uint8_t)(d->hello_next - 2);
    sb_put_channel(&w, index, &c->channels[index]);
  }
  if (!sb_ring_commit(&d->ring)) return 0;
  d->hello_next = d->hello_next > c->count ? 0 : (uint8_t)(d->hello_next + 1);
  return 1;
}

static void send_samples(struct sb_device *d) {
  struct sb_writer w;
  while (d->fifo_tail != d->fifo_head) {
    struct sb_sample *s = &d->fifo[d->fifo_tail];
    if (d->missed_seen != d->missed) {
      d->missed_seen = d->missed;
      d->dropped = 1;
    }
    if (d->late_seen != d->late) {
      d->late_seen = d->late;
      d->overrun = 1;
    }
    s->status = status(d);
    begin(d, &w);
    sb_put_sample(&w, s);
    if (sb_ring_commit(&d->ring)) {
      d->dropped = 0;
      d->overrun = 0;
    } else {
      d->dropped = 1; /* sticky: until a line leaves that carries it */
    }
    d->fifo_tail = (uint8_t)((d->fifo_tail + 1) % SB_FIFO);
  }
}

void sb_device_poll(struct sb_device *d, uint32_t tick) {
  struct sb_writer w;
  timers(d, tick);
  if (!d->heard) {
    d->fifo_tail = d->fifo_head; /* silent until spoken to */
    return;
  }
  if (d->lf_due) {
    sb_ring_begin(&d->ring);
    sb_ring_put(&d->ring, '\n');
    if (sb_ring_commit(&d->ring)) d->lf_due = 0;
  }
  if (d->reply_due) {
    begin(d, &w);
    sb_put_reply(&w, &d->last);
    if (sb_ring_commit(&d->ring)) d->reply_due = 0;
  }
  while (!d->reply_due && d->event_count > 0) {
    begin(d, &w);
    sb_put_event(&w, &d->events[d->event_head]);
    if (!sb_ring_commit(&d->ring)) break;
    d->event_head = (uint8_t)((d->event_head + 1) % SB_EVENTS);
    d->event_count--;
  }
  if (d->guard_due && !d->reply_due) {
    const uint8_t state = d->guard.state;
    begin(d, &w);
    sb_put_guard(&w, tick, state, &d->guard.limit, (uint8_t)(state == SB_IS_TRIPPED));
    if (sb_ring_commit(&d->ring)) {
      d->guard_due = 0;
      d->guard_shown = state;
      d->guard_tick = tick;
    }
  }
  while (d->hello_next && !d->reply_due && send_hello(d, tick)) {
  }
  send_samples(d);
}

uint8_t sb_device_beacon(const struct sb_device *d) {
  if (d->guard.state == SB_IS_TRIPPED || d->guard.state == SB_IS_SILENCED) return 2;
  return (uint8_t)(d->faults != 0 || (d->guard.state != SB_IS_UNARMED && d->host_lost) ? 1 : 0);
}
