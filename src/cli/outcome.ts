import type { Setup } from '../job/setup.ts';
import { ENGINE, type Stage } from '../watch/codes.ts';
import type { WatchEvent } from '../watch/events.ts';
import type { Catalogue } from '../words/catalogue.ts';
import type { UnusableCells } from './csv.ts';
import type { Judged } from './judge.ts';
import { RESULT_SCHEMA, type ReplayResult, resultSchema } from './result.ts';

type AlarmEvent = Extract<WatchEvent, { e: 'alarm' }>;
type AlarmText = Catalogue['alarms']['alarmText'];
type ResultAlarm = ReplayResult['alarms'][number];
type ResultStage = ReplayResult['stages'][number];

const RANK = { urgent: 0, high: 1, low: 2 } as const;

const to = (digits: number) => {
  const f = 10 ** digits;
  return (value: number): number => Math.round(value * f) / f;
};
const ms = to(3);
const bar = to(4);
const maybe = (round: (v: number) => number, value: number | null): number | null =>
  value === null ? null : round(value);

/** The RESULT of a judged trace; parsed by its own schema before it is given out. */
export function outcome(
  judged: Judged,
  setup: Setup | null,
  unusable: UnusableCells,
  words: Catalogue,
): ReplayResult {
  const originUs = judged.firstUs ?? 0;
  const s = (us: number): number => ms((us - originUs) / 1e6);
  const endUs = Math.max(judged.run.nowUs, originUs);
  const { events, view } = judged;
  const limits = setup?.limits ?? null;
  const { cure } = view;
  return resultSchema.parse({
    schema: RESULT_SCHEMA,
    engine: ENGINE,
    readings: judged.run.readings,
    unusable: {
      cells: unusable.cells,
      listed: unusable.listed.map(({ row, column, said }) => ({ row, column, text: said.text(words) })),
    },
    firstS: judged.firstUs === null ? null : 0,
    lastS: judged.lastUs === null ? null : s(judged.lastUs),
    gaps: events.flatMap((e) =>
      e.e === 'gap' ? [{ reason: e.reason, fromS: s(e.fromUs), toS: s(e.toUs) }] : [],
    ),
    limits:
      limits === null
        ? null
        : {
            ratedBar: limits.ratedBar,
            ceilingBar: limits.ceilingBar,
            workingBar: limits.workingBar,
            floorBar: limits.floorBar,
            uBar: limits.uBar,
          },
    tap: setup?.tap ?? 'unknown',
    line: setup?.line ?? 'unknown',
    peakBar: maybe(bar, view.peakBar),
    stages: stagesOf(events, s, originUs, endUs),
    cues: events.flatMap((e) => (e.e === 'cue' ? [{ atS: s(e.tUs), closeInS: to(1)(e.closeInS) }] : [])),
    tooFast: events.flatMap((e) =>
      e.e === 'too-fast'
        ? [{ atS: s(e.tUs), lateBar: e.lateBar, rateBarPerS: e.rateBarPerS, mostBarPerS: e.mostBarPerS }]
        : [],
    ),
    alarms: alarmsOf(judged, s, words.alarms.alarmText),
    holds: judged.holds.map(({ fromUs, toUs, view: h }) => ({
      fromS: s(fromUs),
      toS: s(toUs),
      minutesInBand: ms(h.minutesInBand),
      minBar: maybe(bar, h.minBar),
      maxBar: maybe(bar, h.maxBar),
      leak: {
        verdict: h.leak.verdict,
        mbarPerMin: h.leak.mbarPerMin,
        low: h.leak.low,
        high: h.leak.high,
      },
    })),
    lift: events.flatMap((e) =>
      e.e === 'lift'
        ? [
            {
              atS: s(e.tUs),
              peakBar: e.peakBar.value,
              low: e.peakBar.low,
              high: e.peakBar.high,
              ceilingAtS: e.ceilingInS === null ? null : ms((e.tUs - originUs) / 1e6 + e.ceilingInS.value),
            },
          ]
        : [],
    ),
    cure:
      cure === null
        ? null
        : {
            progress: to(4)(cure.progress),
            low: to(4)(cure.low),
            high: to(4)(cure.high),
            metS: maybe(ms, cure.metAtS),
            equivalentAgeMin: to(2)(cure.equivalentAgeMin),
          },
  });
}

/** The stage before the first stage event is 'prepare'; a stage that took no time is left out. */
function stagesOf(
  events: readonly WatchEvent[],
  s: (us: number) => number,
  fromUs: number,
  endUs: number,
): ResultStage[] {
  const out: ResultStage[] = [];
  let stage: Stage = 'prepare';
  let attempt = 1;
  let sinceUs = fromUs;
  const close = (atUs: number): void => {
    if (atUs > sinceUs) out.push({ stage, attempt, fromS: s(sinceUs), toS: s(atUs) });
  };
  for (const e of events) {
    if (e.e !== 'stage') continue;
    // A stage read off the data is known a while after it began.
    const atUs = Math.max(e.fromUs ?? e.tUs, fromUs);
    close(atUs);
    stage = e.stage;
    attempt = e.attempt;
    sinceUs = atUs;
  }
  close(endUs);
  return out;
}

/** One line an occurrence. What was suppressed by a raised parent was never annunciated and is no alarm here. */
function alarmsOf({ events, barAt }: Judged, s: (us: number) => number, alarmText: AlarmText): ResultAlarm[] {
  const out: ResultAlarm[] = [];
  const open = new Map<string, ResultAlarm>();
  events.forEach((e, i) => {
    if (e.e !== 'alarm') return;
    const key = `${e.alarm} ${e.occurrence}`;
    const known = open.get(key);
    if (known === undefined) {
      if (e.to !== 'unacknowledged') return;
      const raised: ResultAlarm = {
        alarm: e.alarm,
        priority: e.priority,
        raisedS: s(e.tUs),
        clearedS: null,
        pressureBar: maybe(bar, e.values.bar ?? barAt[i] ?? null),
        text: alarmText(e.alarm, e.values),
      };
      open.set(key, raised);
      out.push(raised);
      return;
    }
    update(known, e, s, alarmText);
  });
  return out;
}

function update(known: ResultAlarm, e: AlarmEvent, s: (us: number) => number, alarmText: AlarmText): void {
  if (RANK[e.priority] < RANK[known.priority]) {
    known.priority = e.priority;
    known.text = alarmText(e.alarm, e.values);
  }
  if (e.why === 'returned') known.clearedS = s(e.tUs);
}
