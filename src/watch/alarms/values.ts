import { spanEndBar } from '../../job/gauge-kind.ts';
import type { Limits } from '../../job/setup.ts';
import { DEVICE_FAULTS } from '../../link/frames.ts';
import type { AlarmCode } from '../codes.ts';
import { NOTHING_SAID } from '../cure/cup-judge.ts';
import { gravestFault } from '../device-faults.ts';
import type { AlarmValues } from '../events.ts';
import { secondNow } from '../pair/second.ts';
import { bar3, c1, rate1, round, s1 } from '../round.ts';
import { LATE_S } from '../signal/late.ts';
import { ageS } from '../signal/loss.ts';
import { doubtAt, lostPlace } from '../signal/probes.ts';
import type { WatchState } from '../state.ts';
import {
  airNotWanted,
  besideNow,
  heldBeside,
  isOverByGauge,
  lossOf,
  potLifeLeftS,
  readsHoseAlone,
  risingOf,
  slowReadings,
} from '../state.ts';
import { testMostBar } from './limit-conditions.ts';
import type { AlarmSlot } from './machine.ts';

/** Only values that are there: an absent member is unknown, never zero. */
type Loose = { [K in keyof AlarmValues]: AlarmValues[K] | null | undefined };

function solid(values: Loose): AlarmValues {
  return Object.fromEntries(
    Object.entries(values).filter(([, v]) => v !== null && v !== undefined),
  ) as AlarmValues;
}

const b = (v: number | null | undefined) => (v === null || v === undefined ? null : bar3(v));
const s = (v: number | null | undefined) => (v === null || v === undefined ? null : s1(v));

/** Outwards, so that rounding never narrows an interval that a text names. */
function risingValues(v: AlarmValues): Loose {
  return {
    ...v,
    bar: b(v.bar),
    ceilingBar: b(v.ceilingBar),
    settleBar: b(v.settleBar),
    settleLowBar: v.settleLowBar === undefined ? null : Math.floor(v.settleLowBar * 1000) / 1000,
    settleHighBar: v.settleHighBar === undefined ? null : Math.ceil(v.settleHighBar * 1000) / 1000,
    inS: s(v.inS),
    inLowS: v.inLowS === undefined ? null : Math.floor(v.inLowS * 10) / 10,
    inHighS: v.inHighS === undefined ? null : Math.ceil(v.inHighS * 10) / 10,
  };
}

function overValues(bar: number | null, limits: Limits | null): Loose {
  if (bar === null || limits === null) return {};
  const ratedBar = bar3(limits.ratedBar);
  return { bar, ratedBar, overBar: bar3(Math.max(0, bar - ratedBar)) };
}

/** Behind a closed end no packer is under pressure. */
const where = (w: WatchState): 'hose' | null => (readsHoseAlone(w) ? 'hose' : null);

/** Behind a line that reads empty a cross-check may show what the packer holds. */
function reboundValues(w: WatchState, lineBar: number | null): Loose {
  const { cameBack, emptyBar, backBar } = w.rebound;
  const held = heldBeside(w);
  const bar = held > 0 ? b(Math.max(held, lineBar ?? 0)) : lineBar;
  if (cameBack) return { bar: b(Math.max(backBar, held)) };
  return emptyBar === null || held > 0 ? { bar, cause: 'full' } : { bar };
}

const secondOf = (w: WatchState): number | null => b(secondNow(w.pair.signal, w.tUs));

/** Of two pressures at the packer the higher one is told. */
function higher(bar: number | null, w: WatchState): number | null {
  const beside = b(besideNow(w));
  return bar === null || beside === null ? (bar ?? beside) : Math.max(bar, beside);
}

/**
 * Numbers that the alarm's text may name, rounded.
 * @param nowBar the pressure that they go by: what the alarm was judged by, or what is shown beside the text
 */
export function valuesOf(w: WatchState, alarm: AlarmCode, nowBar: number | null): AlarmValues {
  const bar = b(nowBar);
  const limits = w.setup?.limits ?? null;
  const ceilingBar = b(limits?.ceilingBar);
  const floorBar = b(w.hold?.floor?.bar ?? limits?.floorBar);
  switch (alarm) {
    case 'over-range':
      return solid({ spanBar: b(spanEndBar(w.setup) ?? w.signal.bar), cause: where(w) });
    case 'over-rated':
      return solid({ ...overValues(higher(bar, w), limits), cause: where(w) });
    case 'over-test':
      return solid({ bar, ceilingBar: b(testMostBar(w)) });
    case 'ceiling':
      return solid({ bar: higher(bar, w), ceilingBar, cause: where(w) });
    case 'rising':
      return solid(risingValues(risingOf(w)?.values ?? {}));
    case 'supply-over':
      return solid({ bar, secondBar: secondOf(w), ceilingBar });
    case 'supply-moved':
      return solid({
        bar,
        secondBar: w.pair.outlet.stood === null ? null : secondOf(w),
        lockUpBar: b(w.supply.proved?.lockUp.value ?? w.pair.outlet.stood?.bar),
        ceilingBar,
      });
    case 'sensors-differ':
      return solid({ bar, secondBar: secondOf(w), cause: w.pair.doubts.found });
    case 'second-lost':
      return solid({ bar, cause: w.pair.signal.role });
    case 'pressure-lost':
      return solid({
        bar,
        cause: lossOf(w),
        seconds: s(ageS(w.signal, w.tUs)),
      });
    case 'fast-fall':
      return solid({ bar, floorBar, cause: w.loss.wasUnseen && w.loss.noticedUs !== null ? 'unseen' : null });
    case 'below-floor':
      return solid({ bar, floorBar, cause: airNotWanted(w) });
    case 'leaking':
      return solid({ bar, floorBar, mbarPerMin: w.hold?.figure.mbarPerMin, cause: airNotWanted(w) });
    case 'band-exit':
    case 'lift':
      return exitValues(w, alarm, bar);
    case 'device-trip':
    case 'device-unarmed': {
      const mbar = w.device.guard?.limitMbar ?? null;
      return solid({ bar, ceilingBar: mbar === null ? ceilingBar : bar3(mbar / 1000) });
    }
    case 'gauge-differs':
      return solid({
        bar: w.sensorChecks.gauge?.readingBar,
        gaugeBar: w.sensorChecks.gauge?.gaugeBar,
        cause: isOverByGauge(w) ? 'over' : null,
      });
    case 'rebound':
      if (w.stages.stage === 'prepare') return solid({ bar, cause: 'unannounced' });
      return solid(reboundValues(w, bar));
    case 'temperature-lost': {
      const place = lostPlace(w.probes, w.setup, w.signal.firstUs, w.tUs);
      return solid({ place, cause: place === null ? null : doubtAt(w.probes, place, w.tUs) });
    }
    case 'cold': {
      const c = w.cure?.coldestC?.value ?? null;
      return solid({ c: c === null ? null : c1(c) });
    }
    case 'pot-life':
      return solid({ seconds: round(potLifeLeftS(w, w.tUs) ?? 0, 0) });
    case 'batch-slow': {
      const { verdict, doubt, times } = w.cup?.said ?? NOTHING_SAID;
      return solid({
        times: times === null ? null : round(times.value ?? times.least, 1),
        cause: doubt ?? verdict,
      });
    }
    case 'store-fault':
      return solid({ cause: w.store.code });
    case 'clock-jump':
      return solid({ seconds: s1(w.unseen.sleptS) });
    case 'device-fault':
      return solid({ cause: DEVICE_FAULTS[(gravestFault(w.device, w.tUs) ?? 0) - 1] });
    case 'device-deaf':
      return solid({});
    case 'slow-readings': {
      const { lateS } = w.signal.late;
      if (lateS >= LATE_S) return { cause: 'late', seconds: s1(lateS) };
      const slow = slowReadings(w);
      if (slow === null || slow === 'between') return {};
      return { perSecond: round(1 / slow.nowS, 1), perSecondBefore: round(1 / slow.usualS, 1) };
    }
    case 'reading-jump':
      return solid({ bar, jumpBar: b(w.jump.standingBar), cause: isOverByGauge(w) ? 'over' : null });
    case 'device-reset':
    case 'supply-low':
    case 'stuck':
    case 'line-contradicted':
    case 'garbage':
      return solid({ bar });
  }
}

function exitValues(w: WatchState, alarm: 'band-exit' | 'lift', bar: number | null): AlarmValues {
  const exit = w.hold?.exit ?? null;
  const forecast = alarm === 'lift' ? (w.hold?.forecast ?? null) : null;
  const inS = forecast?.ceilingInS ?? exit?.inS ?? null;
  const rate = w.hold?.figure.mbarPerMin ?? null;
  return solid({
    bar,
    floorBar: b(w.hold?.floor?.bar ?? w.setup?.limits?.floorBar),
    ceilingBar: b(w.setup?.limits?.ceilingBar),
    settleBar: b(forecast?.peakBar.value),
    settleLowBar: b(forecast?.peakBar.low),
    settleHighBar: b(forecast?.peakBar.high),
    adviceLowBar: b(forecast?.adviceLowBar),
    adviceHighBar: b(forecast?.adviceHighBar),
    inS: inS === null ? null : round(inS.value, 0),
    inLowS: inS === null ? null : Math.floor(inS.low),
    inHighS: inS === null ? null : Math.ceil(inS.high),
    mbarPerMin: alarm === 'band-exit' && rate !== null ? rate1(rate) : null,
    cause: alarm === 'band-exit' ? airNotWanted(w) : null,
  });
}

/**
 * What is shown of a raised alarm beside the digits. While its condition is on it goes by the number that is shown, and
 * by the forecast of now; in its deadband and off-delay what is still known of now stands beside what was said.
 * Of one that is over the numbers of its moment are left.
 */
export function shownValues(w: WatchState, alarm: AlarmCode, slot: AlarmSlot, on: boolean): AlarmValues {
  if (!slot.active) return slot.values;
  const now = valuesOf(w, alarm, w.signal.bar);
  if (!on) return { ...slot.values, ...now };
  return alarm === 'rising' ? risingNow(w, now) : now;
}

/** The verdict's numbers are those of its last evaluation that was sure: pressure and time of now take their place. */
function risingNow(w: WatchState, values: AlarmValues): AlarmValues {
  const { inS: _value, inLowS: _low, inHighS: _high, ...rest } = values;
  const time = w.verdict?.view.ceilingInS ?? null;
  const when = time === null ? {} : { inS: time.value, inLowS: time.low, inHighS: time.high };
  return solid({ ...risingValues({ ...rest, ...when }), bar: b(w.signal.bar) });
}
