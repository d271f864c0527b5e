import { ALARM_TABLE } from '../../watch/alarms/table.ts';
import type { AlarmCode, Priority, Stage } from '../../watch/codes.ts';
import type { AlarmValues } from '../../watch/events.ts';
import { alarmTitle } from '../../words/alarm-titles.ts';
import { VERBS } from '../../words/orders.ts';

/** An alarm under its order. */
export interface CardAlarm {
  readonly code: AlarmCode;
  readonly title: string;
  readonly priority: Priority;
  /** The stages in which it gives this order; null: in all of them; 'otherwise': in those that no other order of it names. */
  readonly when: readonly Stage[] | 'otherwise' | null;
}

/** One order, and the alarms that give it. */
export interface CardOrder {
  readonly verb: readonly string[];
  readonly call: string | null;
  readonly alarms: readonly CardAlarm[];
}

/** In which an alarm's order may differ; later ones are as the last is. */
const ASKED: readonly Stage[] = ['prepare', 'seat', 'inflate', 'hold', 'let-down'];

/** What an alarm's values say at its first moment, where its order or its title hangs on them. */
function firstValues(alarm: AlarmCode, stage: Stage): AlarmValues {
  return alarm === 'rebound' && stage === 'prepare' ? { cause: 'unannounced' } : {};
}

/** Orders by whom they are given, the most pressing first: those of the live page, asked for as it asks for them. */
export function cardOrders(): readonly CardOrder[] {
  const orders = new Map<string, { verb: readonly string[]; call: string | null; alarms: CardAlarm[] }>();
  for (const { alarm: code, priority, stages } of ALARM_TABLE) {
    if (priority === 'low') continue;
    /** By title, then by order: the stages that give it. */
    const ways = new Map<string, Map<string, Stage[]>>();
    for (const stage of ASKED.filter((s) => stages.includes(s))) {
      const values = firstValues(code, stage);
      const { verb, call } = VERBS[code]({ state: 'unacknowledged', values }, { stage });
      const key = JSON.stringify([verb, call]);
      if (!orders.has(key)) orders.set(key, { verb, call, alarms: [] });
      const title = alarmTitle({ alarm: code, values });
      const byOrder = ways.get(title) ?? new Map<string, Stage[]>();
      ways.set(title, byOrder.set(key, [...(byOrder.get(key) ?? []), stage]));
    }
    for (const [title, byOrder] of ways) {
      const most = Math.max(...[...byOrder.values()].map((s) => s.length));
      const usual = [...byOrder.entries()].findLast(([, s]) => s.length === most)?.[0];
      for (const [key, given] of byOrder)
        orders.get(key)?.alarms.push({
          code,
          title,
          priority,
          when: byOrder.size === 1 ? null : key === usual ? 'otherwise' : given,
        });
    }
  }
  return [...orders.values()];
}
