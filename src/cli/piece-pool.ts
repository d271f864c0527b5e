import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { WorkerLine } from '../engine/worker/client.ts';
import type { PieceContract } from '../evidence/pieces/order.ts';
import { createPool, type Pool } from '../evidence/pieces/pool.ts';

/** More of them wait for each other's memory. */
const MOST = 8;

/** A thread of Node as the line to a worker. */
function openLine(): WorkerLine<PieceContract> {
  // Node strips no types: the thread has the loader that the command was started with.
  const worker = new Worker(new URL('./piece-worker.ts', import.meta.url));
  return {
    postMessage: (message) => worker.postMessage(message),
    terminate: () => void worker.terminate(),
    addEventListener(type: string, listener: (event: never) => void) {
      if (type === 'message') worker.on('message', (data: unknown) => listener({ data } as never));
      else worker.on(type, (error: unknown) => listener(error as never));
    },
  };
}

/** Threads of Node for pieces of a run, as many as there are cores. */
export const openPiecePool = (size = Math.min(MOST, availableParallelism())): Pool<PieceContract> =>
  createPool<PieceContract>({
    size,
    open: openLine,
    later(ms, call) {
      const timer = setTimeout(call, ms);
      return () => clearTimeout(timer);
    },
  });
