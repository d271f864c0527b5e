import { ID } from '../job/id.ts';

/** Documents that have a list and an editor. */
export type EditKind = 'packer' | 'resin' | 'sensor' | 'registers' | 'columns' | 'checklist';

/** Pages by the part of the address after '#'. Unknown addresses lead to the jobs. */
export type Route =
  | { readonly page: 'jobs' }
  | { readonly page: 'sheet'; readonly jobId: string }
  | { readonly page: 'live'; readonly jobId: string | null }
  | { readonly page: 'review'; readonly runId: string }
  | { readonly page: 'settings' }
  | { readonly page: 'documents'; readonly kind: EditKind; readonly id: string | null }
  /** Trying a device, or the kept record of one. */
  | { readonly page: 'bench'; readonly id: string | null }
  | { readonly page: 'archive' }
  /** With the fingerprint that a certificate's code expects. */
  | { readonly page: 'verify'; readonly expected?: string }
  /** A sealed file: its SHA-256 where it is kept, 'opened' for the one being looked at. */
  | { readonly page: 'record'; readonly id: string }
  | { readonly page: 'certificate'; readonly id: string }
  | { readonly page: 'compare'; readonly ids: readonly string[] }
  | { readonly page: 'backup' }
  | { readonly page: 'office' }
  | { readonly page: 'log' }
  /** The pressure alone, in a window of its own beside the page that watches. */
  | { readonly page: 'far' }
  /** The drills on the practice rig. */
  | { readonly page: 'practice' }
  /** What a practice run was. */
  | { readonly page: 'debrief'; readonly runId: string }
  /** To print; blank without a job. */
  | { readonly page: 'card'; readonly jobId: string | null }
  | { readonly page: 'about' };

/** Lines that can be told apart in one picture. */
export const MOST_COMPARED = 6;

export function parseRoute(hash: string): Route {
  const parts = hash.replace(/^#\/?/, '').split('/');
  const id = parts[1] !== undefined && ID.test(parts[1]) ? parts[1] : null;
  switch (parts[0]) {
    case 'job':
      return id === null ? { page: 'jobs' } : { page: 'sheet', jobId: id };
    case 'live':
      return { page: 'live', jobId: id };
    case 'run':
      return id === null ? { page: 'jobs' } : { page: 'review', runId: id };
    case 'settings':
      return { page: 'settings' };
    case 'packer':
    case 'resin':
    case 'sensor':
    case 'registers':
    case 'columns':
    case 'checklist':
      return { page: 'documents', kind: parts[0], id };
    case 'bench':
      return { page: 'bench', id };
    case 'archive':
      return { page: 'archive' };
    case 'verify':
      return /^[0-9a-f]{64}$/.test(parts[1] ?? '')
        ? { page: 'verify', expected: parts[1]! }
        : { page: 'verify' };
    case 'record':
      return id === null ? { page: 'archive' } : { page: 'record', id };
    case 'certificate':
      return id === null ? { page: 'archive' } : { page: 'certificate', id };
    case 'compare': {
      const ids = parts.slice(1, 1 + MOST_COMPARED).filter((p) => ID.test(p));
      return ids.length === 0 ? { page: 'archive' } : { page: 'compare', ids };
    }
    case 'backup':
      return { page: 'backup' };
    case 'office':
      return { page: 'office' };
    case 'log':
      return { page: 'log' };
    case 'far':
      return { page: 'far' };
    case 'practice':
      return { page: 'practice' };
    case 'debrief':
      return id === null ? { page: 'practice' } : { page: 'debrief', runId: id };
    case 'card':
      return { page: 'card', jobId: id };
    case 'about':
      return { page: 'about' };
    default:
      return { page: 'jobs' };
  }
}

export function routeHash(route: Route): string {
  switch (route.page) {
    case 'jobs':
      return '#/jobs';
    case 'sheet':
      return `#/job/${route.jobId}`;
    case 'live':
      return route.jobId === null ? '#/live' : `#/live/${route.jobId}`;
    case 'review':
      return `#/run/${route.runId}`;
    case 'settings':
      return '#/settings';
    case 'documents':
      return route.id === null ? `#/${route.kind}` : `#/${route.kind}/${route.id}`;
    case 'bench':
      return route.id === null ? '#/bench' : `#/bench/${route.id}`;
    case 'archive':
      return '#/archive';
    case 'verify':
      return route.expected === undefined ? '#/verify' : `#/verify/${route.expected}`;
    case 'record':
      return `#/record/${route.id}`;
    case 'certificate':
      return `#/certificate/${route.id}`;
    case 'compare':
      return `#/compare/${route.ids.join('/')}`;
    case 'backup':
      return '#/backup';
    case 'office':
      return '#/office';
    case 'log':
      return '#/log';
    case 'far':
      return '#/far';
    case 'practice':
      return '#/practice';
    case 'debrief':
      return `#/debrief/${route.runId}`;
    case 'card':
      return route.jobId === null ? '#/card' : `#/card/${route.jobId}`;
    case 'about':
      return '#/about';
  }
}
