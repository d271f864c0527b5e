import type { Role, SecondPressure } from './codes.ts';
import { SECOND_PRESSURES } from './codes.ts';

/** A channel as the device describes it: what it measures, where it says it sits, by which signal. */
interface Described {
  readonly quantity: string;
  readonly place: string | null;
  readonly signal: string;
}

/** Does a channel of this role read a pressure of the air line? */
export const isPressureRole = (role: Role): role is 'pressure' | SecondPressure =>
  role === 'pressure' || isSecondPressure(role);

export const isSecondPressure = (role: Role): role is SecondPressure =>
  (SECOND_PRESSURES as readonly string[]).includes(role);

/** What a further pressure channel is, beside the one that the guard goes by; null: nothing is known of it. */
function secondRole(main: Described, other: Described): SecondPressure | null {
  if (other.signal === 'voltage') return null;
  if (other.place === 'supply') return main.place === 'supply' ? null : 'outlet-pressure';
  return other.place === 'packer' && main.place !== 'supply' ? 'check-pressure' : null;
}

/**
 * Which of a device's pressure channels the guard goes by, and which one stands beside it, by the places that the device
 * names: one at the regulator's outlet says little of the packer, so any other comes before it; so does one whose span is
 * stated. A suggestion: the job decides.
 * @returns a role for each channel, in their order; null for one that reads no pressure
 */
export function pressureRoles(channels: readonly Described[]): readonly (Role | null)[] {
  const pressures = channels.filter((c) => c.quantity === 'press');
  const stated = pressures.filter((c) => c.signal !== 'voltage');
  const main = stated.find((c) => c.place !== 'supply') ?? stated[0] ?? pressures[0];
  const second =
    main === undefined ? undefined : pressures.find((c) => c !== main && secondRole(main, c) !== null);
  return channels.map((c) => {
    if (c.quantity !== 'press') return null;
    if (c === main || main === undefined) return 'pressure';
    return c === second ? (secondRole(main, c) ?? 'unused') : 'unused';
  });
}
