import { createWorkerClient, type WorkerClient } from '../engine/worker/client.ts';
import type { EvidenceContract } from './messages.ts';

export type EvidenceClient = WorkerClient<EvidenceContract>;

/** Its worker starts at the first request, and another after one that failed (out of memory on a huge file). */
export const startEvidence = (): EvidenceClient =>
  createWorkerClient<EvidenceContract>({
    open: () => new Worker(new URL('./evidence.worker.ts', import.meta.url), { type: 'module' }),
    life: 'as-needed',
  });
