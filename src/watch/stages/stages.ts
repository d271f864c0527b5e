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

/** Stages in which the packer is being filled or is full. */
export function isUp(stage: Stage): boolean {
  return stage === 'seat' || stage === 'inflate' || stage === 'hold';
}

/** Stages in which a hand lets air in. */
export function isFilling(stage: Stage): boolean {
  return stage === 'seat' || stage === 'inflate';
}

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
