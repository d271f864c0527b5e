import { expect, it } from 'vitest';
import { blankJob } from '../job/job-document.ts';
import { blankPacker, type ConditionEntry } from '../job/packer-document.ts';
import { blankSensor } from '../job/sensor-document.ts';
import type { DayRun } from './day.ts';
import { overdue } from './overdue.ts';

const TODAY = '2026-11-28';
const run = (runId: string, more: Partial<DayRun> = {}): DayRun => ({
  runId,
  jobId: 'job',
  title: runId,
  practice: false,
  state: 'ended',
  openedUtcMs: Date.parse('2026-11-27T09:00:00Z'),
  sealedUtcMs: 1,
  sentUtcMs: 2,
  ...more,
});
const entry = (what: ConditionEntry['what'], date = '2026-11-27', runId?: string): ConditionEntry => ({
  date,
  what,
  peakBar: null,
  leakMbarPerMin: null,
  minutes: null,
  by: '',
  note: '',
  ...(runId === undefined ? {} : { runId }),
});
const packer = (...conditions: ConditionEntry[]) => ({
  id: 'p',
  document: { ...blankPacker('Packer P'), conditions },
});
const SHEETS = [{ id: 'job', document: { ...blankJob('Job'), packerId: 'p' } }];
const NOTHING = { sheets: SHEETS, runs: [], packers: [], sensors: [] };

it('a packer is due when its last run is not in its log, and no more once it was put away or looked at on a later day', () => {
  const of = (...conditions: ConditionEntry[]) =>
    overdue({ ...NOTHING, runs: [run('r')], packers: [packer(...conditions)] }, TODAY).map((d) => d.due);
  expect(of()).toEqual(['not-inspected']);
  expect(of(entry('inspected', '2026-11-20'))).toEqual(['not-inspected']);
  expect(of(entry('cycle', '2026-11-27', 'r'), entry('inspected', '2026-11-27', 'r'))).toEqual([]);
  expect(of(entry('inspected', '2026-11-28'))).toEqual([]);
  // A cycle that nobody looked at after it.
  expect(of(entry('cycle', '2026-11-27', 'r'))).toEqual(['not-inspected']);
  expect(of(entry('damage'))).toEqual(['damaged']);
  expect(of(entry('over-rated', '2026-11-27', 'r'))).toEqual(['over-rated']);
  expect(overdue({ ...NOTHING, packers: [packer()] }, TODAY)).toEqual([]);
});

it('a calibration is told two weeks before it is due, with the days; a retired sensor’s never', () => {
  const sensor = (date: string, retired = false) => ({
    id: 's',
    document: {
      ...blankSensor('Transducer', 'T-1'),
      dueDays: 365,
      retired,
      calibration: { date, asFound: [], asLeft: [], uReference: 0, reference: '', by: '' },
    },
  });
  const of = (...given: Parameters<typeof sensor>) =>
    overdue({ ...NOTHING, sensors: [sensor(...given)] }, TODAY);
  expect(of('2025-11-20')).toEqual([{ due: 'calibration', sensorId: 's', name: 'Transducer', daysLeft: -8 }]);
  expect(of('2025-12-12')).toMatchObject([{ daysLeft: 14 }]);
  expect(of('2025-12-13')).toEqual([]);
  expect(of('2020-01-01', true)).toEqual([]);
});

it('runs that are not sealed come before files that are not sent; practice and open runs are neither', () => {
  const { sealedUtcMs: _, sentUtcMs: __, ...bare } = run('bare');
  const { sentUtcMs: ___, ...kept } = run('kept');
  const runs = [kept, run('sent'), bare, { ...bare, practice: true }, { ...bare, state: 'open' as const }];
  expect(overdue({ ...NOTHING, runs }, TODAY).map((d) => [d.due, 'runId' in d && d.runId])).toEqual([
    ['not-sealed', 'bare'],
    ['not-sent', 'kept'],
  ]);
});
