import { createSignal } from 'solid-js';
import type { Services } from '../context.ts';
import { knownInitials, ownInitials } from '../people.ts';

/** Whoever practises at this computer until another one is named; null: nobody has said, and the one person here today is meant. */
const [chosen, setChosen] = createSignal<string | null>(null);

export const setTrainee = (initials: string): void => void setChosen(initials);

/** Initials; empty: nobody is named. */
export function traineeOf(app: Pick<Services, 'settings' | 'nowMs'>): string {
  const said = chosen() ?? ownInitials(app);
  return said === '' || knownInitials(app).includes(said) ? said : '';
}

/** Initials and name as a record keeps them: who removes a person later takes nothing from it. */
export function traineeName(app: Pick<Services, 'settings' | 'nowMs'>): string {
  const initials = traineeOf(app);
  const person = (app.settings().people ?? []).find((p) => p.initials === initials);
  return person === undefined ? '' : `${person.initials} · ${person.name}`;
}
