import { expect, it } from 'vitest';
import { createStoreHealth } from './health.ts';

it('one full disk is one alarm, over when the last part writes again', () => {
  const said: [boolean, string][] = [];
  const health = createStoreHealth((ok, code) => said.push([ok, code]));
  health.set('pages', null);
  health.set('pages', 'full');
  health.set('trace', 'full');
  health.set('pages', null);
  health.set('trace', null);
  health.set('trace', null);
  expect(said).toEqual([
    [false, 'full'],
    [true, ''],
  ]);
});
