/*
 * A second, independent little world: it makes pressure traces as CSV for the replay command, with its own
 * numerics (RK4 on a constant-temperature vessel, its own generator of noise) and its own statement of what must
 * be alarmed and when. It shares nothing with the rig or with the estimators, not even the language.
 *
 *   traces CASE OUT.csv OUT.expect
 *
 * Lines of the expectation: "alarm CODE AT_S TOL_S" it is raised within the tolerance; "by urgent AT_S" some
 * urgent alarm stands no later than this; "no urgent" none at all; "gap REASON FROM_S TO_S"; "leak VERDICT MBAR_PER_MIN".
 */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#define PATM 1.01325

static uint64_t state = 88172645463325252ULL;
static double uniform(void) { /* xorshift64, 0..1 */
  state ^= state << 13;
  state ^= state >> 7;
  state ^= state << 17;
  return (double)(state >> 11) / 9007199254740992.0;
}
static double normal(void) { /* sum of twelve uniforms: enough tails for sensor noise */
  double s = 0;
  for (int i = 0; i < 12; i++) s += uniform();
  return s - 6;
}
static double counts12(double bar) { /* 12 bits over 0..6 bar */
  double step = 6.0 / 4095.0;
  return floor(bar / step + 0.5) * step;
}

/* ISO 6358 shape of the flow through one restriction, scaled to bar/s of a rigid vessel; pressures absolute. */
static double rate(double p1, double p2, double k) {
  const double b = 0.3;
  double r = p2 / p1;
  if (r >= 1) return 0;
  if (r <= b) return k * p1;
  double u = (r - b) / (1 - b);
  return k * p1 * sqrt(1 - u * u);
}
static double fill(double p, double p1, double k, double dt) { /* one RK4 step */
  double a = rate(p1, p, k), b = rate(p1, p + a * dt / 2, k), c = rate(p1, p + b * dt / 2, k), d = rate(p1, p + c * dt, k);
  return p + dt * (a + 2 * b + 2 * c + d) / 6;
}

static FILE *csv;
static void row(double t, double bar, double celsius) {
  double v = counts12(bar + 0.0012 * normal());
  if (isnan(celsius)) fprintf(csv, "%.3f,%.5f\n", t, v);
  else fprintf(csv, "%.3f,%.5f,%.3f\n", t, v, celsius);
}

/* Every case is for --rated 2.0 alone: U 0.015, so the ceiling lies at 1.985 bar. */
#define CEILING 1.985
#define HZ 20.0

int main(int argc, char **argv) {
  if (argc != 4) return fprintf(stderr, "usage: traces CASE OUT.csv OUT.expect\n"), 2;
  const char *name = argv[1];
  csv = fopen(argv[2], "w");
  FILE *expect = fopen(argv[3], "w");
  if (!csv || !expect) return perror("traces"), 2;
  const double dt = 1 / HZ;

  if (!strcmp(name, "plain")) { /* a regulator at 1.5 bar fills and stays */
    fprintf(csv, "time_s,pressure_bar\n");
    double p = PATM;
    for (int i = 0; i < 20 * 240; i++) {
      row(i * dt, p - PATM, NAN);
      p = fill(p, 1.5 + PATM, 0.03, dt);
    }
    fprintf(expect, "no urgent\n");
  } else if (!strcmp(name, "high")) { /* the regulator stands at 2.6 bar: nothing will stop it under the ceiling */
    fprintf(csv, "time_s,pressure_bar\n");
    double p = PATM, crossed = -1;
    for (int i = 0; i < 20 * 240; i++) {
      row(i * dt, p - PATM, NAN);
      p = fill(p, 2.6 + PATM, 0.02, dt);
      if (crossed < 0 && p - PATM >= CEILING) crossed = (i + 1) * dt;
    }
    fprintf(expect, "alarm ceiling %.3f 0.5\nby urgent %.3f\n", crossed, crossed + 0.1);
  } else if (!strcmp(name, "creep")) { /* settled at 1.4, then 0.02 bar/s for ever: crosses at 60 + 0.585/0.02 */
    fprintf(csv, "time_s,pressure_bar\n");
    double p = PATM;
    for (int i = 0; i < 20 * 120; i++) {
      double t = i * dt, bar = t < 60 ? p - PATM : 1.4 + 0.02 * (t - 60);
      row(t, bar, NAN);
      p = fill(p, 1.4 + PATM, 0.05, dt);
    }
    double crossed = 60 + (CEILING - 1.4) / 0.02;
    fprintf(expect, "alarm ceiling %.3f 0.5\nby urgent %.3f\n", crossed, crossed + 0.1);
  } else if (!strcmp(name, "spikes")) { /* a calm hold at 1.5 bar with a single-sample spike now and then */
    fprintf(csv, "time_s,pressure_bar\n");
    for (int i = 0; i < 20 * 120; i++) row(i * dt, i % 157 == 60 ? 3.0 : 1.5, NAN);
    fprintf(expect, "no urgent\n");
  } else if (!strcmp(name, "silence")) { /* 12 s without a sample in the middle of a hold */
    fprintf(csv, "time_s,pressure_bar\n");
    double p = PATM;
    for (int i = 0; i < 20 * 300; i++) {
      double t = i * dt;
      if (t < 200 || t >= 212) row(t, p - PATM, NAN);
      p = fill(p, 1.5 + PATM, 0.05, dt);
    }
    fprintf(expect, "gap silence %.3f %.3f\nalarm pressure-lost 204.95 0.6\n", 200 - dt, 212.0);
  } else if (!strcmp(name, "leak")) { /* a closed packer at constant temperature loses 6 mbar/min, ln p falls straight */
    fprintf(csv, "time_s,pressure_bar,temperature_c_air\n");
    double p = PATM;
    for (int i = 0; i < 20 * 60 * 40; i++) {
      double t = i * dt;
      row(t, t < 60 ? p - PATM : (1.5 + PATM) * exp(-0.006 / (1.5 + PATM) * (t - 60) / 60) - PATM, 12.0 + 0.01 * normal());
      p = fill(p, 1.5 + PATM, 0.08, dt);
    }
    /* The figure is at the present pressure, so the truth is the slope at the end. */
    fprintf(expect, "leak leaking %.3f\nno urgent\n", 6.0 * exp(-0.006 / (1.5 + PATM) * (2400.0 - 60) / 60));
  } else {
    fprintf(stderr, "traces: no case named %s\n", name);
    return 2;
  }
  return fclose(csv) || fclose(expect) ? 2 : 0;
}
