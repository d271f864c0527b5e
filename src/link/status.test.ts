import { expect, it } from 'vitest';
import { isAway, isClosed, isWanted, type LinkState } from './status.ts';

it('a state says whether readings are meant to come', () => {
  const says = (state: LinkState) => [isWanted(state), isAway(state), isClosed(state)];
  expect(says('streaming')).toEqual([true, false, false]);
  expect(says('lost')).toEqual([true, true, false]);
  expect(says('stopped')).toEqual([true, false, true]);
  expect(says('idle')).toEqual([false, false, true]);
});

it('a state of a later version says nothing', () => {
  const later = JSON.parse('"paused"') as LinkState;
  expect([isWanted(later), isAway(later), isClosed(later)]).toEqual([false, false, false]);
});
