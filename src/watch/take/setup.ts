import { isSecondPressure } from '../../job/pressure-roles.ts';
import type { Setup } from '../../job/setup.ts';
import { airTestBreaks } from '../airtest/airtest.ts';
import type { WatchEvent } from '../events.ts';
import { guardReset } from '../guard/guard.ts';
import { holdHole } from '../hold/hold.ts';
import { createPair } from '../pair/pair.ts';
import { bar3 } from '../round.ts';
import { createSensorChecks } from '../sensor-checks/sensor-checks.ts';
import { jumpRestart, jumpSettled } from '../signal/jump.ts';
import { levelsClear } from '../signal/levels.ts';
import { createPeriod } from '../signal/period.ts';
import { lossSettled } from '../stages/loss.ts';
import type { WatchState } from '../state.ts';
import { supplyDevice, supplyLimits } from '../supply/supply.ts';

/** Two ceilings this near are the same, bar (decimals that were stored and read). */
const SAME_BAR = 1e-9;

/** Does a count mean the same pressure in both? */
function sameScale(a: Setup, b: Setup): boolean {
  const scale = ({ channels, air }: Setup) => {
    const pressure = channels.find((c) => c.role === 'pressure');
    const partner = channels.find((c) => c.index === pressure?.partner);
    const ofAir = pressure?.gaugeKind === 'absolute' || pressure?.gaugeKind === 'sealed';
    return JSON.stringify([pressure, partner, ofAir ? air.bar : null]);
  };
  return scale(a) === scale(b);
}

/** What a count of the second pressure means. */
const secondScale = ({ channels }: Setup): string =>
  JSON.stringify(channels.filter((c) => isSecondPressure(c.role)));

const pressureChannel = ({ channels }: Setup): number | undefined =>
  channels.find((c) => c.role === 'pressure')?.index;

/** Second opinions were on the sensor that was read until now; and what is told to have been the outlet's was no packer's that could lose it. */
function anotherSensor(w: WatchState): void {
  w.sensorChecks = { ...createSensorChecks(), warm: w.sensorChecks.warm };
  jumpSettled(w.jump);
  if (w.pair.doubts.found === 'swapped') lossSettled(w.loss);
}

/**
 * Takes a Setup, or refuses it whole: within a run the ceiling only falls, and a limit once set is not taken
 * away. True where it was taken.
 */
export function takeSetup(w: WatchState, setup: Setup, emit: (event: WatchEvent) => void): boolean {
  const before = w.setup;
  const refuse = (reason: 'ceiling-raised' | 'not-newer') => {
    emit({ tUs: w.tUs, e: 'setup-refused', setup: setup.number, reason });
    return false;
  };
  if (before !== null) {
    if (setup.number <= before.number) return refuse('not-newer');
    const was = before.limits?.ceilingBar ?? Number.POSITIVE_INFINITY;
    const now = setup.limits?.ceilingBar ?? Number.POSITIVE_INFINITY;
    if (!(now <= was + SAME_BAR)) return refuse('ceiling-raised');
    if (setup.tap !== before.tap || setup.line !== before.line || !sameScale(setup, before)) {
      // The same numbers mean something else now: what they do at this moment is no flow and no leak.
      guardReset(w.guard);
      levelsClear(w.levels);
      jumpRestart(w.jump);
      supplyDevice(w.supply, w.tUs, emit);
      airTestBreaks(w.airTest, 'device', w.tUs, emit);
      if (pressureChannel(before) !== pressureChannel(setup)) anotherSensor(w);
      if (w.hold !== null) holdHole(w.hold, w.tUs, before, emit);
    }
  }
  if (before === null || secondScale(before) !== secondScale(setup)) w.pair = createPair(setup);
  if (w.signal.period.spacings.length === 0) w.signal.period = createPeriod(setup.rateHz);
  if (JSON.stringify(before?.airTest) !== JSON.stringify(setup.airTest))
    airTestBreaks(w.airTest, 'device', w.tUs, emit);
  w.setup = setup;
  supplyLimits(w.supply, setup.limits);
  emit({
    tUs: w.tUs,
    e: 'limits',
    setup: setup.number,
    ceilingBar: setup.limits === null ? null : bar3(setup.limits.ceilingBar),
    workingBar: setup.limits === null ? null : bar3(setup.limits.workingBar),
    floorBar: setup.limits === null || setup.limits.floorBar === null ? null : bar3(setup.limits.floorBar),
  });
  return true;
}
