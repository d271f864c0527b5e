import { expect, it } from 'vitest';
import { PATTERNS } from '../../src/app/patterns.ts';
import { ANY, complaints, isComplete, type Warned, witnessed } from './expect.ts';
import type { Sight } from './eyes.ts';

const FROM = 5000;
const sight = (atMs: number, what: string, state: string, priority = '', text = ''): Sight => ({
  tMs: FROM + atMs,
  what,
  state,
  priority,
  text,
});
const tone = (atMs: number, sound: keyof typeof PATTERNS) => ({
  tMs: FROM + atMs,
  hz: PATTERNS[sound].pulses[0]!.hz,
});
const seen = (sights: Sight[], tones: ReturnType<typeof tone>[] = []) =>
  witnessed({ document: 1, sights, tones }, FROM);

const LOST: Warned = { shows: ['alarm-pressure-lost'], priority: 'urgent', withinMs: 1200 };

it('an alarm in time and with its sound is what was asked for', () => {
  const w = seen(
    [sight(80, 'pressure', 'lost'), sight(90, 'alarm-pressure-lost', 'unacknowledged', 'urgent')],
    [tone(95, 'urgent'), tone(3300, 'urgent')],
  );
  expect(w.shown.map((s) => s.what)).toEqual(['reading-lost', 'alarm-pressure-lost']);
  expect(w.sounded).toEqual([{ sound: 'urgent', afterMs: 95 }]);
  expect(isComplete(LOST, w)).toBe(true);
  expect(complaints(LOST, w)).toEqual([]);
});

it('says what is missing, late, silent, or of too low a priority', () => {
  const late = [sight(1500, 'alarm-pressure-lost', 'unacknowledged', 'urgent')];
  expect(complaints(LOST, seen([]))).toEqual(['no alarm-pressure-lost', 'no sound']);
  expect(complaints(LOST, seen(late, [tone(1501, 'urgent')]))).toEqual(['late: 1500 ms of 1200']);
  expect(complaints(LOST, seen(late, [tone(2600, 'urgent')]))).toContain('sound late: 2600 ms');
  expect(complaints(LOST, seen(late, [tone(1501, 'low')]))).toContain('no sound');
  const low = [sight(90, 'alarm-pressure-lost', 'unacknowledged', 'low')];
  expect(complaints(LOST, seen(low, [tone(95, 'urgent')]))[0]).toContain('no alarm-pressure-lost (but');
});

it('an alarm that was acknowledged before, and one that is over, are no answer', () => {
  for (const state of ['acknowledged', 'returned', 'gone'])
    expect(isComplete(LOST, seen([sight(50, 'alarm-pressure-lost', state, 'urgent')]))).toBe(false);
});

it('asks for words where another text would be another thing', () => {
  const other: Warned = { shows: ['link-error'], says: 'Another device', priority: null, withinMs: 1200 };
  const gone = sight(20, 'link-error', '', '', 'The device is gone.');
  expect(complaints(other, seen([gone]))).toEqual(['no link-error (but link-error)']);
  expect(complaints(other, seen([gone, sight(700, 'link-error', '', '', 'Another device answers')]))).toEqual(
    [],
  );
});

it('where calm is asked for every alarm is a cry, a doubtful reading is none', () => {
  const calm = { allows: ['alarm-clock-jump'], forMs: 2000 };
  const w = seen([
    sight(500, 'pressure', 'stale'),
    sight(600, 'alarm-clock-jump', 'unacknowledged', 'low'),
    sight(700, 'alarm-stuck', 'unacknowledged', 'high'),
  ]);
  expect(isComplete(calm, w)).toBe(false);
  expect(complaints(calm, w)).toEqual(['shows alarm-stuck']);
  expect(complaints({ allows: ANY, forMs: 2000 }, w)).toEqual([]);
});

it('names what must not be shown beside it', () => {
  const put: Warned = {
    shows: ['reading-stale'],
    priority: null,
    withinMs: 1500,
    never: { shows: ['alarm-pressure-lost'], forMs: 6000 },
  };
  const stale = sight(510, 'pressure', 'stale');
  expect(complaints(put, seen([stale]))).toEqual([]);
  const cry = sight(5100, 'alarm-pressure-lost', 'unacknowledged', 'urgent');
  expect(complaints(put, seen([stale, cry]))).toEqual(['shows alarm-pressure-lost']);
});
