import { createMemo, untrack } from 'solid-js';
import type { Place } from '../../job/setup.ts';
import type { Stage } from '../../watch/codes.ts';
import type { WatchView } from '../../watch/view.ts';
import type { LanesSize } from '../../widgets/lanes/geometry.ts';
import { lanesBox } from '../../widgets/lanes/geometry.ts';
import { Lanes } from '../../widgets/lanes/Lanes.tsx';
import type { Aim, Ghost, LadderState } from '../../widgets/lanes/ladder-state.ts';
import { LOUPE_BAR, LOUPE_S, type Loupe } from '../../widgets/lanes/loupe.ts';
import type { MarkedLimits } from '../../widgets/lanes/marks.ts';
import type { LanesPicture } from '../../widgets/lanes/painter.ts';
import { scaleEnd } from '../../widgets/lanes/scale.ts';
import { type SpanChoice, spanShown } from '../../widgets/lanes/spans-shown.ts';
import { type TemperatureScale, temperatureScale } from '../../widgets/lanes/temperature-lane.ts';
import { ticksOf } from '../../widgets/lanes/time-axis.ts';
import { MARK_NAMES, pressureUnitOf, temperatureUnitOf } from '../../widgets/lanes/units.ts';
import { alarmMarks, gapSpans, limitSpans } from '../../widgets/spans.ts';
import { toldApart } from '../../widgets/told-apart.ts';
import { dashOf } from '../../widgets/trace-dashes.ts';
import { paceOf } from '../../widgets/trace-data.ts';
import { viewTrust } from '../../widgets/trust.ts';
import {
  NO_VALUE,
  pressure,
  stopwatch,
  temperature,
  testPressureNumber,
  testPressureUnit,
} from '../../words/format.ts';
import { LANES } from '../../words/lanes.ts';
import { LIVE } from '../../words/live.ts';
import { UI } from '../../words/ui.ts';
import { useServices } from '../context.ts';
import { isRunLeftOpen } from '../packers-left.ts';
import { zeroToBar } from './scene.ts';

/** What the ladder aims at in each stage. */
const AIM: Record<Stage, Aim> = {
  prepare: null,
  seat: 'seat',
  inflate: 'working',
  hold: 'band',
  'let-down': null,
  done: null,
  'air-test': 'band',
  abandoned: null,
};
/** Names of the ticks stand as far apart as this, px: large and small drawings. */
const TICK_PX = [96, 62] as const;
/** Under this a line that is let down is looked at through the loupe, bar. */
const FOOT_BAR = 2 * LOUPE_BAR;
/** Numbers that are only read aloud are renewed so often, s. */
const SPOKEN_S = 2;
/** Steps in which the arrow of the trend grows, bar/s: smaller ones are not seen. */
const RATE_STEP = 0.002;
const rateStep = (rate: number | null): number | null =>
  rate === null ? null : Math.round(rate / RATE_STEP) * RATE_STEP;
/** Closer than this two limits are one, bar. */
const SAME_BAR = 0.005;
/** The lane without a probe, °C. */
const EMPTY_C = { low: 8, high: 14 };
const ORDER: readonly (Place | null)[] = ['sleeve', 'air', 'pipe', 'ground', 'cup', null];

const { most, from, drop } = LANES.airTest;
/** In an air test the marks are the test's. */
const TEST_MARKS: typeof MARK_NAMES = {
  ...MARK_NAMES,
  rated: most,
  ceiling: most,
  working: from,
  floor: drop,
};

const json = { equals: (a: unknown, b: unknown) => JSON.stringify(a) === JSON.stringify(b) };

/** Trace, ladder and temperatures of the live run, bound to the services. */
export function LiveLanes(props: {
  size: LanesSize;
  /** The moment as it is read: what is written beside the drawing changes no faster than an eye takes it in. */
  calm: WatchView | null;
  /** Led by the stage where it is left out. */
  span?: SpanChoice;
  /** Given: the trace is one large key for it. */
  onOpen?: () => void;
  /** Something lies over the trace: its key is out of reach. */
  covered?: boolean;
  openLabel?: string;
}) {
  const app = useServices();
  const { live } = app;
  const view = live.view;
  const stage = (): Stage => view()?.stage ?? 'prepare';
  // The lines move with what is written beside them: a frame that changes something at all costs the browser most of its work,
  // whatever changes, so that five a second are spent on all of it. The pointer alone follows each reading.
  const nowS = createMemo(() => {
    const calm = props.calm;
    return calm === null || calm.firstUs === null ? 0 : Math.max(0, (calm.tUs - calm.firstUs) / 1e6);
  });
  /** Another one as soon as the readings themselves are others: a run that was read from its record. */
  const epoch = createMemo(() => {
    live.version();
    return live.buffer.epoch;
  });
  const spanS = createMemo(() => spanShown(props.span ?? 'stage', stage(), nowS()));
  const box = createMemo(() => lanesBox(props.size));

  const pressureUnit = createMemo(() => pressureUnitOf(app.units()));
  const temperatureUnit = createMemo(() => temperatureUnitOf(app.units()));
  const inForce = createMemo(() => view()?.limits ?? null);
  /** Between plugs the packer's limits say nothing: what counts is the test's most, and the drop that is allowed. */
  const tested = createMemo<MarkedLimits | null>(
    () => {
      const test = view()?.airTest ?? null;
      if (stage() !== 'air-test' || test === null) return null;
      const { mostBar, startBar, dropBar } = test.spec;
      const from = test.fromBar ?? startBar;
      return {
        ratedBar: mostBar,
        ceilingBar: mostBar,
        workingBar: from,
        floorBar: from - dropBar,
        seatBar: null,
      };
    },
    null,
    json,
  );
  const limits = createMemo<MarkedLimits | null>(
    () => {
      const l = inForce();
      const test = tested();
      if (test !== null) return test;
      if (l === null) return null;
      const { ratedBar, ceilingBar, floorBar, seatBar } = l;
      return { ratedBar, ceilingBar, workingBar: l.cue ? l.workingBar : null, floorBar, seatBar };
    },
    null,
    json,
  );
  /** As the digits have it: an air test goes by the small unit. */
  const ladderUnit = createMemo(() => {
    const unit = pressureUnit();
    if (tested() === null) return unit;
    const units = app.units();
    return {
      ...unit,
      unit: testPressureUnit(units),
      factor: units.pressure === 'bar' ? 1000 : unit.factor,
      text: (bar: number) => testPressureNumber(bar, units),
    };
  });
  /** What was last read: a lost reading is drawn where it was. */
  const lastBar = createMemo<number | null>((before) => view()?.overBar ?? view()?.bar ?? before, null);
  const trust = createMemo(() => viewTrust(view(), live.silent()));

  // Looked through once a second: a run of hours is not searched with each reading.
  const second = createMemo(() => Math.floor(nowS()));
  const slow = createMemo(() => Math.floor(nowS() / SPOKEN_S));
  const highest = createMemo(() => {
    const now = second() + 1;
    return live.buffer.barSpan(now - spanS(), now)?.high ?? 0;
  });
  const endBar = createMemo<{ readonly stage: string; readonly bar: number }>(
    (before) => {
      const now = `${stage()} ${view()?.attempt ?? 1} ${limits()?.ratedBar ?? ''}`;
      const seen = Math.max(view()?.overBar ?? view()?.bar ?? 0, highest());
      return {
        stage: now,
        bar: scaleEnd(limits()?.ratedBar ?? null, seen, before.stage === now ? before.bar : 0),
      };
    },
    { stage: '', bar: 0 },
    { equals: (a, b) => a.stage === b.stage && a.bar === b.bar },
  );

  // By itself: with each moment it is the same, and what is made of it stays.
  const firstUs = createMemo(() => view()?.firstUs ?? 0);
  /** Limits that others have replaced, each to the moment at which it was; the first was there from the begin. */
  const limitsBefore = createMemo<LanesPicture['limitsBefore']>(
    () => {
      const now = limits();
      const setup = live.setup();
      if (now === null || tested() !== null) return [];
      const spans = limitSpans(live.events(), setup === null ? [] : [setup], firstUs());
      const signs = ({ ceilingBar, workingBar, floorBar }: (typeof spans)[number]) =>
        [ceilingBar, workingBar, floorBar].join();
      // Limits that were said once more are no step.
      const steps = spans.filter((span, i) => i === 0 || signs(span) !== signs(spans[i - 1]!));
      return steps.slice(0, -1).map((span, i) => ({
        ...span,
        fromS: i === 0 ? Number.NEGATIVE_INFINITY : span.fromS,
        toS: steps[i + 1]!.fromS,
        ratedBar: now.ratedBar,
        seatBar: now.seatBar,
      }));
    },
    [],
    json,
  );
  const loweredFrom = createMemo<number | null>(() => {
    const now = limits()?.ceilingBar ?? null;
    const before = limitsBefore().flatMap((s) => (s.ceilingBar === null ? [] : [s.ceilingBar]));
    const highest = Math.max(...before);
    return now !== null && before.length > 0 && highest > now + SAME_BAR ? highest : null;
  });

  const raised = (...codes: readonly string[]) =>
    (view()?.alarms ?? []).find(
      (a) => codes.includes(a.alarm) && a.state !== 'returned' && a.state !== 'shelved',
    );
  const order = (): LadderState['order'] => {
    const values = raised('lift')?.values;
    if (values?.adviceHighBar === undefined) return null;
    return { toBar: values.adviceHighBar, notUnderBar: values.adviceLowBar ?? null };
  };
  /** Where a fill settles by itself; in a hold, how far warmth lifts it once that is an alarm. */
  const ghost = (): Ghost | null => {
    const settle = view()?.guard.settleBar ?? null;
    if (settle !== null) {
      const { value, low, high } = settle;
      const isOver = value > (limits()?.ceilingBar ?? Number.POSITIVE_INFINITY);
      const by = raised('rising', 'ceiling', 'over-rated') === undefined ? 'settles' : 'left-open';
      return { value, low, high, by, isUrgent: isOver };
    }
    const lift = raised('lift') === undefined ? null : (view()?.hold?.lift ?? null);
    return lift === null ? null : { ...lift.peakBar, by: 'warmth', isUrgent: false };
  };
  /** As it is read, and to the digits that are shown: a mark that trembles draws the eye. */
  const beside = (): LadderState['second'] => {
    const now = props.calm?.second ?? null;
    if (now === null || now.bar === null) return null;
    return { name: LANES.second[now.role], bar: Math.round(now.bar * 100) / 100 };
  };
  // Without the reading: it stays the same one while nothing else changes.
  const ladderBut = createMemo(
    (): Omit<LadderState, 'bar'> => ({
      trust: trust(),
      endBar: endBar().bar,
      limits: limits(),
      loweredFromBar: loweredFrom(),
      aim: AIM[stage()],
      ghost: ghost(),
      order: order(),
      rateBarPerS: rateStep(view()?.guard.rateBarPerS ?? null),
      second: beside(),
    }),
    undefined,
    json,
  );
  const ladder = createMemo<LadderState>(() => ({ ...ladderBut(), bar: lastBar() }));

  const temps = createMemo(() =>
    [...(props.calm?.temps ?? [])].sort((a, b) => ORDER.indexOf(a.place) - ORDER.indexOf(b.place)),
  );
  const channels = createMemo(() => temps().map((t) => t.channel), [], json);
  const dashes = createMemo(
    () => new Map(channels().map((c, i) => [c, { dash: dashOf(i + 1), isFirst: i === 0 }])),
  );
  const tempNames = createMemo<readonly string[]>(
    () => toldApart(temps().map(({ place }) => (place === null ? LANES.otherPlace : LANES.place[place]))),
    [],
    json,
  );
  // A probe that is lost is said at once; the rest is read aloud when it is asked for.
  const known = createMemo(() => temps().map((t) => `${t.channel} ${t.c === null}`), [], json);
  const spoken = createMemo<readonly string[]>(
    () => {
      known();
      slow();
      return untrack(temps).map((t, i) =>
        LANES.temperature(untrack(tempNames)[i] ?? '', temperature(t.c, app.units())),
      );
    },
    [],
    json,
  );
  const temperatures = createMemo<LanesPicture['temperatures']>(
    () =>
      temps().map((t, i) => {
        return {
          name: tempNames()[i] ?? '',
          value: t.c === null ? NO_VALUE : temperatureUnit().text(t.c),
          dash: dashOf(i + 1),
          tone: i === 0 ? 'ink' : 'ink3',
        };
      }),
    [],
    json,
  );
  const scale = createMemo<TemperatureScale>(
    (before) => {
      const now = second() + 1;
      const seen = live.buffer.temperatureSpan(now - spanS(), now) ?? EMPTY_C;
      return temperatureScale(seen.low, seen.high, temperatureUnitOf(app.units()), before);
    },
    temperatureScale(EMPTY_C.low, EMPTY_C.high, temperatureUnitOf(app.units())),
    json,
  );

  const gaps = createMemo(() => gapSpans(live.events(), firstUs()));
  const marks = createMemo(() =>
    alarmMarks(live.events(), firstUs()).map((m) => ({ ...m, isShelved: m.isShelved === true })),
  );
  /** Gaps, and a silence that goes on. */
  const unknown = createMemo<LanesPicture['unknown']>(() => {
    const age = view()?.ageS ?? null;
    const isSilent = trust() === 'lost' && age !== null && age > 1;
    return isSilent ? [...gaps(), { fromS: nowS() - age, toS: nowS() }] : gaps();
  });
  const pace = createMemo(
    () => paceOf(live.link()?.rateHz ?? null, live.link()?.channels ?? []),
    paceOf(null),
    json,
  );
  const ticks = createMemo(
    () => {
      const leastPx = TICK_PX[props.size.small ? 1 : 0];
      // The axis says how long ago: it stands still while the lines move.
      return ticksOf(-spanS(), 0, box().pressure, leastPx)
        .ticks.filter((t) => t.s < 0)
        .map((t) => ({ ...t, text: LANES.ago(Math.round(-t.s)) }));
    },
    [],
    json,
  );
  const loupe = createMemo<Loupe | null>(() => {
    const v = view();
    if (v === null) return null;
    const isDown = stage() === 'let-down' || stage() === 'done';
    const isLow = v.bar !== null && v.bar < FOOT_BAR;
    // Far over its own scale it has nothing to say, and would lie over what the line does now.
    if (v.rebound === null && !(isLow && (isDown || raised('rebound') !== undefined))) return null;
    const window = live.buffer.strided(nowS() - LOUPE_S, nowS(), 2, new Map());
    const bar = window.series[0]!;
    const points = Array.from(window.s, (s, i) => ({ s: s - nowS(), bar: bar.max[i]! }));
    return {
      points: points.filter((p) => Number.isFinite(p.bar)),
      allowedBar: v.uBar === null ? null : zeroToBar(v),
      bar: v.bar,
    };
  });

  const words = (): LanesPicture['words'] => ({
    marks: tested() === null ? MARK_NAMES : TEST_MARKS,
    ghost: { settles: LANES.settles, 'left-open': LANES.leftOpen, warmth: LANES.liftsTo },
    last: LANES.last,
    atLeast: LANES.atLeast,
    letOutTo: LANES.letOutTo,
    leaveAtLeast: LANES.leaveAtLeast,
    lowered: LANES.lowered,
    now: LANES.now,
    loupe: { title: LANES.footTitle, allowed: LANES.footAllowed },
  });
  const lines = createMemo<LanesPicture['lines']>(() => {
    epoch();
    return { spanS: spanS(), nowS: nowS(), scale: scale(), dashes: dashes(), pace: pace(), gaps: gaps() };
  });
  const picture = createMemo<Omit<LanesPicture, 'size' | 'box'>>(() => ({
    ladder: ladder(),
    lines: lines(),
    limitsBefore: limitsBefore(),
    buffer: live.buffer,
    ticks: ticks(),
    marks: marks(),
    unknown: unknown(),
    temperatures: temperatures(),
    loupe: loupe(),
    practice: live.link()?.kind === 'rig' ? UI.practiceWord : null,
    pressureUnit: ladderUnit(),
    temperatureUnit: temperatureUnit(),
    words: words(),
  }));

  // Read aloud when it is asked for: its number need not be of this very moment.
  const ladderLabel = createMemo(() => {
    const l = limits();
    const units = app.units();
    const state = trust();
    slow();
    const bar = untrack(lastBar);
    const now =
      state === 'over'
        ? UI.overRange(pressure(bar, units))
        : state === 'good' || state === 'stale'
          ? pressure(bar, units)
          : UI.noReading;
    return l === null
      ? UI.ladderNoLimit(now)
      : UI.ladder(now, pressure(l.ceilingBar, units), pressure(l.ratedBar, units));
  });
  const stageClock = createMemo(() => {
    const v = props.calm;
    return v === null ? '' : stopwatch(Math.max(0, (v.tUs - v.stageSinceUs) / 1e6));
  });

  return (
    <Lanes
      size={props.size}
      picture={picture()}
      // What goes on is the run that was not closed: no stage of the watch before it is said beside it.
      stages={isRunLeftOpen(app) ? [] : live.stages()}
      stageClock={stageClock()}
      theme={app.theme()}
      label={LIVE.traceLabel}
      ladderLabel={ladderLabel()}
      spoken={spoken()}
      onOpen={props.onOpen}
      covered={props.covered ?? false}
      openLabel={props.openLabel}
    />
  );
}
