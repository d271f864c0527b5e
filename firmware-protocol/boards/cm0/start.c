/* From the reset to main, and the table of interrupts. */
#include <stdint.h>

extern uint32_t data_from, data_begin, data_end, bss_begin, bss_end, stack_end;
int main(void);
void timer_interrupt(void);
void uart_interrupt(void);
void reset(void);
void stay(void);

void reset(void) {
  const uint32_t *from = &data_from;
  uint32_t *to;
  for (to = &data_begin; to < &data_end; to++) *to = *from++;
  for (to = &bss_begin; to < &bss_end; to++) *to = 0;
  main();
}

/* What must not happen: the watchdog ends it. */
void stay(void) {
  for (;;) {
  }
}

typedef void (*entry)(void);
struct vectors {
  const uint32_t *stack;
  entry of_core[15];
  entry of_chip[26];
};

extern const struct vectors VECTORS;
const struct vectors VECTORS __attribute__((section(".vectors"), used)) = {
    &stack_end,
    {reset, stay, stay, 0, 0, 0, 0, 0, 0, 0, stay, 0, 0, stay, stay},
    {timer_interrupt, stay, stay, stay, stay, stay, stay, stay, stay, stay, stay, stay, stay, stay, stay, stay, stay, stay, stay, stay, uart_interrupt, stay, stay, stay, stay, stay},
};
