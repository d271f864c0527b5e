/*
 * Device side of the Steadybar protocol, version 1 (SPEC.md). C99, no operating system, no heap.
 *
 * Two contexts are kept apart. The converter's interrupt calls sb_device_convert and sb_device_sample; everything
 * else is called from the main loop. What both touch is either one byte written by one side only, or is taken
 * between SB_LOCK and SB_UNLOCK (define them as 'interrupts off' and 'restore').
 */
#ifndef STEADYBAR_H
#define STEADYBAR_H

#include <stdint.h>

#ifndef SB_LOCK
#define SB_LOCK()
#define SB_UNLOCK()
#endif

/* Where constants would cost RAM (AVR): -include avr/pgmspace.h -DSB_FLASH=PROGMEM -DSB_FLASH_U32=pgm_read_dword */
#ifndef SB_FLASH
#define SB_FLASH
#define SB_FLASH_U32(at) (*(at))
#endif

#define SB_VERSION 1
#define SB_MAX_LINE 128
#define SB_MAX_CHANNELS 7
#define SB_NONE 0xff
/* One tick is 100 us. */
#define SB_SECOND 10000u

/* Does not compile where a list of words does not end with the last code of its enum. */
#define SB_EVERY(what, words, last) typedef char every_##what##_has_its_word[sizeof words / sizeof words[0] == (last) + 1 ? 1 : -1]

/* ---- encoder ---------------------------------------------------------------------------------------------- */

typedef void (*sb_put)(void *context, uint8_t byte);

/* A line being written: every character goes straight out and into the CRC, no line buffer. */
struct sb_writer {
  sb_put put;
  void *context;
  uint32_t crc;
};

uint32_t sb_crc_byte(uint32_t crc, uint8_t byte);

void sb_begin(struct sb_writer *w, char letter);
void sb_u32(struct sb_writer *w, uint32_t value);
void sb_i32(struct sb_writer *w, int32_t value);
void sb_text(struct sb_writer *w, const char *text);
void sb_empty(struct sb_writer *w);
void sb_end(struct sb_writer *w);

struct sb_channel {
  const char *quantity;
  const char *place; /* "" for none */
  const char *signal;
  uint8_t partner; /* SB_NONE for none */
  uint8_t bits;
  int32_t raw_lo, raw_hi, el_lo, el_hi, range_lo, range_hi;
  uint32_t rate_mhz;
};

struct sb_hello {
  uint16_t version;
  const char *device_id;
  const char *firmware;
  uint32_t boot_id, uptime;
  uint8_t channels;
  uint16_t max_rate_hz;
};

struct sb_sample {
  uint32_t seq, tick;
  uint8_t channels;
  uint8_t fresh; /* bit i: channel i has a new conversion */
  int32_t counts[SB_MAX_CHANNELS];
  uint16_t status;
};

enum { SB_DROPPED = 1, SB_OVERRUN = 2, SB_ARMED = 4, SB_TRIPPED = 8, SB_SUPPLY_LOW = 16, SB_HOST_SILENT = 32, SB_BUTTON = 64 };

enum sb_event_code { SB_BOOT, SB_BUTTON_PRESS, SB_TRIP, SB_RETURN, SB_FAULT, SB_HOST_LOST, SB_HOST_BACK };
enum sb_fault { SB_FAULT_STORE = 1, SB_FAULT_WATCHDOG = 2, SB_FAULT_LATE = 3, SB_FAULT_SUPPLY = 4, SB_FAULT_SENSOR = 5, SB_FAULT_RECORD = 6 };

struct sb_event {
  uint16_t number;
  uint32_t tick;
  uint8_t code;
  uint8_t channel; /* SB_NONE for none */
  uint8_t has_value;
  int32_t value;
};

enum sb_guard_state { SB_IS_UNARMED, SB_IS_ARMED, SB_IS_TRIPPED, SB_IS_SILENCED };

struct sb_limit {
  uint8_t channel;
  int32_t counts;
  uint16_t mbar;
};

enum sb_result { SB_OK, SB_CLAMPED, SB_REFUSED, SB_RANGE, SB_UNKNOWN_VERB, SB_BUSY };

struct sb_reply {
  uint16_t command;
  uint8_t result;
  uint8_t has_value;
  int32_t value;
};

void sb_put_hello(struct sb_writer *w, const struct sb_hello *hello);
void sb_put_channel(struct sb_writer *w, uint8_t index, const struct sb_channel *channel);
void sb_put_sample(struct sb_writer *w, const struct sb_sample *sample);
void sb_put_event(struct sb_writer *w, const struct sb_event *event);
void sb_put_guard(struct sb_writer *w, uint32_t tick, uint8_t state, const struct sb_limit *limit, uint8_t sounder);
void sb_put_reply(struct sb_writer *w, const struct sb_reply *reply);

/* ---- transmit ring: whole lines or nothing ---------------------------------------------------------------- */

/* 256 bytes, so that the indices are single bytes that wrap by themselves and are atomic on 8-bit parts. */
struct sb_ring {
  uint8_t data[256];
  volatile uint8_t head; /* main loop: end of the last whole line */
  volatile uint8_t tail; /* transmit interrupt: next byte to leave */
  uint8_t draft;
  uint8_t full;
};

void sb_ring_begin(struct sb_ring *r);
/* An sb_put: context is the ring. */
void sb_ring_put(void *ring, uint8_t byte);
/* 1: the line is queued; 0: it did not fit, and nothing of it was queued. */
uint8_t sb_ring_commit(struct sb_ring *r);
/* Next byte to leave, or -1. */
int16_t sb_ring_take(struct sb_ring *r);

/* ---- parser of host commands ------------------------------------------------------------------------------ */

enum sb_verb { SB_HELLO, SB_START, SB_STOP, SB_BEAT, SB_LIMIT, SB_READ, SB_DISARM, SB_SILENCE };

struct sb_command {
  uint16_t number;
  uint8_t verb;
  uint16_t rate_hz;
  struct sb_limit limit;
};

enum sb_input {
  SB_MORE,       /* the line goes on */
  SB_COMMAND,    /* parser.command holds a command */
  SB_IN_GARBAGE, /* parser.line[0..length) is no command: why not, in the words of SPEC.md */
  SB_IN_CRC,
  SB_IN_FORM,
  SB_IN_LONG,
  SB_IN_PARTIAL,
  SB_IN_UNKNOWN
};

struct sb_parser {
  uint8_t line[SB_MAX_LINE];
  uint8_t length;
  uint8_t fill;
  uint8_t discarding;
  uint8_t opened; /* past the first LF */
  struct sb_command command;
  /* After SB_IN_FORM: 1 when command.number could be read and `refusal` says how to answer it. */
  uint8_t numbered;
  uint8_t refusal;
};

void sb_parser_init(struct sb_parser *p);
enum sb_input sb_parser_push(struct sb_parser *p, uint8_t byte);

/* ---- guard ------------------------------------------------------------------------------------------------ */

struct sb_guard {
  uint8_t state;
  struct sb_limit limit;
  int32_t effective; /* the limit after the supply correction, which only lowers */
  int32_t small;     /* counts of the small pressure, 0.10 bar, at nominal supply */
  int32_t floor;     /* below this the sensor is broken and the pressure unknown */
  int32_t deadband;
  uint16_t supply_1024; /* supply over nominal, 1024ths, at most 1024; 0: too low to believe */
  uint8_t known;     /* the last conversion is not long ago */
  uint8_t forgotten; /* it is: the guard is blind, for longer maybe than the clock tells */
  int32_t counts;
  uint32_t counts_tick;
  uint8_t below;
  uint32_t below_since;
  uint32_t silenced_tick;
  volatile uint8_t trips, returns; /* written by the converter's side only */
  int32_t trip_counts;
};

void sb_guard_init(struct sb_guard *g, int32_t small, int32_t floor, int32_t deadband);
/* Every conversion of the guarded channel, from the converter's interrupt. No division, no loop. */
void sb_guard_step(struct sb_guard *g, uint32_t tick, int32_t counts);
/* Main loop: 1 when there was no conversion for a second. What was known before is forgotten then, as the clock cannot
   tell an age of days. */
uint8_t sb_guard_blind(struct sb_guard *g, uint32_t tick);
/* Main loop, off the sample path: supply counts and their nominal value. */
void sb_guard_supply(struct sb_guard *g, int32_t counts, int32_t nominal);
enum sb_result sb_guard_set(struct sb_guard *g, uint32_t tick, const struct sb_limit *limit);
enum sb_result sb_guard_disarm(struct sb_guard *g, uint32_t tick);
void sb_guard_silence(struct sb_guard *g, uint32_t tick);
/* A limit found in the store at the start. */
void sb_guard_restore(struct sb_guard *g, const struct sb_limit *limit);
uint8_t sb_guard_sounder(const struct sb_guard *g);

/* The limit as kept in non-volatile memory: 13 bytes, closed by a CRC. */
#define SB_RECORD 13
void sb_record_write(uint8_t record[SB_RECORD], uint8_t armed, const struct sb_limit *limit);
/* 1 armed, 0 not armed, -1 empty or damaged. */
int8_t sb_record_read(const uint8_t record[SB_RECORD], struct sb_limit *limit);

/* ---- the whole device ------------------------------------------------------------------------------------- */

struct sb_config {
  const char *device_id;
  const char *firmware;
  const struct sb_channel *channels;
  uint8_t count;
  uint16_t max_rate_hz;
  uint32_t baud; /* 0: not limited (USB) */
  uint8_t guard_channel; /* SB_NONE: no guard; the next three, load and save are not used */
  int32_t guard_small, guard_floor, guard_deadband;
  uint8_t supply_channel; /* SB_NONE for none */
  int32_t supply_nominal;
};

struct sb_hooks {
  void *context;
  /* Non-volatile memory; 0 is success. */
  int8_t (*load)(void *context, uint8_t record[SB_RECORD]);
  int8_t (*save)(void *context, const uint8_t record[SB_RECORD]);
};

#define SB_FIFO 4
#define SB_EVENTS 4

struct sb_device {
  const struct sb_config *config;
  struct sb_hooks hooks;
  struct sb_ring ring;
  struct sb_parser parser;
  struct sb_guard guard;
  uint32_t boot_id;
  uint16_t rate_hz; /* 0: stopped */
  /* samples: the interrupt fills, the main loop empties */
  struct sb_sample fifo[SB_FIFO];
  volatile uint8_t fifo_head, fifo_tail;
  uint32_t seq;
  volatile uint8_t missed; /* counts lines lost before the ring, by the interrupt */
  volatile uint8_t late;   /* counts late conversions, by the interrupt */
  uint8_t missed_seen, late_seen, dropped, overrun;
  int32_t supply_counts;
  volatile uint8_t supply_fresh;
  /* conversation */
  uint8_t heard; /* a command came since the start */
  uint8_t host_lost, button;
  uint32_t heard_tick;
  uint8_t have_last;
  struct sb_reply last;
  uint8_t lf_due; /* the last line before the start may have been cut */
  uint8_t reply_due, guard_due, hello_next; /* hello_next: 0 none, 1 device line, 2.. channel lines */
  struct sb_event events[SB_EVENTS];
  uint8_t event_head, event_count;
  uint16_t event_number;
  uint32_t guard_tick;
  uint8_t guard_shown;
  uint8_t trips_seen, returns_seen, faults;
};

/* `cause`: 0, or the sb_fault that explains the start (watchdog). */
void sb_device_init(struct sb_device *d, const struct sb_config *config, const struct sb_hooks *hooks, uint32_t boot_id,
                    uint8_t cause);
/* Converter's side: the guarded channel's conversion, at any rate. */
void sb_device_convert(struct sb_device *d, uint32_t tick, int32_t counts);
/* Converter's side, at rate_hz while streaming: all channels; `fresh` has a bit for each new conversion. */
void sb_device_sample(struct sb_device *d, uint32_t tick, const int32_t *counts, uint8_t fresh);
/* Main loop: a byte from the host. 0: an answer is still waiting for room, offer the byte again later. */
uint8_t sb_device_receive(struct sb_device *d, uint32_t tick, uint8_t byte);
/* Main loop: the button. Pressing acknowledges the sounder. */
void sb_device_button(struct sb_device *d, uint32_t tick, uint8_t held);
/* Main loop, often: timers, and as many whole lines into the ring as fit. */
void sb_device_poll(struct sb_device *d, uint32_t tick);
void sb_device_fault(struct sb_device *d, uint32_t tick, uint8_t channel, uint8_t fault);
/* Most lines a second that the baud carries for these channels, at most max_rate_hz. */
uint16_t sb_rate_limit(const struct sb_config *config);
/* 0 off, 1 slow flash (armed, host silent; or a fault), 2 on (over the limit). */
uint8_t sb_device_beacon(const struct sb_device *d);

#endif
