import { expect, it } from 'vitest';
import { isUnderived, reservationsOf } from './reservations.ts';

it('a good verdict says what it does not vouch for; a bad one needs no reservation', () => {
  const remarks = [
    { r: 'not-judged', why: 'engine' },
    { r: 'derived-otherwise', file: 'certificate.html' },
    { r: 'not-derived', file: 'other.html' },
    { r: 'clock-apart', what: 'device', seconds: 60 },
    { r: 'papers-apart', what: ['packer'] },
    { r: 'device-limit', deviceBar: 1, ceilingBar: 2 },
    { r: 'no-job' },
  ] as const;
  const all = {
    unjudged: true,
    failed: false,
    otherwise: ['certificate.html'],
    notMade: ['other.html'],
    apart: ['clock', 'device', 'papers'],
  };
  for (const verdict of ['valid', 'not-derived', 'unknown-signer'] as const)
    expect(reservationsOf(verdict, remarks)).toEqual(all);
  for (const verdict of ['changed', 'incomplete', 'refused'] as const)
    expect(reservationsOf(verdict, remarks)).toBeNull();
  expect(reservationsOf('valid', [{ r: 'no-job' }])).toBeNull();
  expect(isUnderived([{ r: 'no-job' }, ...remarks.slice(3)])).toBe(false);
  for (const one of [remarks[0], remarks[2]]) expect(isUnderived([one])).toBe(true);
});

it('by the sums alone nothing is made again, and that is said once', () => {
  const quick = [
    { r: 'not-judged', why: 'not-asked' },
    { r: 'not-derived', file: 'trace.csv' },
  ] as const;
  const told = { unjudged: true, failed: false, otherwise: [], notMade: [], apart: [] };
  expect(reservationsOf('valid', quick)).toEqual(told);
  expect(isUnderived(quick)).toBe(false);
});

it('what broke off is told apart from what was not begun', () => {
  for (const remark of [
    { r: 'not-judged', why: 'failed', page: 3 },
    { r: 'not-derived', file: 'trace.csv', failed: true },
  ] as const)
    expect(reservationsOf('not-derived', [remark])?.failed).toBe(true);
});
