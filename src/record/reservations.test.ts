import { expect, it } from 'vitest';
import { reservationsOf } from './reservations.ts';

it('a good verdict says what it does not vouch for; a bad one needs no reservation', () => {
  const remarks = [
    { r: 'not-judged', why: 'engine' },
    { r: 'derived-otherwise', file: 'certificate.html' },
    { r: 'not-derived', file: 'other.html' },
    { r: 'no-job' },
  ] as const;
  const all = { unjudged: true, otherwise: ['certificate.html'], notMade: ['other.html'] };
  expect(reservationsOf('valid', remarks)).toEqual(all);
  expect(reservationsOf('unknown-signer', remarks)).toEqual(all);
  for (const verdict of ['changed', 'incomplete', 'refused'] as const)
    expect(reservationsOf(verdict, remarks)).toBeNull();
  expect(reservationsOf('valid', [{ r: 'no-job' }])).toBeNull();
  // By the sums alone nothing is made again, and that is said once.
  expect(
    reservationsOf('valid', [
      { r: 'not-judged', why: 'not-asked' },
      { r: 'not-derived', file: 'trace.csv' },
    ]),
  ).toEqual({ unjudged: true, otherwise: [], notMade: [] });
});
