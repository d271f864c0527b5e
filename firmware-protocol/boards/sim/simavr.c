/* The AVR of boards/avr on simavr, which is linked here and nowhere else.

     simavr PROGRAM.elf [--tap FILE] [--serial TEXT]
       in real time, its serial line a pty. Operations on stdin and their answers are those of ../../host, of which it has: open, plug,
       unplug, true <line_Pa>, ramp <line_Pa> <seconds>, reset, state, quit.
     simavr PROGRAM.elf --script FILE
       as fast as it goes, the bytes of its line on stdout, each change of the sounder on stderr. A line of the script:
       <us> volts <input> <mV>, <us> say <line without LF>, <us> end. */
#define _GNU_SOURCE
#include "../../host/port.h"
#include <errno.h>
#include <fcntl.h>
#include <math.h>
#include <poll.h>
#include <simavr/avr_adc.h>
#include <simavr/avr_ioport.h>
#include <simavr/avr_uart.h>
#include <simavr/sim_avr.h>
#include <simavr/sim_elf.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#define HZ 16000000u
#define CYCLES_PER_US (HZ / 1000000u)
/* One byte at 500 000 baud. */
#define BYTE_CYCLES (20 * CYCLES_PER_US)

static avr_t *avr;
static avr_irq_t *line_in, *converter;
static struct port port;
static FILE *tap;
static int scripted, open_now;
static unsigned written;

/* Volts of the three inputs at the sensor, before the divider of 3:4. */
static double volts[3] = {0.5, 5.0, 0.7};
static double pressure_pa, ramp_to_pa, ramp_pa_per_s;
static uint8_t sounder;

static uint8_t out[65536];
static size_t out_n;
static uint8_t in[4096];
static size_t in_at, in_n;
static int line_full;

static double us(void) { return (double)avr->cycle / CYCLES_PER_US; }

static void byte_out(struct avr_irq_t *irq, uint32_t value, void *context) {
  (void)irq;
  (void)context;
  if (scripted)
    putchar((int)value);
  else if (out_n < sizeof out)
    out[out_n++] = (uint8_t)value;
}

static void may_send(struct avr_irq_t *irq, uint32_t value, void *context) {
  (void)irq;
  (void)value;
  (void)context;
  line_full = 0;
}
static void may_not_send(struct avr_irq_t *irq, uint32_t value, void *context) {
  (void)irq;
  (void)context;
  if (value) line_full = 1;
}

/* A byte each time that the wire needs for one. */
static avr_cycle_count_t feed(avr_t *a, avr_cycle_count_t when, void *context) {
  (void)a;
  (void)context;
  if (in_at < in_n && !line_full) avr_raise_irq(line_in, in[in_at++]);
  return when + BYTE_CYCLES;
}

static void convert(struct avr_irq_t *irq, uint32_t value, void *context) {
  union {
    avr_adc_mux_t mux;
    uint32_t value;
  } which;
  (void)irq;
  (void)context;
  which.value = value;
  /* The simulator takes whole mV and makes counts of 1023; the chip has 1024. */
  if (which.mux.src < 3) {
    const double counts = floor(volts[which.mux.src] * 0.75 / 4.096 * 1024);
    avr_raise_irq(converter + which.mux.src, (uint32_t)ceil(counts * 4096 / 1023));
  }
}

static void pin(struct avr_irq_t *irq, uint32_t value, void *context) {
  (void)irq;
  (void)context;
  if (value == sounder) return;
  sounder = (uint8_t)value;
  if (scripted) fprintf(stderr, "%.0f sounder %u\n", us(), (unsigned)value);
}

static void without_rest(avr_t *a, avr_cycle_count_t cycles) {
  (void)a;
  (void)cycles;
}
static void quiet(avr_t *a, const int level, const char *format, va_list arguments) {
  (void)a;
  if (level <= LOG_ERROR) vfprintf(stderr, format, arguments);
}

static void say(const char *text, size_t n) {
  if (in_at == in_n) in_at = in_n = 0;
  if (in_n + n > sizeof in) n = sizeof in - in_n;
  memcpy(in + in_n, text, n);
  in_n += n;
}

static void start(const char *program) {
  static elf_firmware_t firmware;
  uint32_t flags = 0;
  avr_global_logger_set(quiet);
  if (elf_read_firmware(program, &firmware) != 0) {
    fprintf(stderr, "%s: no program\n", program);
    exit(2);
  }
  avr = avr_make_mcu_by_name("atmega328p");
  avr_init(avr);
  firmware.frequency = HZ;
  avr_load_firmware(avr, &firmware);
  avr->frequency = HZ;
  avr->vcc = avr->avcc = 5000;
  avr->aref = 4096;
  avr->sleep = without_rest;
  avr_ioctl(avr, AVR_IOCTL_UART_SET_FLAGS('0'), &flags);
  avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUTPUT), byte_out, NULL);
  avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUT_XON), may_send, NULL);
  avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUT_XOFF), may_not_send, NULL);
  line_in = avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_INPUT);
  converter = avr_io_getirq(avr, AVR_IOCTL_ADC_GETIRQ, 0);
  avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_ADC_GETIRQ, ADC_IRQ_OUT_TRIGGER), convert, NULL);
  avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('B'), 0), pin, NULL);
  /* The button is not pressed. */
  avr_raise_irq(avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('D'), 2), 1);
  avr_cycle_timer_register(avr, BYTE_CYCLES, feed, NULL);
}

static void run_until(avr_cycle_count_t cycle) {
  while (avr->cycle < cycle) {
    int state;
    avr->run_cycle_limit = BYTE_CYCLES;
    state = avr_run(avr);
    if (state == cpu_Done || state == cpu_Crashed) {
      fprintf(stderr, "the program ended at %.0f us\n", us());
      exit(3);
    }
  }
}

static int run_script(const char *path) {
  char text[256];
  FILE *script = fopen(path, "r");
  if (script == NULL) return 2;
  scripted = 1;
  while (fgets(text, sizeof text, script) != NULL) {
    double at;
    int rest = 0, input;
    double mv;
    if (sscanf(text, "%lf %n", &at, &rest) < 1) continue;
    run_until((avr_cycle_count_t)(at * CYCLES_PER_US));
    if (sscanf(text + rest, "volts %d %lf", &input, &mv) == 2 && input >= 0 && input < 3)
      volts[input] = mv / 1000;
    else if (strncmp(text + rest, "say ", 4) == 0)
      say(text + rest + 4, strlen(text + rest + 4));
  }
  fclose(script);
  return 0;
}

/* ---- in real time --------------------------------------------------------------------------------------------------- */

static double now_s(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (double)t.tv_sec + (double)t.tv_nsec / 1e9;
}

static int operation(const char *op) {
  double a, b;
  char name[16] = "ttyUSB0";
  if (strcmp(op, "open") == 0 || sscanf(op, "plug %15s", name) == 1 || strcmp(op, "plug") == 0) {
    if (port.master < 0 && port_make(&port) != 0) {
      puts("error no pty");
    } else if (op[0] == 'o') {
      printf("ok %s\n", port.path);
    } else {
      snprintf(port.name, sizeof port.name, "%s", name);
      if (port_announce(&port, "add") != 0)
        puts("error not run: needs root");
      else
        printf("ok %s\n", port.path);
    }
  } else if (strcmp(op, "unplug") == 0) {
    (void)port_announce(&port, "remove");
    port_drop(&port);
    puts("ok");
  } else if (sscanf(op, "true %lf", &a) == 1) {
    pressure_pa = a;
    ramp_pa_per_s = 0;
    puts("ok");
  } else if (sscanf(op, "ramp %lf %lf", &a, &b) == 2 && b > 0) {
    ramp_to_pa = a;
    ramp_pa_per_s = (a - pressure_pa) / b;
    puts("ok");
  } else if (strcmp(op, "reset") == 0) {
    avr_reset(avr);
    line_full = 0;
    avr_cycle_timer_register(avr, BYTE_CYCLES, feed, NULL); /* a reset drops them all */
    puts("ok");
  } else if (strcmp(op, "state") == 0) {
    printf("ok open=%d pts=%s sounder=%d truePa=%.1f written=%u us=%.0f\n", open_now, port.master >= 0 ? port.path : "-", sounder,
           pressure_pa, written, us());
  } else if (strcmp(op, "quit") == 0) {
    return 0;
  } else {
    puts("error no such operation");
  }
  fflush(stdout);
  return 1;
}

static int operations(void) {
  static char text[1024];
  static size_t n;
  struct pollfd f = {STDIN_FILENO, POLLIN, 0};
  char *end;
  ssize_t got;
  if (poll(&f, 1, 0) < 1) return 1;
  got = read(STDIN_FILENO, text + n, sizeof text - 1 - n);
  if (got <= 0) return 0;
  n += (size_t)got;
  text[n] = 0;
  while ((end = strchr(text, '\n')) != NULL) {
    *end = 0;
    if (!operation(text)) return 0;
    n -= (size_t)(end + 1 - text);
    memmove(text, end + 1, n + 1);
  }
  return 1;
}

static void pressure_walks(double seconds) {
  const double step = ramp_pa_per_s * seconds;
  if (ramp_pa_per_s != 0) {
    if (fabs(ramp_to_pa - pressure_pa) <= fabs(step)) {
      pressure_pa = ramp_to_pa;
      ramp_pa_per_s = 0;
    } else {
      pressure_pa += step;
    }
  }
  /* A count is 8 mbar: with the noise that every converter has, half of one. */
  volts[0] = (0.1 + 0.8 * pressure_pa / 600000) * 5 + ((double)rand() / RAND_MAX - 0.5) / 187.5;
}

/* As a USB bridge: what came in a millisecond, in one piece; what nobody takes is lost. */
static void hand_over(void) {
  ssize_t taken = 0;
  if (open_now && out_n > 0) {
    taken = write(port.master, out, out_n);
    if (taken > 0) {
      written += (unsigned)taken;
      if (tap != NULL) {
        fwrite(out, 1, (size_t)taken, tap);
        fflush(tap);
      }
    }
  }
  out_n = 0;
}

static void run_live(void) {
  double began = now_s(), simulated = 0;
  srand(1);
  do {
    const double ahead = began + simulated - now_s();
    int opened;
    if (ahead < -0.25) began = now_s() - simulated; /* held up, as no board would be: time was lost, not to be made up */
    if (ahead > 0) {
      struct timespec t;
      t.tv_sec = 0;
      t.tv_nsec = (long)(ahead * 1e9);
      nanosleep(&t, NULL);
    }
    open_now = port_is_open(&port, &opened);
    if (open_now && in_at == in_n) {
      const ssize_t n = read(port.master, in, sizeof in);
      in_at = 0;
      in_n = n > 0 ? (size_t)n : 0;
    }
    pressure_walks(0.001);
    simulated += 0.001;
    run_until((avr_cycle_count_t)(simulated * HZ));
    hand_over();
  } while (operations());
}

int main(int argc, char **argv) {
  int i;
  if (argc < 2) return 2;
  port.master = -1;
  snprintf(port.vid, sizeof port.vid, "1209");
  snprintf(port.pid, sizeof port.pid, "0001");
  start(argv[1]);
  for (i = 2; i + 1 < argc; i += 2) {
    if (strcmp(argv[i], "--script") == 0) return run_script(argv[i + 1]);
    if (strcmp(argv[i], "--serial") == 0) snprintf(port.serial, sizeof port.serial, "%s", argv[i + 1]);
    if (strcmp(argv[i], "--tap") == 0 && (tap = fopen(argv[i + 1], "wb")) == NULL) return 2;
  }
  run_live();
  port_drop(&port);
  return 0;
}
