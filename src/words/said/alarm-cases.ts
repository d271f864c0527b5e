import type { AlarmValues } from '../../watch/events.ts';
import type { DisplayUnits } from '../create-format.ts';

/**
 * What is so and what to do, naming what the hand has to grasp; and what was so, of an alarm that is over and for the
 * record, where it stands behind a word and a colon: it commands nothing.
 */
export interface Texts {
  readonly now: (v: AlarmValues, u: DisplayUnits) => string;
  readonly was: (v: AlarmValues, u: DisplayUnits) => string;
}

/** A cause that a table has words for. */
export const hasCase = <T extends object>(words: T, cause: string | undefined): cause is keyof T & string =>
  cause !== undefined && Object.hasOwn(words, cause);

/** Which case of its code an alarm is: titles, sentences and orders of every language turn on the same ones. */

/** Air that comes in before the work, not back after it. */
export const unannounced = (v: AlarmValues): boolean => v.cause === 'unannounced';

/** The work is said to be over, and the packer was never seen empty. */
export const leftFull = (v: AlarmValues): boolean => v.cause === 'full';

/** The pressure is a hose's behind a closed end: the supply is being proved, and no packer is on it. */
export const inHose = (v: AlarmValues): boolean => v.cause === 'hose';

/** By what the sensor is known to read too low the packer is at its ceiling or over it. */
export const isOver = (v: AlarmValues): boolean => v.cause === 'over';

/** Air is not made up for where a hose may have blown off. */
export const afterFall = (v: AlarmValues): boolean => v.cause === 'fast-fall';

/** Nobody makes up for what a reading says that is told to be false. */
export const afterJump = (v: AlarmValues): boolean => v.cause === 'reading-jump';

/** The two pressure sensors look like the other one each. */
export const areSwapped = (v: AlarmValues): boolean => v.cause === 'swapped';

/**
 * The outlet reads under the ceiling that it was over: air flows, which makes it droop and takes nothing back, or it was over by the
 * uncertainty of its own sensor.
 */
export const isUnderNow = ({ secondBar, ceilingBar }: AlarmValues): boolean =>
  secondBar !== undefined && ceilingBar !== undefined && secondBar < ceilingBar;

/** Under this nobody sees by how much, bar: half of the last digit shown. */
export const SEEN_BAR = 0.005;

/** A time to danger is told short rather than long: whole seconds down, tenths under three. */
export const roundedDown = (s: number): number => (s < 3 ? Math.floor(s * 10) / 10 : Math.floor(s));

/** Told in tenths, nothing is left of it. */
export const isNow = (s: number): boolean => s < 0.1;
