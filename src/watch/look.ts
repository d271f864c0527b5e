import { spanEndBar } from '../job/gauge-kind.ts';
import { FLAG } from '../sensing/reading.ts';
import { airTestView } from './airtest/view.ts';
import { conditionOf } from './alarms/conditions.ts';
import { maybeShelved } from './alarms/operator.ts';
import { ALARM_TABLE } from './alarms/table.ts';
import { shownValues } from './alarms/values.ts';
import { STANDINGS, type Standing } from './codes.ts';
import { hasCup } from './cure/cup.ts';
import { cureView, isLightCured } from './cure/cure.ts';
import { holdView, tapSeesPacker } from './hold/hold.ts';
import { secondView } from './pair/view.ts';
import { ageS, isStale, staleAfterS } from './signal/loss.ts';
import { probeFresh } from './signal/probes.ts';
import { isOver } from './signal/signal.ts';
import { REBOUND_S } from './stages/rebound.ts';
import { isFilling, isUp } from './stages/stages.ts';
import { stands } from './stages/stand.ts';
import type { WatchState } from './state.ts';
import { airNotWanted, potLifeLeftS } from './state.ts';
import { supplyView } from './supply/view.ts';
import type { AlarmView, CupView, GuardView, WatchView } from './view.ts';

const NOTHING: GuardView = {
  restBar: null,
  rateBarPerS: null,
  settleBar: null,
  ceilingInS: null,
  closeInS: null,
  tooFast: null,
};

const RANK = { urgent: 0, high: 1, low: 2 } as const;
/** Within a priority, what asks for attention stands before what does not. */
const ATTENTION = {
  unacknowledged: 0,
  returned: 1,
  acknowledged: 2,
  shelved: 3,
  suppressed: 4,
  normal: 5,
} as const;

function alarmViews(w: WatchState): AlarmView[] {
  const out: AlarmView[] = [];
  ALARM_TABLE.forEach((row, i) => {
    const slot = w.alarms[i]!;
    if (slot.state === 'normal') return;
    out.push({
      alarm: row.alarm,
      priority: slot.priority,
      state: slot.state,
      occurrence: slot.occurrence,
      sinceUs: slot.sinceUs,
      begunUs: slot.begunUs,
      shelvable: maybeShelved(row, slot),
      shelvedUntilUs: slot.state === 'shelved' ? slot.shelvedUntilUs : null,
      values: shownValues(w, row.alarm, slot, conditionOf(w, row.alarm) === 'on'),
    });
  });
  const hidden = (a: AlarmView) => (a.state === 'shelved' || a.state === 'suppressed' ? 1 : 0);
  return out.sort(
    (a, b) =>
      hidden(a) - hidden(b) ||
      RANK[a.priority] - RANK[b.priority] ||
      ATTENTION[a.state] - ATTENTION[b.state] ||
      b.sinceUs - a.sinceUs,
  );
}

const limitsOf = (w: WatchState) => w.setup?.limits ?? null;

/** When each mark stands. */
const STANDS: { readonly [S in Standing]: (w: WatchState) => boolean } = {
  'no-limit': (w) => limitsOf(w) === null,
  'no-margin': (w) => (limitsOf(w)?.noMargin ?? null) !== null,
  practice: ({ setup }) => setup?.practice === true,
  'not-zeroed': ({ signal }) => (signal.flags & FLAG.notZeroed) !== 0,
  uncalibrated: ({ signal }) => (signal.flags & FLAG.uncalibrated) !== 0,
  'device-unarmed': (w) =>
    limitsOf(w) !== null && (w.device.guard === null || w.device.guard.state === 'unarmed'),
  'no-hold-by-tap': ({ setup }) => setup !== null && !tapSeesPacker(setup),
  'packer-not-inspected': ({ setup }) => setup?.inspectFirst === true,
  'only-one-seen': ({ setup }) => setup?.sharedLine === true,
  'cure-not-judged': ({ setup }) => isLightCured(setup?.resin),
  'hold-under-working': ({ hold }) => hold?.offWorking === 'under',
  'hold-over-working': ({ hold }) => hold?.offWorking === 'over',
};

/** The end of the sensor's span while the reading stands over it, bar; null: it does not, or is too old to say so. */
function overBar(w: WatchState, tUs: number): number | null {
  const { signal } = w;
  if (!isOver(signal) || signal.overUs === null) return null;
  if (tUs - signal.overUs > staleAfterS(signal) * 1e6) return null;
  return spanEndBar(w.setup) ?? signal.bar;
}

function cupView({ cup, setup, probes }: WatchState, tUs: number): CupView | null {
  if (cup === null || !hasCup(setup)) return null;
  const probe = probes.find((p) => p.place === 'cup');
  return { ...cup.said, c: probe !== undefined && probeFresh(probe, tUs) ? probe.c : null };
}

/** All that a screen shows of the moment. tUs may be later than the last input. */
export function viewOf(w: WatchState, tUs: number): WatchView {
  const { setup, signal } = w;
  const stale = isStale(signal, tUs);
  const { test } = w.rebound;
  return {
    tUs,
    firstUs: signal.firstUs,
    bar: signal.bar,
    ageS: ageS(signal, tUs),
    overBar: overBar(w, tUs),
    stale,
    uBar: signal.uBar,
    flags: signal.flags,
    temps: w.probes.map((p) => ({
      channel: p.channel,
      place: p.place,
      c: probeFresh(p, tUs) ? p.c : null,
      uC: p.uC,
      flags: p.flags,
    })),
    setup: setup?.number ?? null,
    limits: setup?.limits ?? null,
    tap: setup?.tap ?? 'unknown',
    line: setup?.line ?? 'unknown',
    standing: STANDINGS.filter((mark) => STANDS[mark](w)),
    stage: w.stages.stage,
    attempt: w.stages.attempt,
    stageSinceUs: w.stages.sinceUs,
    // A forecast from old readings is none.
    guard: stale || w.verdict === null ? NOTHING : w.verdict.view,
    hold: w.hold === null ? null : holdView(w.hold, tUs),
    cure: w.cure === null ? null : cureView(w.cure, tUs, signal.firstUs),
    alarms: alarmViews(w),
    airNotWanted: isUp(w.stages.stage) ? airNotWanted(w) : null,
    fillStands: isFilling(w.stages.stage) && !stale && stands(w.stand, tUs),
    ventOpen: w.ventOpen,
    question: w.fastFall.asked ? 'let-down-or-loss' : null,
    rebound: test === null ? null : { sinceUs: test.sinceUs, needS: REBOUND_S, startBar: test.startBar },
    supply: supplyView(w.supply, tUs),
    second: secondView(w.pair, tUs),
    airTest: airTestView(w.airTest, setup),
    cup: cupView(w, tUs),
    mixedUs: w.mixedUs,
    potLifeLeftS: potLifeLeftS(w, tUs),
    peakBar: signal.peakBar,
  };
}
