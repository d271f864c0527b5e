/* The library's short critical sections on an ARM core; included before every file (-include). */
#ifndef LOCK_H
#define LOCK_H
#include <stdint.h>

static inline uint32_t interrupts_off(void) {
  uint32_t before;
  __asm__ volatile("mrs %0, primask\n\tcpsid i" : "=r"(before) : : "memory");
  return before;
}
static inline void interrupts_as(uint32_t before) {
  __asm__ volatile("msr primask, %0" : : "r"(before) : "memory");
}

#define SB_LOCK() const uint32_t interrupts_before = interrupts_off()
#define SB_UNLOCK() interrupts_as(interrupts_before)

#endif
