import { expect, it } from 'vitest';
import type { ArchiveEntry } from '../../evidence/messages.ts';
import { type ArchiveFilter, CHIPS, inChip, matching, NO_FILTER, waits } from './filter.ts';

const ENTRY: ArchiveEntry = {
  ref: { kind: 'run', runId: 'run-7' },
  runId: 'run-7',
  title: 'Crack at 12.4 m',
  site: 'Quöllpfad, manhole P3',
  client: 'Client A',
  packer: 'Packer 100-150',
  crew: 'A.B.',
  practice: false,
  state: 'ended',
  openedUtcMs: Date.UTC(2026, 3, 14, 8),
  seconds: 600,
  peakBar: 1.5,
  alarms: 2,
  gaps: 0,
  cure: null,
  ceiling: null,
  sealed: { utcMs: 1, fingerprint: 'ab', signer: null },
  imported: null,
  status: null,
};
const day = (ms: number) => new Date(ms).toISOString().slice(0, 10);
const has = (f: Partial<ArchiveFilter>) => matching({ ...NO_FILTER, ...f }, day)(ENTRY);

it('finds by words in any order, whatever accents and case', () => {
  expect([has({ text: 'quollpfad CRACK' }), has({ text: 'run-7' }), has({ text: 'crack joint' })]).toEqual([
    true,
    true,
    false,
  ]);
});

it('filters by day, packer, status and seal', () => {
  expect([has({ from: '2026-04-14', to: '2026-04-14' }), has({ from: '2026-04-15' })]).toEqual([true, false]);
  expect([has({ packer: 'Packer 100-150' }), has({ packer: 'Other' })]).toEqual([true, false]);
  expect([has({ status: 'open' }), has({ status: 'released' })]).toEqual([true, false]);
  expect([has({ seal: 'unknown' }), has({ seal: 'sealed' }), has({ seal: 'unsealed' })]).toEqual([
    true,
    true,
    false,
  ]);
});

it('practice stands apart: no other chip shows it', () => {
  const practice = { ...ENTRY, practice: true };
  expect(CHIPS.filter((chip) => inChip(practice, chip, { cure: 'not-met', ceiling: 'passed' }))).toEqual([
    'practice',
  ]);
  expect(waits(practice)).toBe(false);
});

it('to review is what nobody has decided, once it has ended', () => {
  const decided = (status: 'open' | 'released' | 'rejected') => ({
    ...ENTRY,
    status: { status, reason: '', by: 'A.B.', utcMs: 1 },
  });
  expect([ENTRY, decided('open'), decided('released'), decided('rejected')].map(waits)).toEqual([
    true,
    true,
    false,
    false,
  ]);
  expect(waits({ ...ENTRY, state: 'open' })).toBe(false);
});

it('a cure time that is not known to be reached counts with those that were not, as the rows say it', () => {
  const known = ['not-met', 'met', 'not-followed', null, undefined] as const;
  const told = known.map((cure) => (cure === undefined ? undefined : { cure, ceiling: null }));
  expect(told.map((t) => inChip(ENTRY, 'cure', t))).toEqual([true, false, true, true, false]);
  // What is being recorded has still to reach it.
  expect(inChip({ ...ENTRY, state: 'open' }, 'cure', { cure: null, ceiling: null })).toBe(false);
});

it('a ceiling reached is one that was seen to be, not one that nobody knows of', () => {
  const known = ['passed', 'kept', 'none', null] as const;
  expect(known.map((ceiling) => inChip(ENTRY, 'ceiling', { cure: 'met', ceiling }))).toEqual([
    true,
    false,
    false,
    false,
  ]);
  expect(inChip(ENTRY, 'ceiling', undefined)).toBe(false);
});
