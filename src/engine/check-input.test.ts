import { expect, it } from 'vitest';
import type { StoredDocument } from '../record/stores/store.ts';
import { DEMO } from '../words/testing/demo.ts';
import { checkDocument, checkSetup } from './check-input.ts';
import { practiceSetup } from './testing/bench.ts';

const stored = (kind: StoredDocument['kind'], body: unknown): StoredDocument => ({
  kind,
  id: 'd',
  revision: 0,
  savedUtcMs: 0,
  body,
});

it('a setup that is one comes back whole; else the first thing that is wrong is named', () => {
  expect(checkSetup(practiceSetup())).toEqual(practiceSetup());
  const wrong = { ...practiceSetup(), rateHz: -1 };
  expect(() => checkSetup(wrong)).toThrow(expect.objectContaining({ code: 'bad-request' }));
  expect(() => checkSetup(wrong)).toThrow(/setup rateHz: too-low/);
  expect(() => checkSetup(null)).toThrow(/setup : type/);
});

it('a document of a kind that the job knows is checked; of another kind it is left as it is', () => {
  const good = stored('job', DEMO.job);
  expect(checkDocument(good)).toEqual(good);
  expect(() => checkDocument(stored('job', { ...DEMO.job, title: 7 }))).toThrow(/job title: type/);
  const other = stored('run', { anything: 1 });
  expect(checkDocument(other)).toBe(other);
});
