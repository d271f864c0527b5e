import { expect, it } from 'vitest';
import type { WatchEvent } from '../watch/events.ts';
import { apartOf, without } from './judgement.ts';

const note = (tUs: number, text: string): WatchEvent => ({ tUs, e: 'note', text });

it('what one list has and the other has not, however often, whatever the order of members', () => {
  const a = [note(1, 'x'), note(1, 'x'), note(2, 'y')];
  const sorted = { text: 'x', tUs: 1, e: 'note' } as WatchEvent;
  expect(without(a, [sorted])).toEqual([note(1, 'x'), note(2, 'y')]);
  expect(without([sorted], a)).toEqual([]);
});

it('a changed member makes another event', () => {
  expect(without([note(1, 'x')], [note(2, 'x')])).toHaveLength(1);
});

it('the same events in another order: the last word of a kind is what counts', () => {
  const [x, y, z] = [note(1, 'x'), note(1, 'y'), note(2, 'z')];
  expect(apartOf([x, y, z], [x, y, z])).toEqual({ gone: [], fresh: [], moved: [] });
  expect(apartOf([y, x, z], [x, y, z])).toEqual({ gone: [], fresh: [], moved: [y, x] });
  expect(apartOf([y, x], [x, y, z])).toEqual({ gone: [], fresh: [z], moved: [] });
});
