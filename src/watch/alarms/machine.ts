import type { AlarmCode, AlarmState, Priority, Stage } from '../codes.ts';
import type { AlarmValues, WatchEvent } from '../events.ts';
import type { AlarmRow } from './table.ts';

/**
 * The alarm machine after ISA-18.2 / IEC 62682. Kept apart: the condition (pure, blind to suppression, given
 * from outside), the occurrence (condition after its delays), the annunciation (what is shown and sounded,
 * after shelving and suppression by design), and the latch with its acknowledgement, which is always of the
 * occurrence at hand: a new one asks again. Time is an argument.
 */

/** A condition says on, off, or neither: inside its deadband, or not to be judged without a reading. */
export type Condition = 'on' | 'between' | 'off';

/** Plain data, one for each row of the table, in its order. */
export interface AlarmSlot {
  /** The occurrence is on: the condition after its delays. */
  active: boolean;
  /** Since when the condition has differed from `active` without a break, µs. */
  pendingUs: number | null;
  /** Counts the occurrences in the run. */
  occurrence: number;
  /** The occurrence at hand was annunciated and nobody has acknowledged it. */
  unacked: boolean;
  /** When it asks again by time, µs; null: it does not, or nobody has acknowledged it. */
  againUs: number | null;
  /** Steps of the row past the limit that the occurrence has reached. */
  steps: number;
  /** Most that have borne the occurrence out at once: an acknowledgement of one says nothing of another. */
  voices: number;
  /** Furthest past its limit in the occurrence, as `excess` counts it; null: no such quantity. */
  worst: number | null;
  /** Its rate when it was acknowledged or put aside; null: it was not, or had none. */
  quietRate: number | null;
  shelvedUntilUs: number | null;
  /** What suppresses it now. */
  suppressedBy: 'parent' | 'stage' | null;
  state: AlarmState;
  /** Since when it is in this state, µs. */
  sinceUs: number;
  /** When this occurrence began, µs: it counts on while it is acknowledged and asks again. */
  begunUs: number;
  priority: Priority;
  /** Those of the moment when it was raised or asked again, or was furthest past its limit. */
  values: AlarmValues;
}

/** What the machine asks of the world at each step. */
export interface AlarmWorld {
  readonly stage: Stage;
  /** @param row of that alarm in the table: asked of all of them at every reading, where a look by name would cost most */
  condition(alarm: AlarmCode, row: number): Condition;
  /** Priority while the condition is on; may be over the table's, never under. */
  priority(alarm: AlarmCode): Priority;
  /** How far its quantity is past its limit, as a share of the limit, or in bar where its row's steps are; null: it has none, or is not known now. */
  excess(alarm: AlarmCode): number | null;
  /** How many signs of it there are, each of its own. */
  voices(alarm: AlarmCode): number;
  /** How fast it goes on, and how fast at the least; null: it has no such rate, or none is known now. */
  rate(alarm: AlarmCode): { readonly value: number; readonly least: number } | null;
  /** Asked only when it begins or grows. */
  values(alarm: AlarmCode): AlarmValues;
}

export type Emit = (event: WatchEvent) => void;
export type Why = Extract<WatchEvent, { e: 'alarm' }>['why'];

const RANK: Record<Priority, number> = { low: 0, high: 1, urgent: 2 };

export function createAlarms(table: readonly AlarmRow[]): AlarmSlot[] {
  return table.map((row) => ({
    active: false,
    pendingUs: null,
    occurrence: 0,
    unacked: false,
    againUs: null,
    steps: 0,
    voices: 0,
    worst: null,
    quietRate: null,
    shelvedUntilUs: null,
    suppressedBy: null,
    state: 'normal',
    sinceUs: 0,
    begunUs: 0,
    priority: row.priority,
    values: {},
  }));
}

export function indexOf(table: readonly AlarmRow[], alarm: AlarmCode): number {
  for (let i = 0; i < table.length; i++) if (table[i]!.alarm === alarm) return i;
  return -1;
}

/** Puts an alarm into a state and tells it. */
export function announce(
  row: AlarmRow,
  slot: AlarmSlot,
  to: AlarmState,
  why: Why,
  tUs: number,
  emit: Emit,
): void {
  if (slot.state !== to) slot.sinceUs = tUs;
  slot.state = to;
  emit({
    tUs,
    e: 'alarm',
    alarm: row.alarm,
    priority: slot.priority,
    occurrence: slot.occurrence,
    to,
    why,
    values: slot.values,
  });
}

/** On- and off-delay: true where a new occurrence began. */
function advance(row: AlarmRow, slot: AlarmSlot, condition: Condition, tUs: number): boolean {
  const differs = slot.active ? condition === 'off' : condition === 'on';
  if (!differs) {
    slot.pendingUs = null;
    return false;
  }
  slot.pendingUs ??= tUs;
  const delayUs = (slot.active ? row.offDelayS : row.onDelayS) * 1e6;
  if (tUs - slot.pendingUs < delayUs) return false;
  slot.pendingUs = null;
  slot.active = !slot.active;
  if (!slot.active) return false;
  slot.occurrence++;
  slot.begunUs = tUs;
  slot.unacked = true;
  return true;
}

function suppression(
  table: readonly AlarmRow[],
  slots: readonly AlarmSlot[],
  row: AlarmRow,
  stage: Stage,
  tUs: number,
): 'parent' | 'stage' | null {
  if (!row.stages.includes(stage)) return 'stage';
  for (const parent of row.parents) {
    const slot = slots[indexOf(table, parent)];
    // A parent on the shelf says nothing, so its children speak for themselves.
    if (slot?.active === true && !onShelf(slot, tUs)) return 'parent';
  }
  return null;
}

function onShelf(slot: AlarmSlot, tUs: number): boolean {
  return slot.shelvedUntilUs !== null && tUs < slot.shelvedUntilUs;
}

/** Rows that have something to say in the step at hand, and whether they began in it; steps are never re-entered. */
const speaks: { row: number; began: boolean }[] = [];

/** Brings every alarm up to now. Parents and children are judged together, so that order plays no part. */
export function stepAlarms(
  table: readonly AlarmRow[],
  slots: AlarmSlot[],
  tUs: number,
  world: AlarmWorld,
  emit: Emit,
): void {
  let n = 0;
  for (let i = 0; i < table.length; i++) {
    const row = table[i]!;
    const slot = slots[i]!;
    const condition = world.condition(row.alarm, i);
    // Nothing on, nothing pending, nothing latched, nothing shelved: the usual case.
    if (!slot.active && slot.state === 'normal' && slot.pendingUs === null && condition !== 'on') continue;
    const begins = advance(row, slot, condition, tUs);
    if (!slot.active && slot.state === 'normal') continue;
    speaks[n] ??= { row: 0, began: false };
    const one = speaks[n++]!;
    one.row = i;
    one.began = begins;
  }
  for (let k = 0; k < n; k++) annunciate(table, slots, speaks[k]!.row, speaks[k]!.began, tUs, world, emit);
}

function annunciate(
  table: readonly AlarmRow[],
  slots: AlarmSlot[],
  i: number,
  began: boolean,
  tUs: number,
  world: AlarmWorld,
  emit: Emit,
): void {
  const row = table[i]!;
  const slot = slots[i]!;
  let why: Why = slot.active ? 'condition' : 'returned';
  const grown = slot.active ? follow(row, slot, began, tUs, world) : null;
  // What is urgent lies on no shelf, nor what has grown: it may have become so since it was put there.
  const presses = (slot.active && slot.priority === 'urgent') || grown === 're-annunciated';
  if (onShelf(slot, tUs) && !presses) return;
  if (slot.shelvedUntilUs !== null) {
    slot.shelvedUntilUs = null;
    slot.unacked = slot.active;
    why = 'unshelved';
  }
  const before = slot.suppressedBy;
  let by = slot.active ? suppression(table, slots, row, world.stage, tUs) : null;
  // Its parent has ended, and it is itself only waiting out its off-delay: it has nothing more to say.
  if (slot.active && by === null && before === 'parent' && slot.pendingUs !== null) by = 'parent';
  slot.suppressedBy = by;
  if (by !== null) {
    slot.unacked = false;
    if (slot.state !== 'suppressed') announce(row, slot, 'suppressed', by, tUs, emit);
    return;
  }
  if (before !== null && slot.active) {
    // After suppression an alarm that is still on asks for attention anew (ISA-18.2, state B).
    slot.unacked = true;
    why = before;
  }
  if (grown !== null) slot.unacked = true;
  const to = slot.active
    ? slot.unacked
      ? 'unacknowledged'
      : 'acknowledged'
    : slot.unacked
      ? 'returned'
      : 'normal';
  if (to === slot.state && grown === null && !began) return;
  announce(row, slot, to, grown !== null && why === 'condition' ? grown : why, tUs, emit);
}

/** Follows an occurrence that is on: why it asks for attention anew, if it does. */
function follow(
  row: AlarmRow,
  slot: AlarmSlot,
  began: boolean,
  tUs: number,
  world: AlarmWorld,
): 'escalated' | 're-annunciated' | null {
  const priority = world.priority(row.alarm);
  const excess = world.excess(row.alarm);
  const steps = stepsOf(row, excess);
  const voices = world.voices(row.alarm);
  if (began) {
    slot.priority = priority;
    slot.againUs = null;
    slot.steps = steps ?? 0;
    slot.voices = voices;
    slot.worst = excess;
    slot.values = world.values(row.alarm);
    return null;
  }
  const escalated = RANK[priority] > RANK[slot.priority];
  const stepped = steps !== null && steps > slot.steps;
  // A step is asked for again only after the quantity has fallen back by one whole step more.
  if (steps !== null) slot.steps = Math.max(steps, Math.min(slot.steps, steps + 1));
  const joined = voices > slot.voices;
  if (joined) slot.voices = voices;
  const worse = excess !== null && (slot.worst === null || excess > slot.worst);
  if (worse) slot.worst = excess;
  if (escalated) slot.priority = priority;
  const presses = slot.priority === 'urgent' || row.again.stepBar !== undefined;
  // What is back within its limit has nothing to add, though its alarm may wait for something else.
  const past = row.again.stepBar === undefined || (excess !== null && excess > 0);
  const due = slot.againUs !== null && tUs >= slot.againUs && presses && past;
  const grows = stepped || joined || (row.again.doubles === true && hasDoubled(slot, world.rate(row.alarm)));
  const again =
    (slot.state === 'acknowledged' && (grows || due)) ||
    (slot.state === 'shelved' && grows && row.again.stepBar !== undefined);
  if (escalated || again || worse) slot.values = world.values(row.alarm);
  return escalated ? 'escalated' : again ? 're-annunciated' : null;
}

/** Its rate is surely twice the one at which somebody has quietened it. */
function hasDoubled(slot: AlarmSlot, rate: ReturnType<AlarmWorld['rate']>): boolean {
  if (slot.state !== 'acknowledged' && slot.state !== 'shelved') slot.quietRate = null;
  else if (rate !== null && slot.quietRate === null) slot.quietRate = rate.value;
  else if (rate !== null && slot.quietRate !== null) return rate.least >= 2 * slot.quietRate;
  return false;
}

/** Whole steps past the limit; null: not counted, or not known now. */
function stepsOf(row: AlarmRow, excess: number | null): number | null {
  const step = row.again.stepBar ?? row.again.share;
  return step === null || excess === null ? null : Math.floor(excess / step + 1e-9);
}
