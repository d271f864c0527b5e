import { expect, it } from 'vitest';
import type { AlarmView } from '../../watch/view.ts';
import { alarmStage, lampOf } from './alarm-stage.ts';

const alarm = (part: Partial<AlarmView>): AlarmView => ({
  alarm: 'ceiling',
  priority: 'urgent',
  state: 'unacknowledged',
  occurrence: 1,
  sinceUs: 0,
  begunUs: 0,
  shelvable: true,
  values: {},
  ...part,
});
const over = alarm({ alarm: 'over-rated' });
const store = alarm({ alarm: 'store-fault', priority: 'high' });
const cold = alarm({ alarm: 'cold', priority: 'low' });
const acked = (a: AlarmView): AlarmView => ({ ...a, state: 'acknowledged' });
const was = (a: AlarmView): AlarmView => ({ ...a, state: 'returned' });
const codes = (list: readonly AlarmView[]) => list.map((a) => a.alarm);

it('without an alarm nothing takes the stage', () => {
  expect(alarmStage([], null)).toEqual({
    block: null,
    form: null,
    plate: null,
    ack: null,
    others: [],
    shelved: [],
  });
});

it('the highest takes it, the others stand beside', () => {
  const s = alarmStage([cold, store, over], null);
  expect(s.block).toBe(over);
  expect(s.form).toBe('urgent');
  expect(s.ack).toBe(over);
  expect(codes(s.others)).toEqual(['store-fault', 'cold']);
});

it('an urgent one keeps it when acknowledged, and the key is for the next', () => {
  const urgent = acked(over);
  const s = alarmStage([urgent, store], null);
  expect(s.block).toBe(urgent);
  expect(s.ack).toBe(store);
  expect(alarmStage([urgent, acked(store)], null).ack).toBeNull();
});

it('a high one that was acknowledged is a plate; while it asks it stays', () => {
  const s = alarmStage([acked(store)], null);
  expect([s.block, s.plate?.alarm, s.ack]).toEqual([null, 'store-fault', null]);
  const fall = acked(alarm({ alarm: 'fast-fall', priority: 'high' }));
  expect(alarmStage([fall], 'let-down-or-loss').block).toBe(fall);
  expect(alarmStage([fall], null).plate).toBe(fall);
});

it('a low one is a plate until it is acknowledged', () => {
  expect(alarmStage([cold], null)).toMatchObject({ block: null, plate: cold, ack: cold });
  expect(alarmStage([acked(cold)], null)).toMatchObject({ block: null, plate: null, ack: null });
  // What waits for an answer comes before what had one.
  expect(alarmStage([acked(store), cold], null).plate).toBe(cold);
});

it('one that is over comes after all that goes on, and is still told', () => {
  expect(alarmStage([was(over), store], null).block).toBe(store);
  const s = alarmStage([was(over), acked(store)], null);
  expect([s.block?.alarm, s.form, s.ack?.alarm]).toEqual(['over-rated', 'was', 'over-rated']);
});

it('what was put aside stands apart, and is no alarm of the lamp', () => {
  const aside = alarm({ alarm: 'leaking', priority: 'high', state: 'shelved' });
  const s = alarmStage([aside], null);
  expect([s.block, s.plate, codes(s.shelved)]).toEqual([null, null, ['leaking']]);
  expect(lampOf([aside])).toBeNull();
});

it('the lamp shows the highest, waiting or not, and counts the rest', () => {
  expect(lampOf([cold, acked(over), store])).toEqual({ first: acked(over), more: 2 });
  expect(lampOf([was(over), alarm({})])?.first.alarm).toBe('ceiling');
});
