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

// What the crew says of air and work by being in a stage. A log of a later version may hold a stage that is none here: it
// says nothing.

/** A hand lets air in. */
export const isFilling = (stage: Stage): boolean => stage === 'seat' || stage === 'inflate';
/** The packer is being filled or is full. */
export const isUp = (stage: Stage): boolean => stage === 'hold' || isFilling(stage);
/** The work on this packer is over. */
export const isOver = (stage: Stage): boolean => stage === 'done' || stage === 'abandoned';
/** Nothing is up, and a sleeve may be made ready. */
export const isBetween = (stage: Stage): boolean => stage === 'prepare' || stage === 'abandoned';
/** Air goes out and none comes in. */
export const isDown = (stage: Stage): boolean => stage === 'let-down' || isOver(stage);

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
