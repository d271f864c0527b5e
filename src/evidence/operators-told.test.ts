import { expect, it } from 'vitest';
import type { WatchEvent } from '../watch/events.ts';
import { operatorsOf } from './operators-told.ts';

const at = (by: string): WatchEvent => ({ tUs: 0, e: 'operator', by });

it('each that was named at the computer is told once, in the order of coming', () => {
  expect(operatorsOf([at('C.D.'), at('A.B.'), at(''), at('C.D.')])).toEqual(['C.D.', 'A.B.']);
  expect(operatorsOf([{ tUs: 0, e: 'mixed' }])).toEqual([]);
});
