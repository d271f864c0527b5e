/** What the practice rig said of itself in a run, on the run's own time. */
import type { RigSaid } from '../watch/inputs.ts';
import type { Done, Told } from './shapes.ts';

/** Seconds from the run's first reading; pressures gauge, bar. */
export interface Course {
  /** Its code; null: the record holds none of the practice rig. */
  readonly site: string | null;
  readonly seed: number;
  readonly trainee: string;
  /** It was gone on with at another site. */
  readonly again: boolean;
  readonly hands: readonly Done[];
  readonly faults: readonly Done[];
  readonly truth: readonly Truth[];
  /** Seconds from the first reading → seconds of the rig's clock. */
  onRig(s: number): number;
}

export interface Truth extends Omit<Extract<RigSaid, { what: 'truth' }>, 'what' | 'atS'> {
  readonly s: number;
}

/** @param firstUs arrival of the first reading on the run clock, µs */
export function courseOf(told: readonly Told[], firstUs: number): Course {
  const sites = told.flatMap(({ said }) => (said.what === 'site' ? [said] : []));
  const [first, ...more] = sites;
  // What is said enters the log at the moment that it is heard or after it: the least delay is none.
  const offsetS = told.reduce((least, { tUs, said }) => Math.min(least, tUs / 1e6 - said.atS), Infinity);
  const shift = (Number.isFinite(offsetS) ? offsetS : 0) - firstUs / 1e6;
  const done = (what: 'hand' | 'fault'): Done[] =>
    told.flatMap(({ said }) =>
      said.what === what ? [{ s: said.atS + shift, atS: said.atS, name: said.name, value: said.value }] : [],
    );
  return {
    site: first?.site ?? null,
    seed: first?.seed ?? 0,
    trainee: first?.trainee ?? '',
    again: more.length > 0,
    hands: done('hand'),
    faults: done('fault'),
    truth: told.flatMap(({ said }) => {
      if (said.what !== 'truth') return [];
      const { what, atS, ...truth } = said;
      return [{ s: atS + shift, ...truth }];
    }),
    onRig: (s) => s - shift,
  };
}

/** What was so at that time: as it was said last before. null: nothing was yet. */
export const truthAt = (course: Course, s: number): Truth | null =>
  course.truth.findLast((t) => t.s <= s) ?? null;
