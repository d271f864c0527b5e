import type { Services } from '../context.ts';

/** A run on a real packer was not closed, and none goes on: what hangs on it is not seen. */
export const isRunLeftOpen = ({ live, openRuns }: Pick<Services, 'live' | 'openRuns'>): boolean =>
  live.run() === null && openRuns().some((r) => !r.practice);
