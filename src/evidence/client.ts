import { createWorkerClient, type WorkerClient, type WorkerLine } from '../engine/worker/client.ts';
import type { EvidenceAnswers, EvidenceContract, EvidenceRequest } from './messages.ts';

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
  'judge-file',
  'judged',
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
  const worker = (news?: () => void) =>
    createWorkerClient<EvidenceContract>({
      open,
      life: 'as-needed',
      ...(news === undefined ? {} : { news }),
    });
  const own = worker();
  // Judging a long run takes as long as all else that is done with its file: another worker has it, on another core.
  const helper = worker();
  const foreign = worker(() => {
    const mine = verifying;
    mine?.judged
      .then((events) => (verifying === mine ? foreign.ask({ q: 'judged', events }) : null))
      // It was ended meanwhile.
      .catch(() => undefined);
  });
  /** The file that is helped with; null: it could not be judged there. */
  let verifying: { readonly judged: Promise<EvidenceAnswers['judge-file'] | null> } | null = null;

  /** One file at a time has help: what a second one asks for at once is judged where it is verified. */
  async function verify(
    request: Extract<EvidenceRequest, { q: 'verify' }>,
    onProgress?: (share: number) => void,
  ): Promise<EvidenceAnswers['verify']> {
    if (verifying !== null) return foreign.ask(request, onProgress);
    // What is done here and what is done there go on at the same time: told is the one that is behind.
    const share = { made: 0, judged: 0 };
    const tell = (more: Partial<typeof share>): void => {
      Object.assign(share, more);
      onProgress?.(Math.min(share.made, share.judged));
    };
    const judged = helper
      .ask({ q: 'judge-file', file: request.file }, (done) => tell({ judged: done }))
      .catch(() => null)
      .finally(() => tell({ judged: 1 }));
    verifying = { judged };
    try {
      return await foreign.ask({ ...request, helped: true }, (made) => tell({ made }));
    } finally {
      verifying = null;
      helper.stop('cancelled', 'nobody waits for it any more');
    }
  }

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
        if (request.q === 'verify') return (await verify(request, onProgress)) as never;
        return await to.ask(request, onProgress);
      } finally {
        busy[at].splice(busy[at].indexOf(request.q), 1);
      }
    },
    close() {
      own.close();
      foreign.close();
      helper.close();
    },
  };
}

/** Its workers start at the first request, and another after one that failed (out of memory on a huge file). */
export const startEvidence = (): EvidenceClient =>
  createEvidenceClient(
    () => new Worker(new URL('./evidence.worker.ts', import.meta.url), { type: 'module' }),
  );
