import { expect, it } from 'vitest';
import { cutAt } from './cut.ts';

it('leaves what is short as it is, and says of what is cut that it was', () => {
  expect(cutAt('Crack', 5)).toBe('Crack');
  expect(cutAt('Crack at 12.4 m', 5)).toBe('Crack …');
  expect(cutAt('Crack at 12.4 m', 8)).toBe('Crack at …');
  expect(cutAt('Crack at 12.4 m', 11)).toBe('Crack at …');
  expect(cutAt('A'.repeat(40), 30)).toBe(`${'A'.repeat(30)} …`);
  expect(cutAt(`a ${'A'.repeat(40)}`, 30)).toBe(`a ${'A'.repeat(28)} …`);
  // Letters, not halves of them.
  expect(cutAt('😀😀😀', 2)).toBe('😀😀 …');
});
