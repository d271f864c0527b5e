import type { LimitAnswer } from '../link/limit.ts';
import type { Session } from '../link/session.ts';
import { countsAt } from '../sensing/counts.ts';
import type { SensingState } from '../sensing/sensing.ts';

/**
 * Arms or lowers the device's own limit on the pressure channel, in the counts at which the reading shows that
 * pressure. Never rejects.
 */
export async function armLimit(session: Session, sensing: SensingState, mbar: number): Promise<LimitAnswer> {
  const at = countsAt(sensing, mbar / 1000);
  if (at === null || mbar < 1) return { kept: false, counts: null, mbar: null };
  return session.limit(at.channel, at.counts, mbar);
}
