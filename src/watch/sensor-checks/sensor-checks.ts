import type { Place } from '../../job/setup.ts';
import type { TemperatureReading } from '../../sensing/reading.ts';
import type { Stage } from '../codes.ts';
import type { WatchEvent } from '../events.ts';
import { bar3, c1 } from '../round.ts';
import type { RecentStats } from '../signal/recent.ts';

/** Second opinions on the sensors: zero, dial gauge, probe warmed in the hand. */
export interface SensorChecks {
  /** Sum of the zeros taken, bar: several small ones may not add up to a large one. */
  zeroBar: number;
  gauge: { gaugeBar: number; readingBar: number; agrees: boolean } | null;
  /** Places whose probe agreed with a thermometer. */
  warm: Place[];
}

export function createSensorChecks(): SensorChecks {
  return { zeroBar: 0, gauge: null, warm: [] };
}

type Emit = (event: WatchEvent) => void;

/** Largest zero correction in all, bar: 1 % of a 5 bar sensor (common practice); more is a faulty sensor. */
export const ZERO_LIMIT_BAR = 0.05;
/** Scatter over which no zero is taken, bar. */
const ZERO_NOISE_BAR = 0.01;
/** Expanded uncertainty of a clinical or kitchen thermometer in the hand, K (common practice). */
const THERMOMETER_U_K = 2;

/**
 * Zero with the coupling seen open, from the readings of the last second. The offset is what is left over in
 * the reading now; it is to be subtracted on top of any earlier zero.
 */
export function takeZero(
  c: SensorChecks,
  stage: Stage,
  stats: RecentStats | null,
  tUs: number,
  emit: Emit,
): boolean {
  const offsetBar = stats === null ? 0 : bar3(stats.mean);
  const reason =
    stage !== 'prepare'
      ? 'in-run'
      : stats === null
        ? 'no-reading'
        : Math.abs(c.zeroBar + stats.mean) > ZERO_LIMIT_BAR
          ? 'too-far'
          : stats.sd > ZERO_NOISE_BAR
            ? 'noisy'
            : 'ok';
  const taken = reason === 'ok';
  if (taken) c.zeroBar += offsetBar;
  emit({ tUs, e: 'zero', taken, offsetBar, reason });
  return taken;
}

/**
 * Dial gauge against the last second's readings.
 * @param uBar expanded uncertainty of the reading, bar
 * @param gaugeUBar that of the gauge as it is read
 */
export function compareGauge(
  c: SensorChecks,
  gaugeBar: number,
  stats: RecentStats | null,
  uBar: number,
  gaugeUBar: number,
  tUs: number,
  emit: Emit,
): void {
  const agrees = stats === null ? null : Math.abs(gaugeBar - stats.mean) <= Math.hypot(uBar, gaugeUBar);
  if (stats !== null && agrees !== null)
    c.gauge = { gaugeBar: bar3(gaugeBar), readingBar: bar3(stats.mean), agrees };
  emit({
    tUs,
    e: 'gauge',
    gaugeBar: bar3(gaugeBar),
    readingBar: stats === null ? null : bar3(stats.mean),
    agrees,
  });
}

export function compareWarm(
  c: SensorChecks,
  place: Place,
  thermometerC: number,
  temp: TemperatureReading | null,
  tUs: number,
  emit: Emit,
): void {
  const readingC = temp?.c ?? null;
  const agrees =
    temp === null || readingC === null
      ? null
      : Math.abs(readingC - thermometerC) <= Math.hypot(temp.uC, THERMOMETER_U_K);
  c.warm = c.warm.filter((p) => p !== place);
  if (agrees === true) c.warm.push(place);
  emit({
    tUs,
    e: 'warm-check',
    place,
    thermometerC: c1(thermometerC),
    readingC: readingC === null ? null : c1(readingC),
    agrees,
  });
}
