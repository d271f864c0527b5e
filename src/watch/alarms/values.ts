import { spanEndBar } from '../../job/gauge-kind.ts';
import type { Limits } from '../../job/setup.ts';
import type { AlarmCode } from '../codes.ts';
import type { AlarmValues } from '../events.ts';
import { bar3, c1, rate1, round, s1 } from '../round.ts';
import { ageS } from '../signal/loss.ts';
import { lostPlace } from '../signal/probes.ts';
import type { WatchState } from '../state.ts';
import { lossOf, potLifeLeftS } from '../state.ts';

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

function overValues(w: WatchState, limits: Limits | null): Loose {
  const bar = w.signal.median;
  if (bar === null || limits === null) return {};
  return {
    bar: bar3(bar),
    ratedBar: bar3(limits.ratedBar),
    overBar: bar3(Math.max(0, bar - limits.ratedBar)),
  };
}

/** Numbers that the alarm's text may name, rounded. */
export function valuesOf(w: WatchState, alarm: AlarmCode): AlarmValues {
  const bar = b(w.signal.median ?? w.signal.bar);
  const limits = w.setup?.limits ?? null;
  const ceilingBar = b(limits?.ceilingBar);
  const floorBar = b(w.hold?.floor?.bar ?? limits?.floorBar);
  switch (alarm) {
    case 'over-range':
      return solid({ spanBar: b(spanEndBar(w.setup) ?? w.signal.bar) });
    case 'over-rated':
      return solid(overValues(w, limits));
    case 'ceiling':
      return solid({ bar: b(w.verdict?.ceiling?.bar) ?? bar, ceilingBar });
    case 'rising':
      return solid(risingValues(w.verdict?.rising?.values ?? {}));
    case 'pressure-lost':
      return solid({
        bar,
        cause: lossOf(w),
        seconds: s(ageS(w.signal, w.tUs)),
      });
    case 'fast-fall':
    case 'below-floor':
      return solid({ bar, floorBar });
    case 'leaking':
      return solid({ bar, floorBar, mbarPerMin: w.hold?.figure.mbarPerMin });
    case 'band-exit':
    case 'lift':
      return exitValues(w, alarm, bar);
    case 'device-trip':
    case 'device-unarmed': {
      const mbar = w.device.guard?.limitMbar ?? null;
      return solid({ bar, ceilingBar: mbar === null ? ceilingBar : bar3(mbar / 1000) });
    }
    case 'gauge-differs':
      return solid({ bar: w.checks.gauge?.readingBar, gaugeBar: w.checks.gauge?.gaugeBar });
    case 'rebound':
      return solid({ bar: b(w.rebound.backBar) });
    case 'temperature-lost':
      return solid({ place: lostPlace(w.probes, w.setup, w.signal.firstUs, w.tUs) });
    case 'cold': {
      const c = w.cure?.coldestC?.value ?? null;
      return solid({ c: c === null ? null : c1(c) });
    }
    case 'pot-life':
      return solid({ seconds: round(potLifeLeftS(w, w.tUs) ?? 0, 0) });
    case 'store-fault':
      return solid({ cause: w.store.code });
    case 'clock-jump':
      return solid({ seconds: s1(w.signal.jumpS) });
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
  });
}
