import { expect, it } from 'vitest';
import { ordinals } from './ordinals.ts';

it('numbers those that are named alike, and no other', () => {
  expect(ordinals(['Sleeve', 'Air', 'Sleeve', 'Sleeve'])).toEqual([1, null, 2, 3]);
  expect(ordinals([])).toEqual([]);
});
