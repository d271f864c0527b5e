/**
 * The sleeves that the campaign cures: 500 with a probe at each of three places, 500 without any, and some again with
 * more known of them.
 */
import { drawHeated, HEATED_PROBES } from './sleeves-heated.ts';
import { judgeSleeve, type SleeveResult } from './sleeves-judge.ts';
import { drawSleeve, type ProbePlace } from './sleeves-scenario.ts';
import { knowing, WAITING } from './sleeves-waiting.ts';

export interface SleeveTask {
  readonly probe: ProbePlace;
  readonly seed: number;
  /** Things known beside what the job says (sleeves-waiting.ts); null: a reported sleeve. */
  readonly known: number | null;
  /** The packer is warmed from outside (sleeves-heated.ts). */
  readonly heated?: boolean;
}

/** Reported seeds. Coverage factors were chosen on seeds from 900 001 on, and what the waiting is for is asked there. */
export const FIRST_SEED = 2_060_001;
export const EACH = 500;
export const TUNING_SEED = 900_001;
export const HEATED_SEED = 2_080_001;
export const HEATED_EACH = 300;
export const WAITING_EACH = 60;
export const PLACES = ['sleeve', 'air', 'pipe'] as const;

export function sleeveTasks(scale: number): SleeveTask[] {
  const n = Math.max(1, Math.round(EACH * scale));
  const out: SleeveTask[] = [];
  for (let i = 0; i < n; i++)
    for (const probe of [...PLACES, 'ground'] as const)
      out.push({ probe, seed: FIRST_SEED + i, known: null });
  const h = Math.max(1, Math.round(HEATED_EACH * scale));
  for (let i = 0; i < h; i++)
    for (const probe of HEATED_PROBES) out.push({ probe, seed: HEATED_SEED + i, known: null, heated: true });
  const m = Math.max(1, Math.round(WAITING_EACH * scale));
  for (let known = 0; known < WAITING.length; known++)
    for (let i = 0; i < m; i++) for (const probe of PLACES) out.push({ probe, seed: TUNING_SEED + i, known });
  return out;
}

export function workSleeve(task: SleeveTask): SleeveResult {
  if (task.heated === true && task.probe !== 'ground') return judgeSleeve(drawHeated(task.probe, task.seed));
  return judgeSleeve(knowing(drawSleeve(task.probe, task.seed), task.known ?? 0));
}
