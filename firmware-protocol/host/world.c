#include "world.h"
#include <math.h>

/* 0.5-4.5 V for 0-6 bar of a 5 V supply, read at 125 uV a count; the supply itself at the same scale; two type K
   probes at 10 nV a count with their cold junction at 1/128 degree. */
const struct sb_channel CHANNEL_TABLE[CHANNELS] = {
    {"press", "hose", "ratio", CH_SUPPLY, 16, 4000, 36000, 100000, 900000, 0, 600000, 1000000},
    {"supply", "", "voltage", SB_NONE, 16, 0, 40000, 0, 5000000, 4500000, 5500000, 10000},
    {"temp", "sleeve", "tc-k", CH_JUNCTION, 24, -8000000, 8000000, -80000000, 80000000, -40000, 375000, 10000},
    {"junct", "", "digital", SB_NONE, 16, -5120, 16000, -40000, 125000, -40000, 125000, 2000},
    {"temp", "air", "tc-k", CH_JUNCTION, 24, -8000000, 8000000, -80000000, 80000000, -40000, 375000, 10000},
};

static const double BELOW[] = {0.0, 0.39450128025e-1, 0.23622373598e-4, -0.32858906784e-6, -0.49904828777e-8,
                               -0.67509059173e-10, -0.57410327428e-12, -0.31088872894e-14, -0.10451609365e-16,
                               -0.19889266878e-19, -0.16322697486e-22};
static const double ABOVE[] = {-0.17600413686e-1, 0.38921204975e-1, 0.18558770032e-4, -0.99457592874e-7, 0.31840945719e-9,
                               -0.56072844889e-12, 0.56075059059e-15, -0.32020720003e-18, 0.97151147152e-22,
                               -0.12104721275e-25};

double type_k_mv(double t) {
  const double *c = t < 0 ? BELOW : ABOVE;
  int i = t < 0 ? 10 : 9;
  double sum = 0;
  for (; i >= 0; i--) sum = sum * t + c[i];
  if (t >= 0) sum += 0.1185976 * exp(-0.1183432e-3 * (t - 126.9686) * (t - 126.9686));
  return sum;
}

void world_init(struct world *w, uint64_t seed) {
  int i;
  w->pressure_pa = 0;
  w->sleeve_mc = w->air_mc = w->junction_mc = 15000;
  w->supply_mv = 5000;
  w->ramp_to_pa = w->ramp_pa_per_s = 0;
  w->noise[CH_PRESS] = 0.8;
  w->noise[CH_SUPPLY] = 0.5;
  w->noise[CH_SLEEVE] = w->noise[CH_AIR] = 60;
  w->noise[CH_JUNCTION] = 0.3;
  for (i = 0; i < CHANNELS; i++) {
    w->offset[i] = 0;
    w->held[i] = 0;
    w->spike[i] = 0;
  }
  w->stuck = w->open = 0;
  w->seed = seed;
}

void world_step(struct world *w, double seconds) {
  const double step = w->ramp_pa_per_s * seconds;
  if (w->ramp_pa_per_s == 0) return;
  if (fabs(w->ramp_to_pa - w->pressure_pa) <= fabs(step)) {
    w->pressure_pa = w->ramp_to_pa;
    w->ramp_pa_per_s = 0;
  } else {
    w->pressure_pa += step;
  }
}

static uint64_t mix(uint64_t x) { /* splitmix64 */
  x += UINT64_C(0x9e3779b97f4a7c15);
  x = (x ^ (x >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
  x = (x ^ (x >> 27)) * UINT64_C(0x94d049bb133111eb);
  return x ^ (x >> 31);
}

static double gauss(uint64_t key) { /* Box-Muller */
  const double u = ((double)(mix(key) >> 11) + 1) / 9007199254740993.0;
  const double v = (double)(mix(key ^ UINT64_C(0x5bf0363546bf1d57)) >> 11) / 9007199254740992.0;
  return sqrt(-2 * log(u)) * cos(6.283185307179586 * v);
}

static double ideal(const struct world *w, uint8_t channel) {
  switch (channel) {
    case CH_PRESS: /* ratio of the supply, through the converter's own reference */
      return (0.1 + 0.8 * w->pressure_pa / 600000.0) * w->supply_mv / 0.125;
    case CH_SUPPLY:
      return w->supply_mv / 0.125;
    case CH_SLEEVE:
      return (type_k_mv(w->sleeve_mc / 1000) - type_k_mv(w->junction_mc / 1000)) * 1e5;
    case CH_AIR:
      return (type_k_mv(w->air_mc / 1000) - type_k_mv(w->junction_mc / 1000)) * 1e5;
    default:
      return w->junction_mc * 128 / 1000;
  }
}

int32_t world_convert(struct world *w, uint8_t channel, uint32_t n) {
  static const double LOW[CHANNELS] = {0, 0, -8388608, -32768, -8388608};
  static const double HIGH[CHANNELS] = {65535, 65535, 8388607, 32767, 8388607};
  const uint8_t bit = (uint8_t)(1u << channel);
  double x;
  if (w->stuck & bit) return w->held[channel];
  /* An open thermocouple is pulled to full scale; an open transducer's input falls to ground. */
  if (w->open & bit) return channel == CH_PRESS || channel == CH_SUPPLY ? 0 : (int32_t)HIGH[channel];
  x = ideal(w, channel) + w->offset[channel] + w->noise[channel] * gauss(mix(w->seed ^ ((uint64_t)channel << 40)) + n);
  x += w->spike[channel];
  w->spike[channel] = 0;
  x = floor(x + 0.5);
  if (x < LOW[channel]) x = LOW[channel];
  if (x > HIGH[channel]) x = HIGH[channel];
  w->held[channel] = (int32_t)x;
  return w->held[channel];
}
