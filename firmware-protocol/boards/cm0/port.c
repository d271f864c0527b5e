/* RP2040, one Cortex-M0+ core at 12 MHz from its crystal, 3.3 V. Inputs through 3:5 at ADC0-2 (GPIO26-28): 744.7 counts a volt of
   the sensor. Serial line 500 000 baud on GPIO0 and GPIO1, sounder GPIO2, beacon GPIO3 (each with a resistor to ground), button
   GPIO4 to ground. The store is memory that a reset leaves as it is and a power cut does not: a board that is to keep its
   limit without power has a memory of its own behind port_load and port_save. */
#include "../board.h"

/* Counts of so many mV at the sensor: 0.6 / 3.3 V of 4096. */
#define COUNTS(mv) ((mv) * 4096L * 6 / 33000)

static const struct sb_channel CHANNELS[INPUTS] = {
    {"press", "hose", "ratio", 1, 12, 0, 4095, 0, 1099731, 0, 600000, 1000000},
    {"supply", "", "voltage", SB_NONE, 12, 0, 4095, 0, 5498657, 4500000, 5500000, 10000},
    {"temp", "sleeve", "digital", SB_NONE, 12, 0, 4095, -50000, 499866, -40000, 125000, 10000},
};
/* 0.10 bar are 567 mV; a sound sensor gives 400 mV; 20 mbar are 13 mV. */
const struct sb_config PORT_CONFIG = {
    "sb-cm0-1", "1.0.0", CHANNELS, INPUTS, 1000, 500000, 0, COUNTS(567), COUNTS(400), COUNTS(13), 1, COUNTS(5000)};

#define REGISTER(address) (*(volatile uint32_t *)(address))
/* Writing here sets, or clears, the bits of the register at `address` that are one. */
#define SET(address) REGISTER((address) + 0x2000u)
#define CLEAR(address) REGISTER((address) + 0x3000u)

enum { SOUNDER = 2, BEACON = 3, BUTTON = 4 };

#define RESETS 0x4000c000u
#define RESET_DONE 0x4000c008u
#define XOSC_CTRL 0x40024000u
#define XOSC_STATUS 0x40024004u
#define XOSC_STARTUP 0x4002400cu
#define CLK_REF_CTRL 0x40008030u
#define CLK_PERI_CTRL 0x40008048u
#define CLK_ADC_CTRL 0x40008060u
#define WATCHDOG_CTRL 0x40058000u
#define WATCHDOG_LOAD 0x40058004u
#define WATCHDOG_REASON 0x40058008u
#define WATCHDOG_TICK 0x4005802cu
#define GPIO_CTRL(pin) (0x40014004u + 8u * (pin))
#define PAD(pin) (0x4001c004u + 4u * (pin))
#define SIO_IN 0xd0000004u
#define SIO_OUT 0xd0000010u
#define SIO_ENABLE 0xd0000024u
#define UART_DR 0x40034000u
#define UART_FR 0x40034018u
#define UART_IBRD 0x40034024u
#define UART_FBRD 0x40034028u
#define UART_LCR 0x4003402cu
#define UART_CR 0x40034030u
#define UART_IMSC 0x40034038u
#define UART_ICR 0x40034044u
#define ADC_CS 0x4004c000u
#define ADC_RESULT 0x4004c004u
#define TIMER_ALARM0 0x40054010u
#define TIMER_NOW 0x40054028u
#define TIMER_INTR 0x40054034u
#define TIMER_INTE 0x40054038u
#define NVIC_ENABLE 0xe000e100u

enum { TX_FULL = 1u << 5, RX_EMPTY = 1u << 4, RX_INTERRUPT = 1u << 4, TX_INTERRUPT = 1u << 5, RX_LATE_INTERRUPT = 1u << 6 };

/* Of power-on it holds what it holds: the record's own check tells. */
static uint8_t store[PORT_STORE] __attribute__((section(".noinit")));

uint8_t port_load(uint8_t at) {
  return store[at];
}
void port_save(uint8_t at, uint8_t byte) {
  store[at] = byte;
}

uint8_t port_cause(void) {
  return REGISTER(WATCHDOG_REASON) & 1u ? SB_FAULT_WATCHDOG : 0;
}

static uint8_t heard[64];
static volatile uint8_t heard_head, heard_tail;

int16_t port_get(void) {
  const uint8_t tail = heard_tail;
  uint8_t byte;
  if (tail == heard_head) return -1;
  byte = heard[tail];
  heard_tail = (uint8_t)((tail + 1) & 63);
  return byte;
}

/* As much as the line's own queue takes; for the rest its interrupt comes back. Interrupts are off. */
static void fill_line(void) {
  while (!(REGISTER(UART_FR) & TX_FULL)) {
    const int16_t byte = board_take();
    if (byte < 0) {
      CLEAR(UART_IMSC) = TX_INTERRUPT;
      return;
    }
    REGISTER(UART_DR) = (uint8_t)byte;
  }
  SET(UART_IMSC) = TX_INTERRUPT;
}

void port_send(void) {
  SB_LOCK();
  fill_line();
  SB_UNLOCK();
}

void uart_interrupt(void);
void uart_interrupt(void) {
  while (!(REGISTER(UART_FR) & RX_EMPTY)) {
    const uint8_t byte = (uint8_t)REGISTER(UART_DR), next = (uint8_t)((heard_head + 1) & 63);
    if (next == heard_tail) continue; /* the check tells */
    heard[heard_head] = byte;
    heard_head = next;
  }
  REGISTER(UART_ICR) = RX_LATE_INTERRUPT;
  fill_line();
}

static int32_t convert(uint32_t input) {
  REGISTER(ADC_CS) = 1u | input << 12;
  REGISTER(ADC_CS) = 1u | 4u | input << 12;
  while (!(REGISTER(ADC_CS) & 0x100u)) {
  }
  return (int32_t)REGISTER(ADC_RESULT);
}

void timer_interrupt(void);
void timer_interrupt(void) {
  int32_t counts[INPUTS];
  uint32_t input;
  REGISTER(TIMER_INTR) = 1u;
  REGISTER(TIMER_ALARM0) = REGISTER(TIMER_ALARM0) + 1000u;
  counts[0] = convert(0);
  board_convert(counts[0]);
  for (input = 1; input < INPUTS; input++) counts[input] = convert(input);
  board_sample(counts);
}

void port_out(uint8_t sounder, uint8_t beacon) {
  REGISTER(SIO_OUT) = (sounder ? 1u << SOUNDER : 0u) | (beacon ? 1u << BEACON : 0u);
}

uint8_t port_button(void) {
  return !(REGISTER(SIO_IN) & 1u << BUTTON);
}

void port_rest(void) {
  REGISTER(WATCHDOG_LOAD) = 500000u; /* 250 ms: it counts two a microsecond */
  __asm__ volatile("wfi");
}

void port_init(void) {
  uint32_t pin;
  REGISTER(XOSC_CTRL) = 0xaa0u;
  REGISTER(XOSC_STARTUP) = 47u;
  SET(XOSC_CTRL) = 0xfab000u;
  while (!(REGISTER(XOSC_STATUS) & 0x80000000u)) {
  }
  REGISTER(CLK_REF_CTRL) = 2u;                /* everything from the crystal */
  REGISTER(CLK_PERI_CTRL) = 0x800u | 4u << 5;
  REGISTER(CLK_ADC_CTRL) = 0x800u | 3u << 5;
  REGISTER(WATCHDOG_TICK) = 12u | 1u << 9;    /* a microsecond for timer and watchdog */
  /* Out of reset: ADC, pins, pads, timer, UART0. */
  CLEAR(RESETS) = 1u << 0 | 1u << 5 | 1u << 8 | 1u << 21 | 1u << 22;
  while ((REGISTER(RESET_DONE) & 0x600121u) != 0x600121u) {
  }
  for (pin = 0; pin < 2; pin++) REGISTER(GPIO_CTRL(pin)) = 2u;
  for (pin = SOUNDER; pin <= BUTTON; pin++) REGISTER(GPIO_CTRL(pin)) = 5u;
  REGISTER(SIO_ENABLE) = 1u << SOUNDER | 1u << BEACON;
  REGISTER(PAD(BUTTON)) = 0x4au;                                  /* input, pulled up */
  for (pin = 26; pin < 29; pin++) REGISTER(PAD(pin)) = 0x80u;     /* analogue: neither input nor output */
  REGISTER(UART_IBRD) = 1u;                                       /* 12 MHz / 16 / 500 000 = 1.5 */
  REGISTER(UART_FBRD) = 32u;
  REGISTER(UART_LCR) = 0x70u;
  REGISTER(UART_CR) = 0x301u;
  SET(UART_IMSC) = RX_INTERRUPT | RX_LATE_INTERRUPT;
  REGISTER(ADC_CS) = 1u;
  REGISTER(TIMER_ALARM0) = REGISTER(TIMER_NOW) + 1000u;
  REGISTER(TIMER_INTE) = 1u;
  REGISTER(WATCHDOG_LOAD) = 500000u;
  SET(WATCHDOG_CTRL) = 1u << 30;
  REGISTER(NVIC_ENABLE) = 1u << 0 | 1u << 20;
}
