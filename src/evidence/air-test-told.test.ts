import { expect, it } from 'vitest';
import { setupOf } from '../job/testing/givens.ts';
import type { WatchEvent } from '../watch/events.ts';
import { accountOf } from './account.ts';
import { type AirTestEvent, airTestTold } from './air-test-told.ts';

const event = (what: AirTestEvent['what'], more: Partial<AirTestEvent> = {}): WatchEvent => ({
  tUs: 1,
  e: 'air-test',
  what,
  attempt: 1,
  reason: null,
  verdict: null,
  method: 'LC',
  startMbar: null,
  dropMbar: null,
  allowedMbar: 15,
  uMbar: null,
  warmedK: null,
  seconds: null,
  ...more,
});
const planned = setupOf({ airTest: { method: 'LC', mm: 150, lengthM: 10, headBar: null } });
const open = (...events: WatchEvent[]) =>
  accountOf(events, 0, 1e6, 0.1, planned).open.filter((p) => p.startsWith('air-test'));

it('the last attempt counts, those before it are kept, and what was refused is none', () => {
  const failed = event('judged', { verdict: 'failed' });
  const stopped = event('broken-off', { reason: 'stopped', attempt: 2 });
  const passed = event('judged', { verdict: 'passed', attempt: 3 });
  const refused = event('refused', { reason: 'no-reading' });
  expect(airTestTold([event('begun'), failed, stopped, passed, event('vented'), refused], planned)).toEqual({
    planned: true,
    last: passed,
    earlier: [failed, stopped],
  });
  expect(airTestTold([refused], planned).last).toBe(refused);
});

it('what is planned and not made, not passed or not known is open', () => {
  expect(open()).toEqual(['air-test-none']);
  expect(open(event('judged', { verdict: 'failed' }))).toEqual(['air-test-failed']);
  expect(open(event('judged', { verdict: 'cannot-say', reason: 'near' }))).toEqual(['air-test-unsaid']);
  expect(open(event('broken-off', { reason: 'gap' }))).toEqual(['air-test-unsaid']);
  expect(open(event('judged', { verdict: 'passed' }))).toEqual([]);
  expect(accountOf([], 0, 1e6, 0.1, setupOf()).open).not.toContain('air-test-none');
});
