/** The name beside which a backup's version is kept where another of its name is here. */

const ID_MOST = 64;
const MARK = /-b[0-9a-f]{10}$/;
const stem = (id: string): string => id.replace(MARK, '').slice(0, ID_MOST - 12);

/** @param sha256 of what is kept, hex: the same each time it is restored */
export const otherName = (id: string, sha256: string): string => `${stem(id)}-b${sha256.slice(0, 10)}`;

/** Whether a document of this name may be one of this run: it has its id, or was kept beside another of its id. */
export const namesRun = (id: string, runId: string): boolean =>
  id === runId || (MARK.test(id) && stem(id) === stem(runId));
