import type { AlarmView, WatchView } from '../watch/view.ts';
import { loadWords } from '../words/chosen.ts';
import type { DisplayUnits } from '../words/format.ts';

export type SpokenOrder = (alarm: AlarmView, view: WatchView, units: DisplayUnits) => string;

/** The orders' words belong to the live page; whoever wants them spoken on every page fetches them at the start. */
export async function loadSpoken(): Promise<SpokenOrder> {
  await loadWords('watch');
  const { VERBS } = await import('../words/orders.ts');
  return (alarm, view, units) => VERBS[alarm.alarm](alarm, view, units).spoken;
}
