/* A whole device on a bare controller: what is the same on every board (board.c), and what a port has to give. Three
   inputs: 0 pressure, 0.5-4.5 V of the supply for 0-6 bar; 1 that supply, 5 V; 2 a temperature, 10 mV a degree from 0.5 V. */
#ifndef BOARD_H
#define BOARD_H
#include "../c/steadybar.h"

#define INPUTS 3

/* ---- given by the port ---- */

extern const struct sb_config PORT_CONFIG;
/* Clock, pins, converter, serial line and store; then the interrupt of 1 ms, which calls board_*. */
void port_init(void);
/* SB_FAULT_WATCHDOG when that had to start the controller, else 0. */
uint8_t port_cause(void);
/* Next byte from the host, -1: none. */
int16_t port_get(void);
/* Lets the transmit interrupt take what is in the ring. */
void port_send(void);
/* Next byte for the line, or -1: for the port's transmit interrupt. */
int16_t board_take(void);
void port_out(uint8_t sounder, uint8_t beacon);
uint8_t port_button(void);
/* Once in a turn of the main loop: tells the watchdog, and sleeps until the next interrupt. */
void port_rest(void);
#define PORT_STORE 48
uint8_t port_load(uint8_t at);
void port_save(uint8_t at, uint8_t byte);

/* ---- called by the port, in the interrupt of 1 ms ---- */

/* First, with the counts of input 0: the guard, and its output. */
void board_convert(int32_t counts);
/* Then, with all of them. */
void board_sample(const int32_t counts[INPUTS]);

#endif
