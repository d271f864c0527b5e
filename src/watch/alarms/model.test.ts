import fc from 'fast-check';
import { describe, it } from 'vitest';
import type { AlarmCode, AlarmState, Stage } from '../codes.ts';
import type { WatchEvent } from '../events.ts';
import type { AlarmSlot, Condition } from './machine.ts';
import { createAlarms, stepAlarms } from './machine.ts';
import { acknowledge, acknowledgeAll, shelve, unshelve } from './operator.ts';
import type { AlarmRow } from './table.ts';
import { rowOf } from './table.ts';

/*
 * The machine against a model that is written the other way round: it keeps the whole history of conditions as
 * intervals in whole seconds and works the state out of it, with the state chart of ISA-18.2 as a table.
 */

const NEVER = { afterS: null, share: null };
const TABLE: readonly AlarmRow[] = [
  { ...rowOf('pressure-lost'), offDelayS: 2, shelvable: false, again: { afterS: 4, share: null } },
  {
    ...rowOf('below-floor'),
    parents: ['pressure-lost'],
    onDelayS: 3,
    offDelayS: 2,
    stages: ['hold'],
    again: NEVER,
  },
  {
    ...rowOf('leaking'),
    parents: ['below-floor'],
    onDelayS: 1,
    offDelayS: 0,
    stages: ['hold'],
    again: NEVER,
  },
  { ...rowOf('garbage'), parents: [], onDelayS: 0, offDelayS: 0, again: { afterS: 3, share: 0.5 } },
];
const CODES = TABLE.map((r) => r.alarm);

type Input =
  | 'raise'
  | 'clear'
  | 'ack'
  | 'again'
  | 'shelve'
  | 'unshelve-on'
  | 'unshelve-off'
  | 'hide'
  | 'show';

/** State chart: rows that are missing leave the state as it is. */
const CHART: Record<AlarmState, Partial<Record<Input, AlarmState>>> = {
  normal: { raise: 'unacknowledged', shelve: 'shelved' },
  unacknowledged: { ack: 'acknowledged', clear: 'returned', shelve: 'shelved', hide: 'suppressed' },
  acknowledged: { again: 'unacknowledged', clear: 'normal', shelve: 'shelved', hide: 'suppressed' },
  returned: { ack: 'normal', raise: 'unacknowledged', shelve: 'shelved' },
  shelved: { 'unshelve-on': 'unacknowledged', 'unshelve-off': 'normal', shelve: 'shelved' },
  suppressed: { clear: 'normal', show: 'unacknowledged', shelve: 'shelved' },
};

class Model {
  t = 0;
  stage: Stage = 'hold';
  /** Conditions at each whole second so far. */
  readonly history = new Map<AlarmCode, Condition[]>(CODES.map((c) => [c, []]));
  readonly now = new Map<AlarmCode, Condition>(CODES.map((c) => [c, 'off']));
  readonly active = new Map<AlarmCode, boolean>(CODES.map((c) => [c, false]));
  readonly changedAt = new Map<AlarmCode, number>(CODES.map((c) => [c, -1]));
  readonly state = new Map<AlarmCode, AlarmState>(CODES.map((c) => [c, 'normal']));
  readonly shelf = new Map<AlarmCode, number>();
  /** Hidden now because of a parent. */
  readonly byParent = new Set<AlarmCode>();
  readonly occurrences = new Map<AlarmCode, number>(CODES.map((c) => [c, 0]));
  /** Half limits that the quantity is past its limit, now and at each whole second so far. */
  readonly level = new Map<AlarmCode, number>(CODES.map((c) => [c, 0]));
  readonly levels = new Map<AlarmCode, number[]>(CODES.map((c) => [c, []]));
  readonly ackedAt = new Map<AlarmCode, number>();

  private chart(code: AlarmCode, input: Input): void {
    const s = this.state.get(code)!;
    this.state.set(code, CHART[s][input] ?? s);
  }

  /** The occurrence after its delays, from the history alone. */
  private occurrence(row: AlarmRow): 'began' | 'ended' | null {
    const h = this.history.get(row.alarm)!;
    const on = this.active.get(row.alarm)!;
    const want: Condition = on ? 'off' : 'on';
    const delay = on ? row.offDelayS : row.onDelayS;
    // Seconds since the last moment that did not want the change, or since the last change.
    let from = h.length;
    while (from > 0 && from - 1 > this.changedAt.get(row.alarm)! && h[from - 1] === want) from--;
    if (from >= h.length || h.length - 1 - from < delay) return null;
    this.active.set(row.alarm, !on);
    this.changedAt.set(row.alarm, h.length - 1);
    if (on) return 'ended';
    this.occurrences.set(row.alarm, this.occurrences.get(row.alarm)! + 1);
    return 'began';
  }

  second(): void {
    this.t++;
    for (const c of CODES) {
      this.history.get(c)!.push(this.now.get(c)!);
      this.levels.get(c)!.push(this.level.get(c)!);
    }
    const news = TABLE.map((row) => this.occurrence(row));
    TABLE.forEach((row, i) => {
      const code = row.alarm;
      const active = this.active.get(code)!;
      const hidden = this.hidden(row);
      const until = this.shelf.get(code);
      if (until !== undefined) {
        if (this.t < until) return;
        this.shelf.delete(code);
        if (active && hidden) this.state.set(code, 'suppressed');
        else this.chart(code, active ? 'unshelve-on' : 'unshelve-off');
        return;
      }
      if (news[i] === 'began') {
        if (hidden) this.state.set(code, 'suppressed');
        else this.chart(code, 'raise');
        return;
      }
      if (news[i] === 'ended') {
        this.chart(code, 'clear');
        return;
      }
      if (!active) return;
      this.chart(code, hidden ? 'hide' : 'show');
      if (!hidden && this.asks(row)) this.chart(code, 'again');
    });
  }

  /** Re-alarming, from the levels since the occurrence began and the time of the acknowledgement alone. */
  private asks({ alarm, priority, again }: AlarmRow): boolean {
    const since = this.t - (this.ackedAt.get(alarm) ?? this.t);
    if (again.afterS !== null && priority === 'urgent' && since >= again.afterS) return true;
    if (again.share === null) return false;
    const all = this.levels.get(alarm)!.slice(this.changedAt.get(alarm)!);
    const now = all.pop()!;
    let reached = all.shift() ?? now;
    for (const l of all) reached = Math.max(l, Math.min(reached, l + 1));
    return now > reached;
  }

  private hidden(row: AlarmRow): boolean {
    const code = row.alarm;
    if (!this.active.get(code)) return false;
    const outside = !row.stages.includes(this.stage);
    const parent = row.parents.some(
      (p) => this.active.get(p) === true && !(this.t < (this.shelf.get(p) ?? 0)),
    );
    // Hidden by its parent until now and on its way out.
    const leaving = this.byParent.has(code) && this.now.get(code) === 'off';
    if (this.shelf.has(code) && this.t < this.shelf.get(code)!) return outside || parent;
    if (!outside && (parent || leaving)) this.byParent.add(code);
    else this.byParent.delete(code);
    return outside || parent || leaving;
  }

  acknowledge(code: AlarmCode | 'all'): void {
    for (const c of CODES) {
      if (code !== 'all' && code !== c) continue;
      const s = this.state.get(c)!;
      if (s === 'unacknowledged' || s === 'returned') this.ackedAt.set(c, this.t);
      this.chart(c, 'ack');
    }
  }
  shelve(code: AlarmCode, seconds: number): void {
    if (!TABLE.find((r) => r.alarm === code)!.shelvable) return;
    this.shelf.set(code, this.t + seconds);
    this.byParent.delete(code);
    this.chart(code, 'shelve');
  }
  unshelve(code: AlarmCode): void {
    if (this.shelf.has(code)) this.shelf.set(code, this.t);
  }
}

class Real {
  readonly slots: AlarmSlot[] = createAlarms(TABLE);
  readonly told = new Map<AlarmCode, AlarmState>();
  readonly emit = (e: WatchEvent) => {
    if (e.e === 'alarm') this.told.set(e.alarm, e.to);
  };
  second(m: Model): void {
    stepAlarms(
      TABLE,
      this.slots,
      m.t * 1e6,
      {
        stage: m.stage,
        condition: (c) => m.now.get(c)!,
        priority: (c) => rowOf(c).priority,
        excess: (c) => m.level.get(c)! / 2,
        voices: () => 1,
        rate: () => null,
        values: () => ({}),
      },
      this.emit,
    );
  }
}

/** Plain comparisons: an expect a step would take longer than the machine. */
function same(m: Model, r: Real): void {
  TABLE.forEach(({ alarm }, i) => {
    const slot = r.slots[i]!;
    const want = `${m.state.get(alarm)} #${m.occurrences.get(alarm)}`;
    const is = `${slot.state} #${slot.occurrence}`;
    if (is !== want) throw new Error(`${alarm} is ${is}, not ${want}`);
    // The events alone tell the state, too: a record needs nothing else.
    const told = r.told.get(alarm) ?? 'normal';
    if (told !== slot.state) throw new Error(`${alarm} was told as ${told} and is ${slot.state}`);
  });
}

type Cmd = fc.Command<Model, Real>;
const cmd = (name: string, run: (m: Model, r: Real) => void): Cmd => ({
  check: () => true,
  run: (m, r) => {
    run(m, r);
    same(m, r);
  },
  toString: () => name,
});

const code = fc.constantFrom(...CODES);
const commands = [
  fc.integer({ min: 1, max: 4 }).map((n) =>
    cmd(`wait ${n}`, (m, r) => {
      for (let i = 0; i < n; i++) {
        m.second();
        r.second(m);
      }
    }),
  ),
  fc.tuple(code, fc.constantFrom<Condition>('on', 'on', 'off', 'off', 'between')).map(([c, to]) =>
    cmd(`${c} ${to}`, (m, r) => {
      m.now.set(c, to);
      m.second();
      r.second(m);
    }),
  ),
  fc.oneof(code, fc.constant('all' as const)).map((c) =>
    cmd(`acknowledge ${c}`, (m, r) => {
      m.acknowledge(c);
      if (c === 'all') acknowledgeAll(TABLE, r.slots, 0, m.t * 1e6, r.emit);
      else acknowledge(TABLE, r.slots, c, m.occurrences.get(c)!, m.t * 1e6, r.emit);
    }),
  ),
  code.map((c) =>
    cmd(`acknowledge an older ${c}`, (m, r) => {
      acknowledge(TABLE, r.slots, c, m.occurrences.get(c)! - 1, m.t * 1e6, r.emit);
    }),
  ),
  fc.tuple(code, fc.integer({ min: 0, max: 4 })).map(([c, to]) =>
    cmd(`${c} at ${to}`, (m, r) => {
      m.level.set(c, to);
      m.second();
      r.second(m);
    }),
  ),
  fc.tuple(code, fc.integer({ min: 1, max: 6 })).map(([c, s]) =>
    cmd(`shelve ${c} ${s}`, (m, r) => {
      m.shelve(c, s);
      shelve(TABLE, r.slots, c, s, m.t * 1e6, r.emit);
    }),
  ),
  code.map((c) =>
    cmd(`unshelve ${c}`, (m, r) => {
      m.unshelve(c);
      unshelve(TABLE, r.slots, c, m.t * 1e6);
    }),
  ),
  fc.constantFrom<Stage>('hold', 'let-down').map((s) =>
    cmd(`stage ${s}`, (m, r) => {
      m.stage = s;
      m.second();
      r.second(m);
    }),
  ),
];

describe('alarm machine against a model', () => {
  it('agrees after every step of any story', () => {
    fc.assert(
      fc.property(fc.commands(commands, { maxCommands: 60, size: '+1' }), (cmds) => {
        fc.modelRun(() => ({ model: new Model(), real: new Real() }), cmds);
      }),
      { numRuns: 1500, seed: 20417 },
    );
  });
});
