/** The sleeves that the campaign cures: 500 with a probe at each of three places, and 500 without any. */
import { judgeSleeve, type SleeveResult } from './sleeves-judge.ts';
import { drawSleeve, type ProbePlace } from './sleeves-scenario.ts';

export interface SleeveTask {
  readonly probe: ProbePlace;
  readonly seed: number;
}

/** Reported seeds. Coverage factors were chosen on seeds from 900 001 on. */
export const FIRST_SEED = 1;
export const EACH = 500;
export const PLACES = ['sleeve', 'air', 'pipe'] as const;

export function sleeveTasks(scale: number): SleeveTask[] {
  const n = Math.max(1, Math.round(EACH * scale));
  const out: SleeveTask[] = [];
  for (let i = 0; i < n; i++)
    for (const probe of [...PLACES, 'ground'] as const) out.push({ probe, seed: FIRST_SEED + i });
  return out;
}

export function workSleeve(task: SleeveTask): SleeveResult {
  return judgeSleeve(drawSleeve(task.probe, task.seed));
}
