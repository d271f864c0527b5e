/** Pages by the part of the address after '#'. Unknown addresses lead to the jobs. */
export type Route =
  | { readonly page: 'jobs' }
  | { readonly page: 'sheet'; readonly jobId: string }
  | { readonly page: 'live'; readonly jobId: string | null }
  | { readonly page: 'review'; readonly runId: string }
  | { readonly page: 'settings' }
  | { readonly page: 'documents'; readonly kind: 'packer' | 'resin' | 'sensor'; readonly id: string | null }
  | { readonly page: 'about' };

const ID = /^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/;

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
      return { page: 'documents', kind: parts[0], id };
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
    case 'about':
      return '#/about';
  }
}
