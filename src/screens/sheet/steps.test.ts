import { expect, it } from 'vitest';
import { blankJob } from '../../job/job-document.ts';
import { DEMO } from '../../words/testing/demo.ts';
import {
  ANSWERS,
  answeredIn,
  answersGiven,
  isStepDone,
  itemsIn,
  MOST_FIELDS,
  PART_FIELDS,
  STEP_FIELDS,
  STEP_MORE,
  STEPS,
  stepOf,
  unansweredIn,
} from './steps.ts';

it('a step asks for six fields at most, and each field of the sheet is asked in one step and stands on the page with all', () => {
  expect(Math.max(...STEPS.map((step) => STEP_FIELDS[step].length))).toBeLessThanOrEqual(MOST_FIELDS);
  const asked = STEPS.flatMap((step) => [...STEP_FIELDS[step], ...STEP_MORE[step]]);
  expect(new Set(asked).size).toBe(asked.length);
  const all = Object.values(PART_FIELDS).flat();
  expect(new Set(all).size).toBe(all.length);
  expect([...asked].sort()).toEqual([...all].sort());
  for (const field of asked) {
    const step = stepOf(field);
    expect([...STEP_FIELDS[step], ...STEP_MORE[step]]).toContain(field);
  }
});

it('a blank sheet has answered nothing but what a sheet begins with; the practice job has', () => {
  const blank = blankJob('New job');
  expect(unansweredIn('run', blank)).toEqual(['packerId', 'pipe.innerMm', 'tap', 'line', 'resin.resinId']);
  // Left empty it is the plan's own proposal.
  expect(unansweredIn('run', blank)).not.toContain('pressures.workingBar');
  expect(unansweredIn('line', blank)).toContain('pressures.reliefBar');
  expect(unansweredIn('pipe', blank)).not.toContain('title');
  expect(unansweredIn('run', DEMO.job)).toEqual([]);
});

it('counts five answers, tap and line as one', () => {
  const blank = blankJob('New job');
  expect(answersGiven(blank)).toBe(1);
  expect(answersGiven({ ...blank, tap: 'hose' })).toBe(1);
  expect(answersGiven({ ...blank, line: 'closed' })).toBe(1);
  expect(answersGiven({ ...blank, tap: 'hose', line: 'closed' })).toBe(2);
  expect(answersGiven(DEMO.job)).toBe(ANSWERS);
});

it('the mixing step is done when it is filled in and what is asked before it is answered, the last when the rest is', () => {
  expect(isStepDone('mixing', { ...DEMO.job, answers: [] })).toBe(false);
  expect(isStepDone('mixing', DEMO.job)).toBe(true);
  expect([answeredIn('mixing', DEMO.job), itemsIn('mixing', DEMO.job)]).toEqual([19, 19]);
  expect([answeredIn('record', DEMO.job), itemsIn('record', DEMO.job)]).toEqual([0, 2]);
  expect(isStepDone('run', DEMO.job)).toBe(true);
});
