import { createWorkerClient, type WorkerClient, type WorkerLine } from '../engine/worker/client.ts';
import type { EvidenceContract, EvidenceRequest } from './messages.ts';

/**
 * The page's end of the evidence room, which works in two workers of the same code. One has what was recorded on this
 * tablet: it seals. The other has whatever came from elsewhere, so that no file of somebody's making can keep a record
 * from being sealed, and so that it can be ended when it does not answer.
 */
export type EvidenceClient = Pick<WorkerClient<EvidenceContract>, 'ask' | 'close'>;

/** How long a worker has to give up by itself, ms. */
const GRACE_MS = 2000;

/** They keep nothing and write nothing: where only these are under way, the worker is ended at once. */
const READING: ReadonlySet<EvidenceRequest['q']> = new Set([
  'verify',
  'verify-first',
] satisfies EvidenceRequest['q'][]);

const FOREIGN: ReadonlySet<EvidenceRequest['q']> = new Set([
  'verify',
  'verify-first',
  'keep-opened',
  'remove-import',
  'archive',
  'office-choose',
  'office-forget',
  'office-list',
  'office-seen',
  'office-file',
  'office-witness',
  'take-stamp',
  'pages-outline',
  'pages-capture',
  'restore-look',
  'restore',
] satisfies EvidenceRequest['q'][]);

/** Whether a request is about what came from elsewhere. */
export function isForeign(request: EvidenceRequest): boolean {
  if (FOREIGN.has(request.q)) return true;
  if (request.q === 'compare') return request.with === 'opened';
  if (request.q === 'picture') return request.order.refs.some((r) => r.kind !== 'run');
  return 'ref' in request && request.ref.kind !== 'run';
}

/**
 * @param open starts a worker
 * @param later calls after so many ms
 */
export function createEvidenceClient(
  open: () => WorkerLine<EvidenceContract>,
  later: (ms: number, call: () => void) => void = (ms, call) => void setTimeout(call, ms),
): EvidenceClient {
  const worker = () => createWorkerClient<EvidenceContract>({ open, life: 'as-needed' });
  const own = worker();
  const foreign = worker();

  // What is under way there; a worker that has nothing to do is not started to be told to stop.
  const busy = { own: [] as EvidenceRequest['q'][], foreign: [] as EvidenceRequest['q'][] };

  async function cancel(): Promise<null> {
    const given: Promise<unknown>[] = [];
    if (busy.own.length > 0) given.push(own.ask({ q: 'cancel' }));
    if (busy.foreign.length > 0 && busy.foreign.every((q) => READING.has(q)))
      foreign.stop('cancelled', 'ended by hand');
    else if (busy.foreign.length > 0) {
      let answered = false;
      given.push(foreign.ask({ q: 'cancel' }).finally(() => (answered = true)));
      later(GRACE_MS, () => {
        if (!answered) foreign.stop('cancelled', 'ended by hand: it did not answer');
      });
    }
    // A worker that was ended has refused its cancel too: it has given up all the same.
    await Promise.allSettled(given);
    return null;
  }

  return {
    async ask(request, onProgress) {
      if (request.q === 'cancel') return (await cancel()) as never;
      const [at, to] = isForeign(request) ? (['foreign', foreign] as const) : (['own', own] as const);
      busy[at].push(request.q);
      try {
        return await to.ask(request, onProgress);
      } finally {
        busy[at].splice(busy[at].indexOf(request.q), 1);
      }
    },
    close() {
      own.close();
      foreign.close();
    },
  };
}

/** Its workers start at the first request, and another after one that failed (out of memory on a huge file). */
export const startEvidence = (): EvidenceClient =>
  createEvidenceClient(
    () => new Worker(new URL('./evidence.worker.ts', import.meta.url), { type: 'module' }),
  );
