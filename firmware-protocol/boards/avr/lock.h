/* The library's short critical sections on an AVR; included before every file (-include). */
#ifndef LOCK_H
#define LOCK_H
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/pgmspace.h>

#define SB_FLASH PROGMEM
#define SB_FLASH_U32 pgm_read_dword
#define SB_LOCK() const uint8_t interrupts_before = SREG; cli()
#define SB_UNLOCK() SREG = interrupts_before

#endif
