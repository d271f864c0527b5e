import { expect, it } from 'vitest';
import { METRIC } from '../../words/create-format.ts';
import { FAR_SILENT_MS, FarEar, type FarSaid, farSaid } from './far.ts';

const said = (more: Partial<FarSaid> = {}): FarSaid => ({
  v: 1,
  from: 'a',
  utcMs: 1e12,
  trust: 'good',
  bar: 1.5,
  overBar: null,
  units: METRIC,
  practice: false,
  ...more,
});

it('a figure is shown while it is told anew, and never after', () => {
  const ear = new FarEar();
  expect(ear.shown(0, 1e12)).toEqual({ s: 'no-data' });
  ear.hear(said(), 0);
  expect(ear.shown(100, 1e12 + 100)).toEqual({ s: 'figure', bar: 1.5, units: METRIC });
  expect(ear.shown(FAR_SILENT_MS + 1, 1e12 + 200)).toEqual({ s: 'no-data' });
  // It does not come back by itself.
  expect(ear.shown(10, 1e12)).toEqual({ s: 'no-data' });
});

it('a message that waited while the page was frozen is as old as it is', () => {
  const ear = new FarEar();
  ear.hear(said(), 60_000);
  expect(ear.shown(60_001, 1e12 + 60_000)).toEqual({ s: 'no-data' });
});

it('a reading that may not be believed is a word, one over its span is said so', () => {
  const ear = new FarEar();
  for (const trust of ['none', 'stale', 'lost'] as const) {
    ear.hear(said({ trust }), 0);
    expect(ear.shown(1, 1e12)).toEqual({ s: 'no-reading' });
  }
  ear.hear(said({ trust: 'over', bar: 9.99, overBar: 10 }), 2);
  expect(ear.shown(3, 1e12)).toEqual({ s: 'over', bar: 10, units: METRIC });
});

it('of two pages neither is shown, until one is silent', () => {
  const ear = new FarEar();
  ear.hear(said(), 0);
  ear.hear(said({ from: 'b', bar: 0.2, practice: true }), 10);
  expect(ear.shown(20, 1e12)).toEqual({ s: 'two-pages' });
  ear.hear(said({ from: 'b', bar: 0.2, practice: true }), FAR_SILENT_MS);
  expect(ear.shown(FAR_SILENT_MS + 1, 1e12)).toMatchObject({ s: 'figure', bar: 0.2 });
  expect(ear.practice).toBe(true);
});

it('what is no message of this form says nothing', () => {
  for (const bad of [
    null,
    'x',
    { v: 2 },
    { ...said(), bar: '1.5' },
    { ...said(), bar: Number.NaN },
    { ...said(), units: null },
  ])
    expect(farSaid(bad)).toBeNull();
  expect(farSaid(said())).toEqual(said());
});
