import { expect, it } from 'vitest';
import { bringBack, comeBack, type Errand, sendFor, takeUp } from './errand.ts';

const PACKER: Errand = { jobId: 'job-1', kind: 'packer', channel: null, step: 'run', all: false };

it('a sheet that sent for a packer gets it once, with the step that it was left at', () => {
  sendFor(PACKER);
  expect(takeUp('packer')).toBe(true);
  bringBack('packer-9');
  expect(comeBack('job-2')).toBeNull();
  expect(comeBack('job-1')).toEqual({ errand: PACKER, madeId: 'packer-9' });
  expect(comeBack('job-1')).toBeNull();
});

it('left without saving it gives back the step and no document', () => {
  sendFor(PACKER);
  takeUp('packer');
  expect(comeBack('job-1')).toEqual({ errand: PACKER, madeId: null });
});

it('what is made on another way is not the sheet’s', () => {
  sendFor(PACKER);
  takeUp('packer');
  // Left for the settings; there a packer is made for its own sake.
  expect(takeUp('packer')).toBe(false);
  bringBack('packer-10');
  expect(comeBack('job-1')).toBeNull();
  sendFor(PACKER);
  expect(takeUp('resin')).toBe(false);
  bringBack('resin-1');
  expect(comeBack('job-1')).toBeNull();
});
