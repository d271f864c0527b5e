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

it('a run that brings a fault along is told when everything is kept, once', () => {
  const said: [boolean, string][] = [];
  const health = createStoreHealth((ok, code) => said.push([ok, code]));
  health.begin('full');
  health.set('trace', null);
  health.set('pages', null);
  health.begin('full');
  health.set('pages', 'full');
  expect(said).toEqual([[true, '']]);
});
