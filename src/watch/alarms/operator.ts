import type { AlarmCode } from '../codes.ts';
import type { AlarmSlot, Emit } from './machine.ts';
import { announce, indexOf } from './machine.ts';
import type { AlarmRow } from './table.ts';
import { LONGEST_SHELF_S } from './table.ts';

/** What a person does to an alarm: acknowledging and shelving (ISA-18.2 / IEC 62682). */

function acknowledgeSlot(row: AlarmRow, slot: AlarmSlot, tUs: number, emit: Emit): void {
  if (slot.state !== 'unacknowledged' && slot.state !== 'returned') return;
  slot.unacked = false;
  slot.againUs = row.again.afterS === null ? null : tUs + row.again.afterS * 1e6;
  announce(row, slot, slot.active ? 'acknowledged' : 'normal', 'acknowledged', tUs, emit);
}

/**
 * Acknowledges one occurrence of an alarm. Again, or after it has ended, it does nothing; one that is not the
 * occurrence at hand is refused and told: whoever pressed has not seen the newer one.
 */
export function acknowledge(
  table: readonly AlarmRow[],
  slots: AlarmSlot[],
  alarm: AlarmCode,
  occurrence: number,
  tUs: number,
  emit: Emit,
): void {
  const i = indexOf(table, alarm);
  const row = table[i];
  const slot = slots[i];
  if (row === undefined || slot === undefined) return;
  if (occurrence === slot.occurrence) acknowledgeSlot(row, slot, tUs, emit);
  else emit({ tUs, e: 'acknowledge-refused', alarm, occurrence, now: slot.occurrence });
}

/** Acknowledges every occurrence at hand that was announced for so long: the device's button, which names none. */
export function acknowledgeAll(
  table: readonly AlarmRow[],
  slots: AlarmSlot[],
  heardUs: number,
  tUs: number,
  emit: Emit,
): void {
  for (let i = 0; i < table.length; i++)
    if (tUs - slots[i]!.sinceUs >= heardUs) acknowledgeSlot(table[i]!, slots[i]!, tUs, emit);
}

/** Shelves for at most LONGEST_SHELF_S; false where the alarm may not be shelved, or not while it is urgent. */
export function shelve(
  table: readonly AlarmRow[],
  slots: AlarmSlot[],
  alarm: AlarmCode,
  seconds: number,
  tUs: number,
  emit: Emit,
): boolean {
  const i = indexOf(table, alarm);
  const row = table[i];
  const slot = slots[i];
  if (row === undefined || slot === undefined || !maybeShelved(row, slot) || !(seconds > 0)) return false;
  slot.shelvedUntilUs = tUs + Math.min(seconds, LONGEST_SHELF_S) * 1e6;
  slot.unacked = false;
  slot.suppressedBy = null;
  announce(row, slot, 'shelved', 'shelved', tUs, emit);
  return true;
}

/** May this alarm be put aside now? */
export function maybeShelved(row: AlarmRow, slot: AlarmSlot): boolean {
  return row.shelvable && !(slot.active && slot.priority === 'urgent');
}

/** Ends a shelf at once; the next step shows what is there. */
export function unshelve(
  table: readonly AlarmRow[],
  slots: AlarmSlot[],
  alarm: AlarmCode,
  tUs: number,
): void {
  const slot = slots[indexOf(table, alarm)];
  if (slot !== undefined && slot.shelvedUntilUs !== null) slot.shelvedUntilUs = tUs;
}

/** Time has passed that the clock of the steps does not know: neither shelf nor acknowledgement outlasts it. */
export function passUnseen(slots: AlarmSlot[], seconds: number): void {
  for (const slot of slots) {
    if (slot.shelvedUntilUs !== null) slot.shelvedUntilUs -= seconds * 1e6;
    if (slot.againUs !== null) slot.againUs -= seconds * 1e6;
  }
}
