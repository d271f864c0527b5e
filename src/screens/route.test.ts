import { describe, expect, it } from 'vitest';
import { parseRoute, type Route, routeHash } from './route.ts';

describe('routes', () => {
  it('an address leads back to its page', () => {
    const routes: Route[] = [
      { page: 'jobs' },
      { page: 'sheet', jobId: 'j-1' },
      { page: 'live', jobId: null },
      { page: 'live', jobId: 'j-1' },
      { page: 'review', runId: 'r_2.x' },
      { page: 'settings' },
      { page: 'documents', kind: 'packer', id: null },
      { page: 'documents', kind: 'resin', id: 'a' },
      { page: 'practice' },
      { page: 'debrief', runId: 'r-1' },
      { page: 'card', jobId: null },
      { page: 'card', jobId: 'j-1' },
      { page: 'about' },
    ];
    for (const route of routes) expect(parseRoute(routeHash(route))).toEqual(route);
  });

  it('anything else leads to the jobs', () => {
    for (const hash of ['', '#', '#/nowhere', '#/run/', '#/run/<img>', '#/job/../x', '#/run/%2e%2e'])
      expect(parseRoute(hash)).toEqual({ page: 'jobs' });
  });
});
