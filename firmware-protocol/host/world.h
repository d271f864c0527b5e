/* What the sensors see, as counts: true values in, converter counts out, with noise and faults. */
#ifndef WORLD_H
#define WORLD_H
#include "../c/steadybar.h"

#define CHANNELS 5
enum { CH_PRESS, CH_SUPPLY, CH_SLEEVE, CH_JUNCTION, CH_AIR };

extern const struct sb_channel CHANNEL_TABLE[CHANNELS];
/* Counts of the guarded channel: 0.10 bar, the least a sound sensor gives, 20 mbar. */
#define GUARD_SMALL 4533
#define GUARD_FLOOR 3200
#define GUARD_DEADBAND 107
#define SUPPLY_NOMINAL 40000

struct world {
  double pressure_pa, sleeve_mc, air_mc, junction_mc, supply_mv;
  double ramp_to_pa, ramp_pa_per_s; /* the pressure walks there; 0: it stands */
  double noise[CHANNELS];           /* standard deviation, counts */
  double offset[CHANNELS];          /* counts that lie */
  int32_t held[CHANNELS];
  uint8_t stuck, open; /* bit per channel */
  int32_t spike[CHANNELS];
  uint64_t seed;
};

void world_init(struct world *w, uint64_t seed);
void world_step(struct world *w, double seconds);
/* One conversion; `n` numbers the noise, so that the same seed and number give the same counts. */
int32_t world_convert(struct world *w, uint8_t channel, uint32_t n);
/* mV of a type K thermocouple against 0 C, -270..1372 C: ITS-90 reference function, NIST Monograph 175. */
double type_k_mv(double celsius);
#endif
