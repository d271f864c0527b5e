import type { AlarmView, WatchView } from '../../watch/view.ts';
import { ranked, visibleAlarms } from '../../widgets/alarm-order.ts';

/** Which alarm takes the order zone, which stands as a plate under the instruction, and which stand beside them. */

export interface AlarmStage {
  /** Takes the order zone; null: the instruction has it. */
  readonly block: AlarmView | null;
  readonly form: 'urgent' | 'high' | 'was' | null;
  /** In the row under the instruction; only where no block is. */
  readonly plate: AlarmView | null;
  /** What the acknowledge key is for; null: nothing waits. */
  readonly ack: AlarmView | null;
  /** All others that are there, first things first: their shapes stand beside. */
  readonly others: readonly AlarmView[];
  readonly shelved: readonly AlarmView[];
}

const isActive = (a: AlarmView) => a.state === 'unacknowledged' || a.state === 'acknowledged';
const waits = (a: AlarmView) => a.state === 'unacknowledged' || a.state === 'returned';

function formOf(a: AlarmView): AlarmStage['form'] {
  return a.state === 'returned' ? 'was' : a.priority === 'low' ? null : a.priority;
}

/**
 * The highest takes the stage, whatever else waits. An urgent one keeps it while it lasts. A high one that was acknowledged
 * becomes a plate, so that the instruction and the cue are read again; while it asks a question it stays. One that is over
 * is told before the instruction, and after everything that goes on.
 */
export function alarmStage(alarms: readonly AlarmView[], question: WatchView['question']): AlarmStage {
  const list = ranked(alarms);
  const asks = (a: AlarmView) => a.alarm === 'fast-fall' && question !== null;
  const block =
    list.find((a) => a.priority === 'urgent' && isActive(a)) ??
    list.find((a) => a.priority === 'high' && isActive(a) && (a.state === 'unacknowledged' || asks(a))) ??
    list.find((a) => a.priority !== 'low' && a.state === 'returned') ??
    null;
  const plate =
    block !== null
      ? null
      : (list.find((a) => waits(a)) ?? list.find((a) => a.priority === 'high' && isActive(a)) ?? null);
  const first = block ?? plate;
  const ack = first !== null && waits(first) ? first : (list.find((a) => a !== first && waits(a)) ?? null);
  return {
    block,
    form: block === null ? null : formOf(block),
    plate,
    ack,
    others: list.filter((a) => a !== first),
    shelved: alarms.filter((a) => a.state === 'shelved'),
  };
}

/** The one that the lamp of the strip shows, and how many there are besides. */
export function lampOf(
  alarms: readonly AlarmView[],
): { readonly first: AlarmView; readonly more: number } | null {
  const rank = { urgent: 0, high: 1, low: 2 } as const;
  const visible = [...visibleAlarms(alarms)].sort(
    (a, b) =>
      rank[a.priority] - rank[b.priority] || Number(b.state !== 'returned') - Number(a.state !== 'returned'),
  );
  const [first] = visible;
  return first === undefined ? null : { first, more: visible.length - 1 };
}
