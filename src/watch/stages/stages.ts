import type { Stage } from '../codes.ts';
import type { WatchEvent } from '../events.ts';

/** Where the run is. An attempt is one way up and down again; a run may hold several. */
export interface StageState {
  stage: Stage;
  attempt: number;
  sinceUs: number;
  /** The packer was let down since it was last inflated: the next inflation is another attempt. */
  wasDown: boolean;
}

export function createStages(): StageState {
  return { stage: 'prepare', attempt: 1, sinceUs: 0, wasDown: false };
}

/** What the crew says of air and work by being in a stage. */
interface Says {
  /** The packer is being filled or is full. */
  readonly up: boolean;
  /** A hand lets air in. */
  readonly filling: boolean;
  /** Air goes out and none comes in. */
  readonly down: boolean;
  /** The work on this packer is over. */
  readonly over: boolean;
}

const SAYS: { readonly [S in Stage]: Says } = {
  prepare: { up: false, filling: false, down: false, over: false },
  seat: { up: true, filling: true, down: false, over: false },
  inflate: { up: true, filling: true, down: false, over: false },
  hold: { up: true, filling: false, down: false, over: false },
  'let-down': { up: false, filling: false, down: true, over: false },
  done: { up: false, filling: false, down: true, over: true },
  abandoned: { up: false, filling: false, down: true, over: true },
};

// A log of a later version may hold a stage that is none here: it says nothing.
export const isUp = (stage: Stage): boolean => SAYS[stage]?.up ?? false;
export const isFilling = (stage: Stage): boolean => SAYS[stage]?.filling ?? false;
export const isDown = (stage: Stage): boolean => SAYS[stage]?.down ?? false;
export const isOver = (stage: Stage): boolean => SAYS[stage]?.over ?? false;

/**
 * Enters a stage. Any step is allowed: after mixing the program warns and records, it never blocks. False
 * where the run is in that stage already. `fromUs`: when it seems to have begun, where it was noticed later.
 */
export function enterStage(
  st: StageState,
  to: Stage,
  by: 'operator' | 'data',
  tUs: number,
  emit: (event: WatchEvent) => void,
  fromUs: number | null = null,
): boolean {
  if (st.stage === to) return false;
  const up = isUp(to);
  if (up && st.wasDown) {
    st.attempt++;
    st.wasDown = false;
  }
  if (isUp(st.stage) && !up) st.wasDown = true;
  const begunUs = fromUs === null ? tUs : Math.min(tUs, Math.max(st.sinceUs, fromUs));
  st.stage = to;
  st.sinceUs = begunUs;
  emit({
    tUs,
    e: 'stage',
    stage: to,
    attempt: st.attempt,
    by,
    ...(fromUs === null ? {} : { fromUs: begunUs }),
  });
  return true;
}
