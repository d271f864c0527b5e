/** A few workers of one kind: what is asked of them waits for the first that is free. */

import { createWorkerClient, type WorkerClient, type WorkerLine } from '../../engine/worker/client.ts';
import type { AnswerTo, Contract, RefusalCode } from '../../engine/worker/contract.ts';

export interface Pool<C extends Contract> {
  readonly size: number;
  /** Rejects as a worker's client does, also where the worker says nothing for too long: then it is ended. */
  ask<R extends C['request']>(request: R, onProgress?: (share: number) => void): Promise<AnswerTo<C, R['q']>>;
  /** Ends all of them, whatever they are at. */
  stop(): void;
}

/**
 * A worker is held to have no end that tells of nothing for so long, ms: pages of somebody's making may hold a state that
 * does not come to one.
 */
const PATIENCE_MS = 60_000;

export interface PoolSite<C extends Contract> {
  readonly size: number;
  open(): WorkerLine<C>;
  /** Calls after so many ms, unless what it gives is called before. */
  later(ms: number, call: () => void): () => void;
}

export function createPool<C extends Contract>({ size, open, later }: PoolSite<C>): Pool<C> {
  const clients = Array.from({ length: size }, () => createWorkerClient<C>({ open, life: 'as-needed' }));
  const free = [...clients];
  const waiting: ((client: WorkerClient<C> | null) => void)[] = [];
  let stopped = false;

  const end = (client: WorkerClient<C>, detail: string): void =>
    client.stop('internal' as RefusalCode<C>, detail);

  function take(): Promise<WorkerClient<C> | null> {
    if (stopped) return Promise.resolve(null);
    const client = free.shift();
    if (client !== undefined) return Promise.resolve(client);
    return new Promise((resolve) => waiting.push(resolve));
  }

  function give(client: WorkerClient<C>): void {
    const next = waiting.shift();
    if (next === undefined) free.push(client);
    else next(client);
  }

  return {
    size,
    async ask(request, onProgress) {
      const client = await take();
      if (client === null) throw new Error('the workers were ended');
      const wait = () => later(PATIENCE_MS, () => end(client, 'it says nothing any more'));
      let heard = wait();
      try {
        return await client.ask(request, (share) => {
          heard();
          heard = wait();
          onProgress?.(share);
        });
      } finally {
        heard();
        give(client);
      }
    },
    stop() {
      stopped = true;
      for (const resolve of waiting.splice(0)) resolve(null);
      for (const client of clients) end(client, 'ended');
    },
  };
}
