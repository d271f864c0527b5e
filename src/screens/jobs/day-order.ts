import type { Services } from '../context.ts';

/** The crew's order of the day: one small document, newest sheets last. */

const WHERE = { kind: 'day', id: 'order' } as const;
/** Sheets of long ago fall out of it. */
const MOST = 500;

const idsIn = (body: unknown): readonly string[] => {
  const jobs = (body as { jobs?: unknown } | null | undefined)?.jobs;
  return Array.isArray(jobs) ? jobs.filter((id): id is string => typeof id === 'string').slice(-MOST) : [];
};

export async function readOrder(app: Pick<Services, 'ask'>): Promise<readonly string[]> {
  return idsIn((await app.ask({ q: 'document', ...WHERE }))?.body);
}

/** Puts these sheets in this order; those that are not among them keep their places before them. */
export async function keepOrder(
  app: Pick<Services, 'ask'>,
  today: readonly string[],
): Promise<readonly string[]> {
  const resting = await app.ask({ q: 'document', ...WHERE });
  const jobs = [...idsIn(resting?.body).filter((id) => !today.includes(id)), ...today].slice(-MOST);
  await app.ask({
    q: 'put-document',
    document: { ...WHERE, revision: resting?.revision ?? 0, savedUtcMs: Date.now(), body: { jobs } },
  });
  return jobs;
}
