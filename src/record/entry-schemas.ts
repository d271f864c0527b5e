/**
 * What commands, notices and events are, for whoever reads pages that may come from anywhere. Pages themselves are
 * read without these: a later program has more kinds, and what it wrote is still a sound page.
 */
import * as z from 'zod/mini';
import { AIR_TEST_METHODS } from '../job/air-test.ts';
import { CHECK_SAID } from '../job/checklist.ts';
import { PLACES } from '../job/codes.ts';
import type { Frozen, Same } from '../job/setup-schema.ts';
import {
  AIR_TEST_REASONS,
  AIR_TEST_VERDICTS,
  ALARMS,
  CUP_DOUBTS,
  CUP_VERDICTS,
  GAP_REASONS,
  LINE_ENDS,
  PRIORITIES,
  SAMPLE_DOUBTS,
  STAGES,
  SUPPLY_REASONS,
  SUPPLY_VERDICTS,
} from '../watch/codes.ts';
import { LEAK_VERDICTS, type WatchEvent } from '../watch/events.ts';
import { AIR_TEST_WORDS, type Command, type Notice, SUPPLY_WORDS } from '../watch/inputs.ts';

// Numbers are finite by zod's own rule. Texts are bounded by the line that they stand in.
const n = z.number();
const nullable = z.nullable(n);
const maybe = z.exactOptional(n);
const text = z.string();
const yes = z.boolean();
const place = z.enum(PLACES);
const alarm = z.enum(ALARMS);
const stage = z.enum(STAGES);
const gapReason = z.enum(GAP_REASONS);
const question = z.literal('let-down-or-loss');
const check = { item: text, said: text, safety: yes, how: z.enum(CHECK_SAID), text, by: text };

/** On the run clock, µs. */
const time = n.check(z.refine((v) => Number.isSafeInteger(v) && v >= 0));

const command = z.discriminatedUnion('c', [
  z.strictObject({ c: z.literal('acknowledge'), alarm, occurrence: n }),
  z.strictObject({ c: z.literal('shelve'), alarm, seconds: n, reason: text }),
  z.strictObject({ c: z.literal('unshelve'), alarm }),
  z.strictObject({ c: z.literal('stage'), to: stage, reason: z.exactOptional(text) }),
  z.strictObject({ c: z.literal('zero') }),
  z.strictObject({ c: z.literal('gauge'), bar: n }),
  z.strictObject({ c: z.literal('warm-check'), place, thermometerC: n }),
  z.strictObject({ c: z.literal('prove-supply'), end: z.enum(LINE_ENDS) }),
  z.strictObject({ c: z.literal('supply'), said: z.enum(SUPPLY_WORDS) }),
  z.strictObject({ c: z.literal('air-test'), said: z.enum(AIR_TEST_WORDS) }),
  z.strictObject({ c: z.literal('mixed') }),
  z.strictObject({ c: z.literal('take-device'), deviceId: text }),
  z.strictObject({ c: z.literal('vent'), open: yes }),
  z.strictObject({ c: z.literal('answer'), question, answer: z.enum(['let-down', 'loss']) }),
  z.strictObject({ c: z.literal('witness'), hard: yes, atPipeTemperature: yes }),
  z.strictObject({ c: z.literal('override'), what: text, reason: text }),
  z.strictObject({ c: z.literal('check'), ...check }),
  z.strictObject({ c: z.literal('operator'), by: text }),
  z.strictObject({ c: z.literal('note'), text }),
]);

const linkState = z.enum([
  'unsupported',
  'no-permission',
  'idle',
  'opening',
  'greeting',
  'streaming',
  'stopped',
  'lost',
  'retrying',
  'closing',
]);

const rigSaid = z.discriminatedUnion('what', [
  z.strictObject({ what: z.literal('site'), atS: n, site: text, seed: n, trainee: text }),
  z.strictObject({ what: z.literal(['hand', 'fault']), atS: n, name: text, value: nullable }),
  z.strictObject({
    what: z.literal('truth'),
    atS: n,
    packerBar: n,
    lineBar: n,
    supplyBar: n,
    peakBar: n,
    regulatorBar: n,
    valveOpen: n,
    ventOpen: n,
    coupled: yes,
    cured: n,
    sensed: z.readonly(z.array(text)),
  }),
]);

const notice = z.discriminatedUnion('n', [
  z.strictObject({ n: z.literal('link'), state: linkState }),
  z.strictObject({ n: z.literal('beside-link'), state: linkState }),
  z.strictObject({ n: z.literal('beside-device'), what: z.enum(['greeted', 'other', 'rescaled']) }),
  z.strictObject({
    n: z.literal('device'),
    what: z.enum(['greeted', 'reset', 'other', 'rescaled', 'taken']),
    bootId: n,
    deviceId: text,
  }),
  z.strictObject({ n: z.literal('answers'), ok: yes }),
  z.strictObject({ n: z.literal('store'), ok: yes, code: text }),
  z.strictObject({ n: z.literal('clock-jump'), seconds: n }),
  z.strictObject({ n: z.literal('witness'), deviceS: nullable, runS: n }),
  z.strictObject({ n: z.literal('gap'), reason: gapReason, fromUs: n, toUs: n, lost: n }),
  z.strictObject({ n: z.literal('stray'), bytes: n }),
  z.strictObject({ n: z.literal('rig'), said: rigSaid }),
  z.strictObject({ n: z.literal('end') }),
]);

const bounded = z.strictObject({ value: n, low: n, high: n });
const leak = z.strictObject({
  verdict: z.enum(LEAK_VERDICTS),
  mbarPerMin: nullable,
  low: nullable,
  high: nullable,
  paM3PerS: z.nullable(bounded),
  reason: z.nullable(
    z.enum([
      'tap',
      'line',
      'too-short',
      'temperature-trend',
      'sensor-warmth',
      'not-gas',
      'settling',
      'no-pressure',
    ]),
  ),
});

const values = z.strictObject({
  bar: maybe,
  ratedBar: maybe,
  overBar: maybe,
  spanBar: maybe,
  ceilingBar: maybe,
  floorBar: maybe,
  gaugeBar: maybe,
  jumpBar: maybe,
  lockUpBar: maybe,
  settleBar: maybe,
  settleLowBar: maybe,
  settleHighBar: maybe,
  inS: maybe,
  inLowS: maybe,
  inHighS: maybe,
  mbarPerMin: maybe,
  adviceLowBar: maybe,
  adviceHighBar: maybe,
  seconds: maybe,
  perSecond: maybe,
  perSecondBefore: maybe,
  c: maybe,
  place: z.exactOptional(place),
  cause: z.exactOptional(text),
  kind: z.exactOptional(z.enum(['settle', 'left-band', 'hand-time', 'opened'])),
});

const told = <const E extends string, S extends z.core.$ZodShape>(e: E, shape: S) =>
  z.strictObject({ tUs: time, e: z.literal(e), ...shape });
const agrees = z.nullable(yes);
const secondZeroReason = z.enum(['ok', 'too-far', 'noisy', 'no-reading']);

const event = z.discriminatedUnion('e', [
  told('stage', { stage, attempt: n, by: z.enum(['operator', 'data']), fromUs: maybe }),
  told('alarm', {
    alarm,
    priority: z.enum(PRIORITIES),
    occurrence: n,
    to: z.enum(['normal', 'unacknowledged', 'acknowledged', 'returned', 'shelved', 'suppressed']),
    why: z.enum([
      'condition',
      'returned',
      'acknowledged',
      'shelved',
      'unshelved',
      'parent',
      'stage',
      'escalated',
      're-annunciated',
    ]),
    values,
  }),
  told('acknowledge-refused', { alarm, occurrence: n, now: n }),
  told('cue', { closeInS: n }),
  told('too-fast', { lateBar: n, rateBarPerS: n, mostBarPerS: n }),
  told('gap', { reason: gapReason, fromUs: n, toUs: n, lost: n }),
  told('limits', { setup: n, ceilingBar: nullable, workingBar: nullable, floorBar: nullable }),
  told('setup-refused', { setup: n, reason: z.enum(['ceiling-raised', 'not-newer']) }),
  told('zero', {
    taken: yes,
    offsetBar: n,
    reason: z.enum(['ok', 'too-far', 'noisy', 'in-run', 'no-reading']),
    second: z.exactOptional(z.strictObject({ taken: yes, offsetBar: n, reason: secondZeroReason })),
  }),
  told('gauge', { gaugeBar: n, readingBar: nullable, agrees }),
  told('warm-check', { place, thermometerC: n, readingC: nullable, agrees }),
  told('segment', {
    what: z.enum(['opened', 'closed']),
    why: z.enum(['still', 'top-up', 'flow', 'gap', 'stage', 'end']),
  }),
  told('leak', { leak }),
  told('hold', { fromUs: n, minutesInBand: n, minBar: nullable, maxBar: nullable, leak }),
  told('knee', { freeInflationBar: n, low: n, high: n }),
  told('lift', {
    peakBar: bounded,
    ceilingInS: z.nullable(bounded),
    adviceHighBar: nullable,
    adviceLowBar: nullable,
  }),
  told('cure-start', {
    from: z.enum(['seat', 'inflate', 'hold']),
    before: z.exactOptional(z.strictObject({ minutes: n, coldestC: n })),
  }),
  told('cure-met', { progressLow: n, equivalentAgeMin: n }),
  told('question', { question, answer: z.nullable(z.enum(['let-down', 'loss', 'held'])) }),
  told('rebound', {
    what: z.enum(['started', 'stayed', 'came-back', 'broken-off']),
    bar: nullable,
    seconds: n,
  }),
  told('supply', {
    what: z.enum([
      'begun',
      'refused',
      'asked',
      'locked',
      'proved',
      'broken-off',
      'vented',
      'void',
      'elsewhere',
    ]),
    reason: z.nullable(z.enum(SUPPLY_REASONS)),
    end: z.nullable(z.enum(LINE_ENDS)),
    verdict: z.nullable(z.enum(SUPPLY_VERDICTS)),
    lockUpBar: z.nullable(bounded),
    creepMbarPerMin: z.nullable(bounded),
    ceilingInS: z.nullable(bounded),
    riseS: nullable,
    bar: nullable,
  }),
  told('air-test', {
    what: z.enum(['begun', 'refused', 'stabilised', 'timed', 'judged', 'broken-off', 'vented']),
    attempt: n,
    reason: z.nullable(z.enum(AIR_TEST_REASONS)),
    verdict: z.nullable(z.enum(AIR_TEST_VERDICTS)),
    method: z.nullable(z.enum(AIR_TEST_METHODS)),
    startMbar: nullable,
    dropMbar: nullable,
    allowedMbar: nullable,
    uMbar: nullable,
    warmedK: nullable,
    seconds: nullable,
  }),
  told('outlet-stood', { bar: n }),
  told('cup', {
    verdict: z.enum(CUP_VERDICTS),
    doubt: z.nullable(z.enum(CUP_DOUBTS)),
    times: z.nullable(z.strictObject({ least: n, value: nullable, most: nullable })),
    heatAge: nullable,
    riseK: n,
  }),
  told('mixed', {}),
  told('witness', { hard: yes, atPipeTemperature: yes }),
  told('sample', { doubt: z.enum(SAMPLE_DOUBTS), age: n }),
  told('override', { what: text, reason: text }),
  told('check', check),
  told('operator', { by: text }),
  told('note', { text }),
  told('device', {
    what: z.enum([
      'greeted',
      'reset',
      'other',
      'rescaled',
      'taken',
      'button',
      'trip',
      'return',
      'fault',
      'hostlost',
      'hostback',
    ]),
    value: nullable,
  }),
  told('beside', {
    what: z.enum(['greeted', 'other', 'rescaled', 'port', 'closed', 'silent', 'back']),
    seconds: nullable,
  }),
  told('store', { ok: yes, code: text }),
  told('end', {}),
]);

// Both ways, so that neither the contract nor the schema can drift from the other unseen.
const SAME: readonly [
  Same<Frozen<z.infer<typeof command>>, Frozen<Command>>,
  Same<Frozen<z.infer<typeof notice>>, Frozen<Notice>>,
  Same<Frozen<z.infer<typeof event>>, Frozen<WatchEvent>>,
] = [true, true, true];
void SAME;

export const isCommand = (v: unknown): boolean => command.safeParse(v).success;
export const isNotice = (v: unknown): boolean => notice.safeParse(v).success;
export const isEvent = (v: unknown): boolean => event.safeParse(v).success;
