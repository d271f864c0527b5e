import { builtInChecklist, type KeptChecklist, keptOf } from '../../job/checklist-document.ts';
import type { Services } from '../context.ts';
import { loadAll } from '../documents/store.ts';

/** The firm's lists that new job sheets may take, the one that was saved last first. */
export async function listsInUse(app: Services): Promise<readonly KeptChecklist[]> {
  const { kept } = await loadAll(app, 'checklist');
  return kept.filter((k) => k.document.inUse).map(keptOf);
}

/** What a sheet that is opened now takes; the built-in one where there is no other, or none can be read. */
export async function listInForce(app: Services): Promise<KeptChecklist> {
  const [first] = await listsInUse(app).catch((): readonly KeptChecklist[] => []);
  return first ?? builtInChecklist();
}

export const sameList = (a: KeptChecklist, b: KeptChecklist): boolean =>
  a.listId === b.listId && a.revision === b.revision;
