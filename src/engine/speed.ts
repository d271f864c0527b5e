import { EngineError } from './errors.ts';

/** Practice may hurry through a cure, but not faster than a tablet can simulate. */
export const MOST_SPEED = 60;

/** @throws EngineError 'bad-request' */
export function checkSpeed(speed: number): number {
  if (!(speed >= 0.1 && speed <= MOST_SPEED))
    throw new EngineError('bad-request', `speed ${speed} is not 0.1 to ${MOST_SPEED}`);
  return speed;
}
