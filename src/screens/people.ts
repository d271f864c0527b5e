import { dayOf, hereOn } from '../job/people.ts';
import type { Services } from './context.ts';

/** Initials that stand in a field before anybody types: those of the one person who is here today. */
export function ownInitials(app: Pick<Services, 'settings' | 'nowMs'>): string {
  const { people = [], here = [] } = app.settings();
  const [only, ...others] = hereOn(people, here, dayOf(app.nowMs()));
  return only === undefined || others.length > 0 ? '' : only.initials;
}

/** Initials to choose from: of those who are here today, else of all. */
export function knownInitials(app: Pick<Services, 'settings' | 'nowMs'>): readonly string[] {
  const { people = [], here = [] } = app.settings();
  const today = hereOn(people, here, dayOf(app.nowMs()));
  return (today.length > 0 ? today : people).map((p) => p.initials);
}
