import { expect, it } from 'vitest';
import { blankJob } from '../../job/job-document.ts';
import { DEMO } from '../../words/testing/demo.ts';
import { MOST_FIELDS, PART_FIELDS, STEP_FIELDS, STEPS, unansweredIn } from './steps.ts';

it('a step asks for six fields at most, no field twice, and each stands on the page with all of them', () => {
  const asked = STEPS.flatMap((step) => STEP_FIELDS[step]);
  expect(Math.max(...STEPS.map((step) => STEP_FIELDS[step].length))).toBeLessThanOrEqual(MOST_FIELDS);
  expect(new Set(asked).size).toBe(asked.length);
  const all = Object.values(PART_FIELDS).flat();
  expect(asked.filter((field) => !all.includes(field))).toEqual([]);
  expect(new Set(all).size).toBe(all.length);
});

it('a blank sheet has answered nothing but what a sheet begins with; the practice job has', () => {
  const blank = blankJob('New job');
  expect(unansweredIn('packer', blank)).toEqual(
    expect.arrayContaining(['packerId', 'pressures.reliefBar', 'ground.waterM']),
  );
  // Left empty it is the plan's own proposal.
  expect(unansweredIn('packer', blank)).not.toContain('pressures.workingBar');
  expect(unansweredIn('pipe', blank)).toContain('pipe.innerMm');
  expect(unansweredIn('pipe', blank)).not.toContain('title');
  expect(unansweredIn('packer', DEMO.job)).not.toContain('packerId');
});
