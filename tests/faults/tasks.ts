import type { PageSoak } from '../soak/figures.ts';
import type { Cell } from './cell.ts';
import type { Kill } from './kills.ts';
import type { WalkStage } from './walk.ts';

/** What run.ts asks of its children and what they answer. */
export type Task =
  | { readonly t: 'fault'; readonly name: string; readonly stages: readonly WalkStage[] }
  | { readonly t: 'kill'; readonly seed: number }
  | { readonly t: 'soak'; readonly minutes: number };

export type Answer = { readonly task: Task } & (
  | { readonly cells: readonly Cell[] }
  | { readonly kill: Kill }
  | { readonly soak: PageSoak }
  | { readonly error: string }
);
