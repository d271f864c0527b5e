/// <reference lib="webworker" />
import { SOFTWARE } from '../engine/version.ts';
import { serveWorker } from '../engine/worker/shell.ts';
import { openStores } from '../engine/worker/stores.ts';
import { createWebLocks } from '../engine/worker/web-locks.ts';
import { createRecordCrypto } from '../record/signing.ts';
import { loadCatalogue } from '../words/catalogue.ts';
import { reduceInWorker } from './enclosed/reduce.ts';
import { evidenceCode } from './faults.ts';
import { createEvidenceHost } from './host.ts';
import type { EvidenceContract } from './messages.ts';
import { openPiecePool } from './pieces/open-pool.ts';

// The thin shell. Without stores files can still be checked and looked into.

const scope = self as unknown as DedicatedWorkerGlobalScope;

serveWorker<EvidenceContract>(
  scope,
  async () => {
    const host = createEvidenceHost({
      ...(await openStores()),
      utcMs: () => Date.now(),
      pause: () => new Promise((resolve) => setTimeout(resolve, 0)),
      locks: createWebLocks(),
      subtle: crypto.subtle,
      crypto: createRecordCrypto(crypto.subtle),
      post: (message) => scope.postMessage(message),
      software: SOFTWARE,
      catalogueOf: loadCatalogue,
      reduce: reduceInWorker,
      openPool: openPiecePool,
    });
    return host.receive;
  },
  evidenceCode,
);
