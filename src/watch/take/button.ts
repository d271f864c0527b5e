import { acknowledgeAll } from '../alarms/operator.ts';
import { ALARM_TABLE } from '../alarms/table.ts';
import type { WatchEvent } from '../events.ts';
import type { WatchState } from '../state.ts';

/**
 * The device's button acknowledges what is at hand, for wet gloves. A wet switch or a worn cable presses by itself, again and
 * again: each new alarm would be silenced before anybody has heard it.
 */

/** A contact bounces: what follows so soon is the same press, µs. */
const BOUNCE_US = 0.2e6;
/** More presses than this in a minute are no hand's (common practice, no source). */
const MOST = 10;
const MINUTE_US = 60e6;
/** What is announced for less than this nobody has answered, µs: a hand needs as long to move. */
const HEARD_US = 0.5e6;

export function buttonPressed(w: WatchState, emit: (event: WatchEvent) => void): void {
  const { tUs } = w;
  const { presses } = w.device;
  const last = presses[presses.length - 1];
  if (last !== undefined && tUs - last < BOUNCE_US) return;
  presses.push(tUs);
  while (tUs - presses[0]! >= MINUTE_US || presses.length > MOST + 1) presses.shift();
  // It goes on counting: one that presses for ever acknowledges nothing, one that is let go is believed after a minute.
  if (presses.length <= MOST) acknowledgeAll(ALARM_TABLE, w.alarms, HEARD_US, tUs, emit);
}
