import { describe, expect, it } from 'vitest';
import { CHECK } from '../words/en/checks.ts';
import { DEMO } from '../words/testing/demo.ts';
import { answersWith, linesOf, openItems, type SaidItem } from './check-answers.ts';
import { BUILT_IN, CHECKS, MOMENTS } from './checklist.ts';
import {
  builtInChecklist,
  inOrder,
  type KeptChecklist,
  keptOf,
  movedItem,
  ownCopy,
  plainText,
  tamed,
} from './checklist-document.ts';
import { parseDocument } from './documents.ts';

const OURS = ownCopy('Our list', CHECK);

describe('a checklist', () => {
  it('of the firm begins as the built-in one, in words of its own, and is taken by its schema', () => {
    expect(parseDocument('checklist', OURS)).toEqual({ ok: true, value: OURS });
    expect(OURS.items.map((i) => i.id)).toEqual([...CHECKS]);
    expect(OURS.items.every((i) => i.text.length > 0)).toBe(true);
  });

  it('asks nothing before mixing that only the repair can show', () => {
    expect(BUILT_IN['camera-after'].at).toBe('after');
    const before = openItems(builtInChecklist(), [], ['arrival', 'mixing']).map((i) => i.id);
    expect(before).toContain('permit');
    expect(before).not.toContain('camera-after');
    expect(before).not.toContain('area-clear');
  });

  it('stands in the order of the work, whatever order it was written in', () => {
    const items = [...OURS.items].reverse();
    const moments = inOrder(items).map((i) => MOMENTS.indexOf(i.at));
    expect(moments).toEqual([...moments].sort((a, b) => a - b));
  });

  it('an item moves past its neighbour of the same moment, and no further than the ends', () => {
    const items = [
      { id: 'a', at: 'mixing' },
      { id: 'b', at: 'after' },
      { id: 'c', at: 'mixing' },
    ] as const;
    expect(movedItem(items, 0, 1).map((i) => i.id)).toEqual(['b', 'c', 'a']);
    expect(movedItem(items, 2, -1).map((i) => i.id)).toEqual(['c', 'a', 'b']);
    expect(movedItem(items, 1, -1)).toBe(items);
    expect(movedItem(items, 0, -1)).toBe(items);
    expect(movedItem(items, 7, 1)).toBe(items);
  });
});

describe('a list that comes in a file', () => {
  it('markup is taken out of its texts and counted; what it says stays', () => {
    const items = [
      { ...OURS.items[0]!, text: '<b>Permit</b>\n<script>alert(1)</script> seen' },
      { ...OURS.items[1]!, text: 'Pressure < 0.3 bar & falling' },
    ];
    const { value, changed } = tamed({ ...OURS, items });
    expect(changed).toBe(1);
    const parsed = parseDocument('checklist', value);
    expect(parsed.ok && parsed.value.items.map((i) => i.text)).toEqual([
      'Permit alert(1) seen',
      'Pressure < 0.3 bar & falling',
    ]);
    expect(plainText('<img src=x onerror=alert(1)>')).toBe('');
  });

  it('text of markup alone, too many items, and what is no list at all are refused by name', () => {
    const empty = tamed({ ...OURS, items: [{ ...OURS.items[0]!, text: '<br>' }] }).value;
    expect(parseDocument('checklist', empty)).toMatchObject({
      ok: false,
      issues: [{ path: 'items.0.text', code: 'blank' }],
    });
    const long = tamed({ ...OURS, items: Array(5000).fill(OURS.items[0]) }).value;
    expect(parseDocument('checklist', long)).toMatchObject({ ok: false });
    for (const input of [null, 7, 'list', [], { version: 1, is: 'packer' }])
      expect(parseDocument('checklist', tamed(input).value).ok).toBe(false);
  });
});

describe('the list in a job', () => {
  const kept = keptOf({ id: 'list-1', revision: 4, document: OURS });

  it('is whole in it: what the firm changes later changes no job', () => {
    const job = { ...DEMO.job, checklist: kept };
    const parsed = parseDocument('job', job);
    expect(parsed.ok && parsed.value.checklist).toEqual(kept);
    expect(kept).toMatchObject({ listId: 'list-1', revision: 4, name: 'Our list' });
  });

  it('ticks of a sheet of before are answers to the built-in list, without a time or a name', () => {
    const { checklist, answers, ...rest } = DEMO.job;
    void [checklist, answers];
    const old = { ...rest, version: 7, checks: ['permit', 'cleaned', 'permit'] };
    const parsed = parseDocument('job', old);
    expect(parsed).toMatchObject({ ok: true, value: { version: 8, checklist: builtInChecklist() } });
    expect(parsed.ok && parsed.value.answers).toEqual([
      { item: 'permit', how: 'done', text: '', atUtcMs: null, by: '' },
      { item: 'cleaned', how: 'done', text: '', atUtcMs: null, by: '' },
    ]);
  });

  it('an answer to an item that the list has no more is kept, and told by its id', () => {
    const fewer: KeptChecklist = { ...kept, items: kept.items.filter((i) => i.id !== 'permit') };
    const answer = { item: 'permit', how: 'done', text: '', atUtcMs: 5, by: 'A.B.' } as const;
    const parsed = parseDocument('job', { ...DEMO.job, checklist: fewer, answers: [answer] });
    expect(parsed.ok && parsed.value.answers).toEqual([answer]);
    expect(linesOf(fewer, [answer]).at(-1)).toEqual({
      id: 'permit',
      at: null,
      text: '',
      safety: false,
      unit: '',
      answer,
    });
  });
});

describe('answers of the sheet and of the run', () => {
  const said = (part: Partial<SaidItem>): SaidItem => ({
    item: 'permit',
    said: '',
    safety: true,
    how: 'done',
    text: '',
    by: 'C.D.',
    atUtcMs: 9,
    ...part,
  });
  const sheet = [{ item: 'permit', how: 'done', text: '', atUtcMs: 1, by: 'A.B.' }] as const;

  it('what the run says last holds, and what it takes back is open again', () => {
    expect(answersWith(sheet, [said({ how: 'passed', text: 'Not here.' })])).toEqual([
      { item: 'permit', how: 'passed', text: 'Not here.', atUtcMs: 9, by: 'C.D.' },
    ]);
    expect(answersWith(sheet, [said({ how: 'taken-back' })])).toEqual([]);
    expect(answersWith([], [said({ how: 'taken-back' }), said({ by: 'E.F.' })])).toHaveLength(1);
  });

  it('an item that only the run names is told in the run’s own words', () => {
    const list: KeptChecklist = { listId: null, revision: 0, name: '', items: [] };
    const [line] = linesOf(list, [], [said({ item: 'item-9', said: 'Fence set up' })]);
    expect(line).toMatchObject({ id: 'item-9', text: 'Fence set up', safety: true, at: null });
  });
});
