import type { Sound } from './patterns.ts';

/** By priority as the sounds are: ms of shaking and of pause, in turn. */
const SHAKES: Record<Sound, readonly number[]> = {
  urgent: [260, 90, 260, 90, 260],
  lost: [600, 150, 600],
  high: [220, 180, 220],
  low: [120],
  cue: [70, 90, 70],
  tick: [30],
  now: [450],
  reached: [350],
  well: [60],
};

/** Does this device shake at all? Most computers have the call and no motor: only the person sees that. */
export const canVibrate = (): boolean => typeof navigator.vibrate === 'function';

/** Beside the sound, never in its place. */
export function vibrate(sound: Sound): void {
  try {
    if (canVibrate()) navigator.vibrate([...SHAKES[sound]]);
  } catch {
    // A browser that forbids it shakes nothing; the sound and the screen say the same.
  }
}
