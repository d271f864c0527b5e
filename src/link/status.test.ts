import { expect, it } from 'vitest';
import { isAway, isClosed, isWanted, type LinkState } from './status.ts';

const STATES: readonly LinkState[] = [
  'unsupported',
  'no-permission',
  'idle',
  'opening',
  'greeting',
  'streaming',
  'stopped',
  'lost',
  'retrying',
  'closing',
];

it('a state says whether readings are meant to come', () => {
  expect(STATES.filter(isWanted)).toEqual(['streaming', 'stopped', 'lost', 'retrying']);
  expect(STATES.filter(isAway)).toEqual(['lost', 'retrying']);
  expect(STATES.filter(isClosed)).toEqual(['idle', 'stopped', 'closing']);
});

it('a state of a later version says nothing', () => {
  const later = JSON.parse('"paused"') as LinkState;
  expect([isWanted(later), isAway(later), isClosed(later)]).toEqual([false, false, false]);
});
