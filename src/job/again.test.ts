import { expect, it } from 'vitest';
import { DEMO } from '../words/testing/demo.ts';
import { nextTitle, sameAgain, withDeviceOf } from './again.ts';
import { builtInChecklist } from './checklist-document.ts';
import { parseDocument } from './documents.ts';
import { blankJob } from './job-document.ts';

const ANEW = {
  date: '2026-11-28',
  title: 'Crack (2)',
  chainageM: 18.2,
  lengthMm: 300,
  resinBatch: 'R-9',
  hardenerBatch: 'H-9',
  inspected: null,
  checklist: builtInChecklist(),
};

it('the same again keeps what stays and takes nothing over that must be new', () => {
  const before = {
    ...DEMO.job,
    date: '2026-11-27',
    reference: 'Order 7',
    pressures: { ...DEMO.job.pressures, noMarginReason: 'deep water' },
  };
  const next = sameAgain(before, ANEW);
  expect(parseDocument('job', next).ok).toBe(true);
  const { packerId, device, tap, line, pipe, sleeve, site, client, crew } = before;
  expect(next).toMatchObject({ packerId, device, tap, line, pipe, sleeve, site, client, crew });
  expect(next.resin).toEqual({ ...before.resin, resinBatch: 'R-9', hardenerBatch: 'H-9', mixC: null });
  expect(next.defect).toEqual({
    kind: before.defect.kind,
    chainageM: 18.2,
    lengthMm: 300,
    infiltration: 'not-looked',
  });
  expect(next.answers).toEqual([]);
  expect(next.cautions).toEqual([]);
  expect(next.notes).toBe('');
  expect(next.pressures.noMarginReason).toBeNull();
  expect(next.reference).toBe('');
});

it('an inspection counts when somebody says so, and an order stays within its day', () => {
  const today = { ...DEMO.job, date: ANEW.date, reference: 'Order 7' };
  const inspected = { item: 'packer-inspected', how: 'done', text: '', atUtcMs: 1, by: 'A.B.' } as const;
  const next = sameAgain(today, { ...ANEW, inspected });
  expect(next.answers).toEqual([inspected]);
  expect(next.reference).toBe('Order 7');
});

it('titles count on, pass those that are taken, and stay as long as a title may be', () => {
  expect(nextTitle('Crack', [])).toBe('Crack (2)');
  expect(nextTitle('Crack (2)', ['Crack (3)'])).toBe('Crack (4)');
  expect(nextTitle('x'.repeat(120), [])).toHaveLength(120);
});

it('a new sheet takes the device with its tap and hose, and neither packer, pipe nor an air pressure of another day', () => {
  const last = { ...DEMO.job, air: { source: 'typed', bar: 0.99, uBar: 0.01 } as const };
  const next = withDeviceOf(blankJob('New job'), last);
  const { device, tap, line, hose, crew } = last;
  expect(next).toEqual({ ...blankJob('New job'), device, tap, line, hose, crew });
});

it('the next one has the list in force now, and an answer only where that list has the item', () => {
  const own = {
    ...builtInChecklist(),
    listId: 'l',
    revision: 3,
    items: builtInChecklist().items.slice(0, 2),
  };
  const inspected = { item: 'packer-inspected', how: 'done', text: '', atUtcMs: 1, by: '' } as const;
  const next = sameAgain(DEMO.job, { ...ANEW, inspected, checklist: own });
  expect(next.checklist).toEqual(own);
  expect(next.answers).toEqual([]);
});
