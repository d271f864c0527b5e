/// <reference lib="webworker" />

import { createRefusingStore } from '../engine/refusing-store.ts';
import { SOFTWARE } from '../engine/version.ts';
import { createWebLocks } from '../engine/web-locks.ts';
import { createRecordCrypto } from '../record/signing.ts';
import { createIdbDocuments } from '../record/stores/idb-documents.ts';
import { createMemoryDocuments } from '../record/stores/memory-documents.ts';
import { createOpfsStore } from '../record/stores/opfs.ts';
import { StoreError } from '../record/stores/store.ts';
import { detailOf, evidenceCode } from './faults.ts';
import { createEvidenceHost } from './host.ts';
import type { FromEvidence, ToEvidence } from './messages.ts';

// The thin shell. Without stores (a private window) files can still be checked and looked into.

const scope = self as unknown as DedicatedWorkerGlobalScope;

async function start(): Promise<(message: ToEvidence) => void> {
  const [files, documents] = await Promise.all([
    createOpfsStore('runs').catch((cause: unknown) =>
      createRefusingStore(cause instanceof StoreError ? cause.code : 'failed', detailOf(cause)),
    ),
    createIdbDocuments('steadybar').catch(() => createMemoryDocuments()),
  ]);
  const host = createEvidenceHost({
    utcMs: () => Date.now(),
    pause: () => new Promise((resolve) => setTimeout(resolve, 0)),
    files,
    documents,
    locks: createWebLocks(),
    subtle: crypto.subtle,
    crypto: createRecordCrypto(crypto.subtle),
    post: (message: FromEvidence) => scope.postMessage(message),
    software: SOFTWARE,
  });
  return (message) => host.receive(message);
}

const started = start();
scope.addEventListener('message', (event: MessageEvent<ToEvidence>) => {
  started.then(
    (receive) => receive(event.data),
    (cause: unknown) => {
      const answer: FromEvidence = {
        m: 'answer',
        id: event.data.id,
        ok: false,
        code: evidenceCode(cause),
        detail: detailOf(cause),
      };
      scope.postMessage(answer);
    },
  );
});
