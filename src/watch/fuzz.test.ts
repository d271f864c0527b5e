import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CHECK_SAID } from '../job/checklist.ts';
import { LINES, TAPS } from '../job/codes.ts';
import { LIMITS, setupOf } from '../job/testing/givens.ts';
import type { Reading } from '../sensing/reading.ts';
import { readingOf } from '../sensing/testing/readings.ts';
import { ALARM_TABLE } from './alarms/table.ts';
import { ALARMS, LINE_ENDS, STAGES } from './codes.ts';
import type { WatchEvent } from './events.ts';
import { AIR_TEST_WORDS, type Command, type Notice, SUPPLY_WORDS, type WatchInput } from './inputs.ts';
import type { WatchState } from './step.ts';
import { createWatch, step, viewOf } from './step.ts';

/*
 * Any input, in any order, with times that only ascend: nothing throws, every event survives JSON, the alarm
 * slots keep their rules, the ceiling never rises, and a snapshot taken anywhere goes on with the same events.
 */

const bar = fc.oneof(
  fc.double({ min: -0.2, max: 3.5, noNaN: true }),
  fc.constantFrom(null, 0, 2.48, 0.7, -5, 1e6),
);
const flags = fc.oneof({ weight: 3, arbitrary: fc.constant(0) }, fc.integer({ min: 0, max: 4095 }));
const temp = fc.record({
  channel: fc.integer({ min: 1, max: 3 }),
  place: fc.constantFrom('sleeve', 'air', 'pipe', 'ground', null),
  c: fc.oneof(fc.double({ min: -20, max: 90, noNaN: true }), fc.constant(null)),
  uC: fc.double({ min: 0, max: 5, noNaN: true }),
  flags,
});
const readings = fc.record({
  kind: fc.constant('readings' as const),
  n: fc.integer({ min: 1, max: 60 }),
  hz: fc.constantFrom(1, 10, 50),
  from: bar,
  slope: fc.double({ min: -0.2, max: 0.2, noNaN: true }),
  flags,
  temps: fc.array(temp, { maxLength: 3 }),
  status: fc.integer({ min: 0, max: 127 }),
});
const alarm = fc.constantFrom(...ALARMS);
const text = fc.string({ maxLength: 8 });
const flag = fc.boolean();
const COMMANDS: {
  readonly [C in Command['c']]: fc.Arbitrary<Omit<Extract<Command, { c: C }>, 'c'>>;
} = {
  acknowledge: fc.record({ alarm, occurrence: fc.integer({ min: 1, max: 4 }) }),
  shelve: fc.record({ alarm, seconds: fc.double({ min: -1, max: 4000 }), reason: text }),
  unshelve: fc.record({ alarm }),
  stage: fc.record({ to: fc.constantFrom(...STAGES) }),
  zero: fc.constant({}),
  gauge: fc.constant({ bar: 0.4 }),
  'warm-check': fc.constant({ place: 'sleeve', thermometerC: 30 }),
  'prove-supply': fc.record({ end: fc.constantFrom(...LINE_ENDS) }),
  supply: fc.record({ said: fc.constantFrom(...SUPPLY_WORDS) }),
  'air-test': fc.record({ said: fc.constantFrom(...AIR_TEST_WORDS) }),
  mixed: fc.constant({}),
  'take-device': fc.constant({ deviceId: 'd' }),
  vent: fc.record({ open: flag }),
  answer: fc.record({
    question: fc.constant('let-down-or-loss' as const),
    answer: fc.constantFrom('loss', 'let-down'),
  }),
  witness: fc.record({ hard: flag, atPipeTemperature: flag }),
  override: fc.record({ what: text, reason: text }),
  check: fc.record({
    item: fc.constantFrom('permit', 'item-1'),
    said: text,
    safety: flag,
    how: fc.constantFrom(...CHECK_SAID),
    text,
    by: text,
  }),
  operator: fc.record({ by: text }),
  note: fc.record({ text }),
};
const commands = fc.oneof(
  ...Object.entries(COMMANDS).map(([c, body]) =>
    (body as fc.Arbitrary<object>).map((b) => ({ c, ...b }) as Command),
  ),
);
const NOTICES: { readonly [N in Notice['n']]: readonly Extract<Notice, { n: N }>[] } = {
  link: [
    { n: 'link', state: 'lost' },
    { n: 'link', state: 'streaming' },
    { n: 'link', state: 'idle' },
  ],
  rig: [{ n: 'rig', said: { what: 'fault', atS: 1, name: 'burst', value: null } }],
  device: [{ n: 'device', what: 'reset', bootId: 2, deviceId: 'd' }],
  store: [
    { n: 'store', ok: false, code: 'full' },
    { n: 'store', ok: true, code: 'ok' },
  ],
  answers: [
    { n: 'answers', ok: false },
    { n: 'answers', ok: true },
  ],
  'clock-jump': [
    { n: 'clock-jump', seconds: 30 },
    { n: 'clock-jump', seconds: -30 },
  ],
  witness: [
    { n: 'witness', deviceS: null, runS: 1 },
    { n: 'witness', deviceS: 60, runS: 1 },
  ],
  gap: [{ n: 'gap', reason: 'resumed', fromUs: 0, toUs: 1, lost: 0 }],
  'beside-link': [
    { n: 'beside-link', state: 'lost' },
    { n: 'beside-link', state: 'idle' },
  ],
  'beside-device': [{ n: 'beside-device', what: 'greeted' }],
  stray: [{ n: 'stray', bytes: 200 }],
  end: [], // nothing comes after it: that is a test of its own
};
const notices = fc.constantFrom(...Object.values(NOTICES).flat());
const setups = fc.record({
  number: fc.integer({ min: 1, max: 9 }),
  ceiling: fc.oneof(fc.double({ min: 0.5, max: 3, noNaN: true }), fc.constant(null)),
  tap: fc.constantFrom(...TAPS),
  line: fc.constantFrom(...LINES),
});

type Move =
  | {
      kind: 'readings';
      n: number;
      hz: number;
      from: number | null;
      slope: number;
      flags: number;
      temps: unknown[];
      status: number;
    }
  | { kind: 'ticks'; n: number }
  | { kind: 'input'; of: (tUs: number) => WatchInput };

const moves: fc.Arbitrary<Move> = fc.oneof(
  { weight: 4, arbitrary: readings },
  { weight: 1, arbitrary: fc.integer({ min: 1, max: 90 }).map((n): Move => ({ kind: 'ticks', n })) },
  {
    weight: 3,
    arbitrary: commands.map(
      (command): Move => ({ kind: 'input', of: (tUs) => ({ i: 'command', tUs, command }) }),
    ),
  },
  {
    weight: 2,
    arbitrary: notices.map(
      (notice): Move => ({ kind: 'input', of: (tUs) => ({ i: 'notice', tUs, notice }) }),
    ),
  },
  {
    weight: 1,
    arbitrary: setups.map(
      (s): Move => ({
        kind: 'input',
        of: (tUs) => ({
          i: 'setup',
          tUs,
          setup: setupOf({
            number: s.number,
            tap: s.tap,
            line: s.line,
            limits: s.ceiling === null ? null : { ...LIMITS, ceilingBar: s.ceiling },
          }),
        }),
      }),
    ),
  },
);

/** The moves as plain inputs with ascending times. */
function inputs(list: readonly Move[]): WatchInput[] {
  const out: WatchInput[] = [];
  let tUs = 0;
  for (const m of list) {
    if (m.kind === 'input') out.push(m.of(tUs));
    else if (m.kind === 'ticks')
      for (let k = 0; k < m.n; k++) {
        tUs += 100_000;
        out.push({ i: 'tick', tUs });
      }
    else
      for (let k = 0; k < m.n; k++) {
        tUs += Math.round(1e6 / m.hz);
        const value = m.from === null ? null : m.from + (m.slope * k) / m.hz;
        const reading = readingOf(tUs / 1e6, value, {
          flags: m.flags,
          temps: m.temps as Reading['temps'],
          status: m.status,
        });
        out.push({ i: 'reading', tUs, reading });
      }
  }
  return out;
}

/** Plain checks: an expect a reading would take longer than the watch. */
function rules(w: WatchState): void {
  ALARM_TABLE.forEach((row, i) => {
    const { state, active, priority } = w.alarms[i]!;
    const fail = (what: string) => {
      throw new Error(`${row.alarm} is ${state} ${what}`);
    };
    if (state === 'unacknowledged' || state === 'acknowledged') {
      if (!active) fail('and not active');
      if (!row.stages.includes(w.stages.stage)) fail(`in ${w.stages.stage}`);
      for (const parent of row.parents)
        if (w.alarms[ALARMS.indexOf(parent)]!.active) fail(`under a raised ${parent}`);
    }
    if (state === 'normal' && active) fail('and active');
    if (state === 'shelved' && !row.shelvable) fail('and may not be');
    if (state === 'shelved' && active && priority === 'urgent') fail('and urgent');
  });
}

/** Every number in it is one: Infinity and NaN would not survive a record. */
function finite(value: unknown): void {
  if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
  else if (value !== null && typeof value === 'object') Object.values(value).forEach(finite);
}

describe('any story', () => {
  it('keeps the rules', () => {
    fc.assert(
      fc.property(fc.array(moves, { maxLength: 30 }), fc.boolean(), fc.nat(), (list, infer, cut) => {
        const all = inputs(list);
        const events: WatchEvent[] = [];
        const w = createWatch({ infer });
        const again: WatchEvent[] = [];
        let copy = createWatch({ infer });
        let ceiling = Number.POSITIVE_INFINITY;
        all.forEach((input, i) => {
          step(w, input, (e) => events.push(e));
          rules(w);
          const now = w.setup?.limits?.ceilingBar ?? Number.POSITIVE_INFINITY;
          if (now > ceiling + 1e-9) throw new Error(`the ceiling rose from ${ceiling} to ${now}`);
          ceiling = now;
          if (i === cut % all.length) copy = JSON.parse(JSON.stringify(copy)) as WatchState;
          step(copy, input, (e) => again.push(e));
        });
        const view = viewOf(w, w.tUs);
        finite(view);
        expect(JSON.parse(JSON.stringify(events))).toEqual(events);
        expect(again).toEqual(events);
        let last = 0;
        for (const e of events) {
          expect(e.tUs).toBeGreaterThanOrEqual(last);
          last = e.tUs;
        }
      }),
      { numRuns: 200, seed: 77 },
    );
  });
});
