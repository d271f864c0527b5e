import { describe, expect, it } from 'vitest';
import type { AlarmCode, Priority, Stage } from '../codes.ts';
import type { WatchEvent } from '../events.ts';
import type { AlarmSlot, Condition } from './machine.ts';
import { createAlarms, stepAlarms } from './machine.ts';
import { acknowledge, acknowledgeAll, passUnseen, shelve, unshelve } from './operator.ts';
import type { AlarmRow } from './table.ts';
import { LONGEST_SHELF_S, rowOf } from './table.ts';

/** A bench with a few rows of its own, so that the machine is tested and not the table. */
class Bench {
  readonly slots: AlarmSlot[];
  readonly events: Extract<WatchEvent, { e: 'alarm' }>[] = [];
  stage: Stage = 'hold';
  t = 0;
  readonly on = new Map<AlarmCode, Condition>();
  readonly press = new Map<AlarmCode, Priority>();
  readonly past = new Map<AlarmCode, number>();
  readonly table: readonly AlarmRow[];

  readonly rates = new Map<AlarmCode, { value: number; least: number }>();

  constructor(rows: Partial<AlarmRow>[]) {
    this.table = rows.map((r) => ({ ...rowOf('garbage'), parents: [], offDelayS: 0, ...r }));
    this.slots = createAlarms(this.table);
  }
  emit = (e: WatchEvent) => {
    if (e.e === 'alarm') this.events.push(e);
  };
  at(t: number, alarm?: AlarmCode, condition: Condition = 'on'): this {
    this.t = t;
    if (alarm !== undefined) this.on.set(alarm, condition);
    stepAlarms(
      this.table,
      this.slots,
      t * 1e6,
      {
        stage: this.stage,
        condition: (a) => this.on.get(a) ?? 'off',
        priority: (a) => this.press.get(a) ?? this.table.find((r) => r.alarm === a)!.priority,
        excess: (a) => this.past.get(a) ?? null,
        voices: () => 1,
        rate: (a) => this.rates.get(a) ?? null,
        values: () => ({ seconds: t }),
      },
      this.emit,
    );
    return this;
  }
  ack(): this {
    acknowledgeAll(this.table, this.slots, 0, this.t * 1e6, this.emit);
    return this;
  }
  rate(alarm: AlarmCode, value: number, least: number): this {
    this.rates.set(alarm, { value, least });
    return this;
  }
  /** The quantity of an alarm is so far past its limit, as a share of it. */
  excess(alarm: AlarmCode, share: number): this {
    this.past.set(alarm, share);
    return this;
  }
  get story(): string[] {
    return this.events.map((e) => `${e.alarm}#${e.occurrence} ${e.to} (${e.why})`);
  }
}

// States and transitions: ISA-18.2 / IEC 62682, as secondary sources give them; the last two transitions of
// each list are values from memory.
describe('states after ISA-18.2 / IEC 62682', () => {
  it('goes normal → unacknowledged → acknowledged → normal', () => {
    const b = new Bench([{ alarm: 'ceiling' }]).at(1, 'ceiling').ack().at(2, 'ceiling', 'off');
    expect(b.story).toEqual([
      'ceiling#1 unacknowledged (condition)',
      'ceiling#1 acknowledged (acknowledged)',
      'ceiling#1 normal (returned)',
    ]);
  });

  it('latches: what returns before anyone acknowledged stays, until it is acknowledged', () => {
    const b = new Bench([{ alarm: 'ceiling' }]).at(1, 'ceiling').at(2, 'ceiling', 'off').at(9).ack();
    expect(b.story).toEqual([
      'ceiling#1 unacknowledged (condition)',
      'ceiling#1 returned (returned)',
      'ceiling#1 normal (acknowledged)',
    ]);
  });

  it('keeps the rows of a long table apart', () => {
    const between = Array.from({ length: 31 }, (): Partial<AlarmRow> => ({ alarm: 'stuck' }));
    const b = new Bench([{ alarm: 'cold' }, ...between, { alarm: 'lift' }]);
    b.at(1, 'lift').ack().at(2, 'cold');
    expect(b.story).toEqual([
      'lift#1 unacknowledged (condition)',
      'lift#1 acknowledged (acknowledged)',
      'cold#1 unacknowledged (condition)',
    ]);
  });

  it('a new occurrence asks again, whether the last was acknowledged or only returned', () => {
    const b = new Bench([{ alarm: 'ceiling' }]);
    b.at(1, 'ceiling')
      .ack()
      .at(2, 'ceiling', 'off')
      .at(3, 'ceiling')
      .at(4, 'ceiling', 'off')
      .at(5, 'ceiling');
    expect(b.story.slice(3)).toEqual([
      'ceiling#2 unacknowledged (condition)',
      'ceiling#2 returned (returned)',
      'ceiling#3 unacknowledged (condition)',
    ]);
  });

  it('acknowledging twice, or nothing, does nothing', () => {
    const b = new Bench([{ alarm: 'ceiling' }]).ack().at(1, 'ceiling').ack().ack();
    expect(b.story).toHaveLength(2);
  });
});

// On-delay, off-delay, deadband as OPC 10000-9 (Alarms and Conditions) words them.
describe('delays and deadband', () => {
  const row: Partial<AlarmRow> = { alarm: 'below-floor', onDelayS: 5, offDelayS: 3 };

  it('is raised only after the condition held for the whole on-delay', () => {
    const b = new Bench([row]).at(1, 'below-floor').at(5.9);
    expect(b.story).toEqual([]);
    b.at(6);
    expect(b.story).toEqual(['below-floor#1 unacknowledged (condition)']);
  });

  it('a break in the condition starts the on-delay anew; being in the deadband is a break', () => {
    const b = new Bench([row])
      .at(1, 'below-floor')
      .at(4, 'below-floor', 'between')
      .at(5, 'below-floor')
      .at(9.9);
    expect(b.story).toEqual([]);
    expect(b.at(10).story).toHaveLength(1);
  });

  it('is cleared only beyond the deadband and for the whole off-delay', () => {
    const b = new Bench([row]).at(0, 'below-floor').at(5).ack();
    b.at(6, 'below-floor', 'between').at(60).at(61, 'below-floor', 'off').at(63.9);
    expect(b.story).toHaveLength(2);
    expect(b.at(64).story[2]).toBe('below-floor#1 normal (returned)');
  });
});

describe('suppression by design', () => {
  const pair: Partial<AlarmRow>[] = [
    { alarm: 'pressure-lost' },
    { alarm: 'temperature-lost', parents: ['pressure-lost'] },
  ];

  it('one pulled plug, one alarm: the child is suppressed whatever the order of the rows', () => {
    for (const rows of [pair, [...pair].reverse()]) {
      const b = new Bench(rows);
      b.on.set('temperature-lost', 'on');
      b.at(1, 'pressure-lost');
      expect(b.story.sort()).toEqual([
        'pressure-lost#1 unacknowledged (condition)',
        'temperature-lost#1 suppressed (parent)',
      ]);
      b.on.set('temperature-lost', 'off');
      b.at(2, 'pressure-lost', 'off');
      expect(b.story.slice(2).sort()).toEqual([
        'pressure-lost#1 returned (returned)',
        'temperature-lost#1 normal (returned)',
      ]);
    }
  });

  it('a child that is still on asks for attention when its parent is gone', () => {
    const b = new Bench(pair)
      .at(1, 'temperature-lost')
      .ack()
      .at(2, 'pressure-lost')
      .at(3, 'pressure-lost', 'off');
    expect(b.story.filter((s) => s.startsWith('temp'))).toEqual([
      'temperature-lost#1 unacknowledged (condition)',
      'temperature-lost#1 acknowledged (acknowledged)',
      'temperature-lost#1 suppressed (parent)',
      'temperature-lost#1 unacknowledged (parent)',
    ]);
  });

  it('is suppressed out of its stages and comes up when the stage begins', () => {
    const b = new Bench([{ alarm: 'below-floor', stages: ['hold'] }]);
    b.stage = 'inflate';
    b.at(1, 'below-floor').ack();
    b.stage = 'hold';
    b.at(2);
    expect(b.story).toEqual(['below-floor#1 suppressed (stage)', 'below-floor#1 unacknowledged (stage)']);
  });
});

describe('since when', () => {
  it('an alarm stands in its state is not moved by a higher priority', () => {
    const b = new Bench([{ alarm: 'band-exit', priority: 'low' }]).at(1, 'band-exit');
    b.press.set('band-exit', 'high');
    b.at(5);
    expect(b.story.at(-1)).toBe('band-exit#1 unacknowledged (escalated)');
    expect(b.slots[0]!.sinceUs).toBe(1e6);
  });

  it('a child that only waits out its off-delay says nothing when its parent ends', () => {
    const b = new Bench([{ alarm: 'leaking' }, { alarm: 'band-exit', parents: ['leaking'], offDelayS: 10 }]);
    b.at(0, 'leaking').at(1, 'band-exit').at(2, 'band-exit', 'off').at(3, 'leaking', 'off').at(20);
    expect(b.story.filter((s) => s.startsWith('band-exit'))).toEqual([
      'band-exit#1 suppressed (parent)',
      'band-exit#1 normal (returned)',
    ]);
  });
});

describe('shelving', () => {
  it('a parent on the shelf does not keep its child silent', () => {
    const b = new Bench([{ alarm: 'leaking' }, { alarm: 'band-exit', parents: ['leaking'] }]);
    b.at(0, 'leaking').at(1, 'band-exit');
    expect(b.story.at(-1)).toBe('band-exit#1 suppressed (parent)');
    shelve(b.table, b.slots, 'leaking', 60, 1e6, b.emit);
    expect(b.at(2).story.at(-1)).toBe('band-exit#1 unacknowledged (parent)');
    b.at(61);
    expect(b.story.slice(-2)).toEqual([
      'leaking#1 unacknowledged (unshelved)',
      'band-exit#1 suppressed (parent)',
    ]);
  });

  it('whichever of the two stands first in the table', () => {
    const b = new Bench([{ alarm: 'band-exit', parents: ['leaking'] }, { alarm: 'leaking' }]);
    b.at(0, 'leaking').at(1, 'band-exit');
    shelve(b.table, b.slots, 'leaking', 60, 1e6, b.emit);
    b.at(2).at(61);
    expect(b.story.slice(-2)).toEqual([
      'band-exit#1 suppressed (parent)',
      'leaking#1 unacknowledged (unshelved)',
    ]);
  });

  it('hides the alarm for the time given and shows what is still there', () => {
    const b = new Bench([{ alarm: 'cold' }]).at(1, 'cold');
    expect(shelve(b.table, b.slots, 'cold', 60, 1e6, b.emit)).toBe(true);
    b.at(60.9).ack();
    expect(b.story.slice(1)).toEqual(['cold#1 shelved (shelved)']);
    expect(b.at(61).story[2]).toBe('cold#1 unacknowledged (unshelved)');
  });

  it('ends quietly where the condition has gone, and at once on request', () => {
    const b = new Bench([{ alarm: 'cold' }]).at(1, 'cold');
    shelve(b.table, b.slots, 'cold', 60, 1e6, b.emit);
    b.at(2, 'cold', 'off');
    unshelve(b.table, b.slots, 'cold', 3e6);
    expect(b.at(3).story[2]).toBe('cold#1 normal (unshelved)');
  });

  it('lasts no longer than the longest shelf', () => {
    const b = new Bench([{ alarm: 'cold' }]).at(0, 'cold');
    shelve(b.table, b.slots, 'cold', 1e9, 0, b.emit);
    expect(b.at(LONGEST_SHELF_S - 1).story).toHaveLength(2);
    expect(b.at(LONGEST_SHELF_S).story).toHaveLength(3);
  });

  it('is refused for ceiling, rising and lost pressure, and for no time at all', () => {
    const rows = (['ceiling', 'rising', 'pressure-lost', 'device-trip'] as const).map(rowOf);
    const slots = createAlarms(rows);
    for (const r of rows) expect(shelve(rows, slots, r.alarm, 60, 0, () => {})).toBe(false);
    const b = new Bench([{ alarm: 'cold' }]);
    expect(shelve(b.table, b.slots, 'cold', 0, 0, b.emit)).toBe(false);
    expect(shelve(b.table, b.slots, 'cold', Number.NaN, 0, b.emit)).toBe(false);
    expect(b.story).toEqual([]);
  });
});

describe('escalation', () => {
  it('an acknowledged alarm whose priority rises asks again, in the same occurrence', () => {
    const b = new Bench([{ alarm: 'pot-life', priority: 'low' }]).at(1, 'pot-life').ack();
    b.press.set('pot-life', 'high');
    b.at(2).at(3);
    expect(b.story.slice(2)).toEqual(['pot-life#1 unacknowledged (escalated)']);
    expect(b.events[2]!.priority).toBe('high');
    expect(b.events[2]!.values).toEqual({ seconds: 2 });
    b.press.set('pot-life', 'low');
    expect(b.at(4).story).toHaveLength(3);
  });
});

// Re-alarming: IEC 62682 / ISA-18.2, as secondary sources give it; times and shares are the table's.
describe('an acknowledged alarm that stays', () => {
  const again = { afterS: 120, share: 0.1 };
  const urgent = { alarm: 'over-rated', priority: 'urgent', again } as const;

  it('asks again after its time, in the same occurrence, and as often as it is acknowledged', () => {
    const b = new Bench([urgent]).at(1, 'over-rated').at(5).ack();
    b.at(124.9);
    expect(b.story).toHaveLength(2);
    b.at(125).at(140).ack().at(259.9);
    expect(b.story.slice(2)).toEqual([
      'over-rated#1 unacknowledged (re-annunciated)',
      'over-rated#1 acknowledged (acknowledged)',
    ]);
    expect(b.events[2]!.values).toEqual({ seconds: 125 });
    expect(b.at(260).story.at(-1)).toBe('over-rated#1 unacknowledged (re-annunciated)');
  });

  it('by time only while it is urgent, and never where the table says so', () => {
    const high = new Bench([{ ...urgent, priority: 'high' }]).at(1, 'over-rated').ack().at(500);
    expect(high.story).toHaveLength(2);
    high.press.set('over-rated', 'urgent');
    expect(high.at(501).story.at(-1)).toBe('over-rated#1 unacknowledged (escalated)');
    const never = new Bench([{ ...urgent, again: { afterS: null, share: null } }]);
    expect(
      never.excess('over-rated', 0).at(1, 'over-rated').ack().excess('over-rated', 9).at(9999).story,
    ).toHaveLength(2);
  });

  it('does not when it has ended, and a new occurrence begins anew', () => {
    const b = new Bench([urgent]).at(1, 'over-rated').ack().at(60, 'over-rated', 'off').at(500);
    expect(b.story).toHaveLength(3);
    expect(b.at(501, 'over-rated').at(560).story.slice(3)).toEqual([
      'over-rated#2 unacknowledged (condition)',
    ]);
  });

  it('asks again at each further step past its limit, and only when it is worse by one', () => {
    const b = new Bench([urgent]).excess('over-rated', 0.02).at(1, 'over-rated').ack();
    b.excess('over-rated', 0.099).at(2);
    expect(b.story).toHaveLength(2);
    b.excess('over-rated', 0.1).at(3).ack().excess('over-rated', 0.35).at(4).ack();
    expect(b.story.filter((s) => s.includes('re-annunciated'))).toHaveLength(2);
    // Swaying about a step is not news; falling back by a whole one and coming again is.
    for (const share of [0.29, 0.31, 0.25, 0.34]) b.excess('over-rated', share).at(b.t + 1);
    expect(b.events.at(-1)!.to).toBe('acknowledged');
    b.excess('over-rated', 0.15).at(20).excess('over-rated', 0.3).at(21);
    expect(b.story.at(-1)).toBe('over-rated#1 unacknowledged (re-annunciated)');
  });

  it('a step that is reached while nobody has acknowledged is no second question', () => {
    const b = new Bench([urgent])
      .excess('over-rated', 0)
      .at(1, 'over-rated')
      .excess('over-rated', 0.15)
      .at(2)
      .ack()
      .at(3);
    expect(b.story).toEqual([
      'over-rated#1 unacknowledged (condition)',
      'over-rated#1 acknowledged (acknowledged)',
    ]);
  });

  it('keeps the numbers of its worst moment for what is told later', () => {
    const b = new Bench([urgent]).excess('over-rated', 0.01).at(1, 'over-rated');
    b.excess('over-rated', 0.04).at(2).excess('over-rated', 0.03).at(3, 'over-rated', 'off');
    expect(b.events.at(-1)).toMatchObject({ to: 'returned', values: { seconds: 2 } });
  });

  it('time that nobody saw counts', () => {
    const b = new Bench([urgent]).at(1, 'over-rated').ack();
    passUnseen(b.slots, 119);
    expect(b.at(1.9).story).toHaveLength(2);
    expect(b.at(2).story).toHaveLength(3);
  });
});

describe('an acknowledgement', () => {
  it('of an older occurrence is refused and told, and silences nothing', () => {
    const b = new Bench([{ alarm: 'ceiling' }]).at(1, 'ceiling').at(2, 'ceiling', 'off').at(3, 'ceiling');
    const told: WatchEvent[] = [];
    const emit = (e: WatchEvent) => void told.push(e);
    acknowledge(b.table, b.slots, 'ceiling', 1, 3.1e6, emit);
    expect(told).toEqual([{ tUs: 3.1e6, e: 'acknowledge-refused', alarm: 'ceiling', occurrence: 1, now: 2 }]);
    expect(b.slots[0]!.state).toBe('unacknowledged');
    acknowledge(b.table, b.slots, 'ceiling', 2, 3.2e6, emit);
    expect(b.slots[0]!.state).toBe('acknowledged');
    // The same press twice is no fault of anybody's.
    acknowledge(b.table, b.slots, 'ceiling', 2, 3.3e6, emit);
    expect(told).toHaveLength(2);
  });
});

describe('the shelf', () => {
  it('takes nothing that is urgent now, and gives back what becomes urgent on it', () => {
    const b = new Bench([{ alarm: 'stuck', priority: 'high' }]);
    b.press.set('stuck', 'urgent');
    b.at(1, 'stuck');
    expect(shelve(b.table, b.slots, 'stuck', 60, 1e6, b.emit)).toBe(false);
    const c = new Bench([{ alarm: 'stuck', priority: 'high' }]).at(1, 'stuck');
    expect(shelve(c.table, c.slots, 'stuck', 60, 1e6, c.emit)).toBe(true);
    c.press.set('stuck', 'urgent');
    expect(c.at(2).story.at(-1)).toBe('stuck#1 unacknowledged (unshelved)');
    expect(c.events.at(-1)!.priority).toBe('urgent');
  });
});

describe('what was quietened and grows', () => {
  const leak = {
    alarm: 'leaking',
    again: { afterS: null, share: null, stepBar: 0.15, doubles: true },
  } as const;
  const since = (b: Bench, n: number) => b.story.slice(n);

  it('is told again when its rate has surely doubled since somebody acknowledged it', () => {
    const b = new Bench([leak])
      .rate('leaking', 8, 7)
      .at(1, 'leaking')
      .rate('leaking', 10, 9)
      .at(60)
      .ack()
      .at(61);
    const n = b.story.length;
    // It may have doubled; that it has is not sure.
    expect(since(b.rate('leaking', 24, 19).at(62), n)).toEqual([]);
    expect(since(b.rate('leaking', 24, 20).at(63), n)).toEqual(['leaking#1 unacknowledged (re-annunciated)']);
    // From there on by the rate that was acknowledged.
    b.at(64).ack().at(65).rate('leaking', 40, 39).at(66);
    expect(since(b, n + 1)).toEqual(['leaking#1 acknowledged (acknowledged)']);
    expect(since(b.rate('leaking', 50, 48).at(67), n + 2)).toHaveLength(1);
  });

  it('and not by its rate where its row does not say so', () => {
    const b = new Bench([{ ...leak, again: { afterS: null, share: null, stepBar: 0.15 } }]);
    b.rate('leaking', 10, 9).at(1, 'leaking').ack().at(2).rate('leaking', 90, 80).at(3);
    expect(b.story).toHaveLength(2);
  });

  it('leaves its shelf at a step of its level or the double rate, and at nothing less', () => {
    const shelved = () => {
      const b = new Bench([leak]).rate('leaking', 10, 9).excess('leaking', 0.1).at(1, 'leaking');
      shelve(b.table, b.slots, 'leaking', 1800, 1e6, b.emit);
      return b.at(2);
    };
    const n = shelved().story.length;
    const small = shelved().excess('leaking', 0.149).rate('leaking', 15, 14).at(900);
    expect(since(small, n)).toEqual([]);
    for (const grown of [shelved().excess('leaking', 0.15), shelved().rate('leaking', 25, 20)]) {
      expect(since(grown.at(3), n)).toEqual(['leaking#1 unacknowledged (unshelved)']);
      expect(grown.at(4).slots[0]!.shelvedUntilUs).toBeNull();
    }
    // A row without such steps stays where it was put.
    const other = new Bench([
      { alarm: 'over-rated', priority: 'high', shelvable: true, again: { afterS: null, share: 0.1 } },
    ])
      .excess('over-rated', 0)
      .at(1, 'over-rated');
    shelve(other.table, other.slots, 'over-rated', 1800, 1e6, other.emit);
    expect(since(other.excess('over-rated', 0.5).at(3), 2)).toEqual([]);
  });
});
