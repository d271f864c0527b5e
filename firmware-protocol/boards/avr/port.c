/* ATmega328P at 16 MHz, 5 V. A reference of 4.096 V at AREF, inputs through 3:4 at ADC0-2: 187.5 counts a volt of the sensor.
   Serial line 500 000 baud on PD0 and PD1, sounder PB0, beacon PB1 (each with a resistor to ground, for the reset), button
   PD2 to ground. Fuses: 16 MHz crystal, brown-out 4.3 V. */
#include "../board.h"
#include <avr/eeprom.h>
#include <avr/sleep.h>
#include <avr/wdt.h>

/* Counts of so many mV at the sensor: 0.75 / 4.096 V of 1024. */
#define COUNTS(mv) ((mv) * 1875L / 10000)

static const struct sb_channel CHANNELS[INPUTS] = {
    {"press", "hose", "ratio", 1, 10, 0, 1023, 0, 1091200, 0, 600000, 1000000},
    {"supply", "", "voltage", SB_NONE, 10, 0, 1023, 0, 5456000, 4500000, 5500000, 10000},
    {"temp", "sleeve", "digital", SB_NONE, 10, 0, 1023, -50000, 495600, -40000, 125000, 10000},
};
/* 0.10 bar are 567 mV; a sound sensor gives 400 mV; 20 mbar are 13 mV, 2.5 counts. */
const struct sb_config PORT_CONFIG = {
    "sb-avr-1", "1.0.0", CHANNELS, INPUTS, 1000, 500000, 0, COUNTS(567), COUNTS(400), 3, 1, COUNTS(5000)};

static uint8_t cause __attribute__((section(".noinit")));

/* Before main, as the watchdog stays on over its own reset and is short then. */
void before_main(void) __attribute__((naked, used, section(".init3")));
void before_main(void) {
  cause = MCUSR;
  MCUSR = 0;
  wdt_disable();
}

uint8_t port_cause(void) {
  return cause & _BV(WDRF) ? SB_FAULT_WATCHDOG : 0;
}

/* A byte costs 3.4 ms; one that stands already costs none. */
uint8_t port_load(uint8_t at) {
  return eeprom_read_byte((const uint8_t *)(uint16_t)at);
}
void port_save(uint8_t at, uint8_t byte) {
  wdt_reset();
  eeprom_update_byte((uint8_t *)(uint16_t)at, byte);
}

/* Something came that the main loop has to look at. */
static volatile uint8_t awake;

static uint8_t heard[64];
static volatile uint8_t heard_head, heard_tail;

ISR(USART_RX_vect) {
  const uint8_t byte = UDR0, next = (uint8_t)((heard_head + 1) & 63);
  if (next == heard_tail) return; /* the check tells */
  heard[heard_head] = byte;
  heard_head = next;
  awake = 1;
}

int16_t port_get(void) {
  const uint8_t tail = heard_tail;
  uint8_t byte;
  if (tail == heard_head) return -1;
  byte = heard[tail];
  heard_tail = (uint8_t)((tail + 1) & 63);
  return byte;
}

ISR(USART_UDRE_vect) {
  const int16_t byte = board_take();
  if (byte < 0)
    UCSR0B &= (uint8_t)~_BV(UDRIE0);
  else
    UDR0 = (uint8_t)byte;
}

void port_send(void) {
  SB_LOCK();
  UCSR0B |= _BV(UDRIE0);
  SB_UNLOCK();
}

/* Each millisecond the three inputs, one after the other; 52 us each. */
static int32_t counts[INPUTS];

ISR(TIMER1_COMPA_vect) {
  ADMUX = 0;
  ADCSRA |= _BV(ADSC);
}

ISR(ADC_vect) {
  const uint8_t input = ADMUX & 7;
  counts[input] = ADC;
  if (input == 0) board_convert(counts[0]);
  if (input + 1 < INPUTS) {
    ADMUX = (uint8_t)(input + 1);
    ADCSRA |= _BV(ADSC);
  } else {
    board_sample(counts);
    awake = 1;
  }
}

void port_out(uint8_t sounder, uint8_t beacon) {
  PORTB = (uint8_t)((sounder ? _BV(0) : 0) | (beacon ? _BV(1) : 0));
}

uint8_t port_button(void) {
  return !(PIND & _BV(2));
}

void port_rest(void) {
  wdt_reset();
  SMCR = _BV(SE); /* idle: every interrupt wakes, and some of them only for themselves */
  cli();
  while (!awake) {
    sei(); /* takes effect after the next instruction: nothing comes in between */
    sleep_cpu();
    cli();
  }
  awake = 0;
  sei();
  SMCR = 0;
}

void port_init(void) {
  DDRB = _BV(0) | _BV(1);
  PORTD = _BV(2);
  UCSR0A = _BV(U2X0);
  UCSR0C = _BV(UCSZ01) | _BV(UCSZ00);
  UBRR0 = F_CPU / 8 / 500000 - 1;
  UCSR0B = _BV(RXEN0) | _BV(TXEN0) | _BV(RXCIE0);
  ADCSRA = _BV(ADEN) | _BV(ADIE) | _BV(ADPS2) | _BV(ADPS1);
  TCCR1B = _BV(WGM12) | _BV(CS11);
  OCR1A = F_CPU / 8 / 1000 - 1;
  TIMSK1 = _BV(OCIE1A);
  wdt_enable(WDTO_250MS);
  sei();
}
