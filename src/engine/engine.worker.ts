/// <reference lib="webworker" />
import { createWebSerialPort } from '../link/ports/webserial.ts';
import type { Timers } from '../link/timers.ts';
import { createIdbDocuments } from '../record/stores/idb-documents.ts';
import { createMemoryDocuments } from '../record/stores/memory-documents.ts';
import { createOpfsStore } from '../record/stores/opfs.ts';
import { StoreError } from '../record/stores/store.ts';
import type { OpenedPort } from './deps.ts';
import { detailOf, EngineError, engineCode } from './errors.ts';
import { createHost } from './host.ts';
import type { FromEngine, PortChoice, ToEngine } from './messages.ts';
import { createRefusingStore } from './refusing-store.ts';
import { SOFTWARE } from './version.ts';
import { createWebLocks } from './web-locks.ts';

// The thin shell: everything of the platform that the engine needs, and nothing else. What the page asks before
// the stores are open waits for them.

const scope = self as unknown as DedicatedWorkerGlobalScope;

const timers: Timers = {
  nowUs: () => performance.now() * 1000,
  after(ms, call) {
    const id = setTimeout(call, ms);
    return () => clearTimeout(id);
  },
};

const locks = createWebLocks();

async function openPort(choice: PortChoice, on: Timers): Promise<OpenedPort> {
  // The simulated site is large and a real job never needs it.
  if (choice.kind === 'rig') return (await import('./rig-feed.ts')).openRig(choice.options, on);
  const serial = (navigator as Navigator & { serial?: Serial }).serial;
  if (serial === undefined) throw new EngineError('open-failed', 'this browser has no Web Serial');
  return { port: createWebSerialPort(serial, choice, on), rig: null, speed: 1 };
}

async function start(): Promise<(message: ToEngine) => void> {
  // A store that does not open must not keep the guard from running.
  const [files, documents] = await Promise.all([
    createOpfsStore('runs').catch((cause: unknown) => {
      const code = cause instanceof StoreError ? cause.code : 'failed';
      return createRefusingStore(code, detailOf(cause));
    }),
    createIdbDocuments('steadybar').catch(() => createMemoryDocuments()),
  ]);
  const host = createHost({
    timers,
    utcMs: () => Date.now(),
    newId: () => crypto.randomUUID(),
    random16: () => crypto.getRandomValues(new Uint16Array(1))[0]!,
    files,
    documents,
    locks,
    openPort,
    post: (message: FromEngine) => scope.postMessage(message),
    software: SOFTWARE,
  });
  host.start();
  return (message) => host.receive(message);
}

const started = start();
scope.addEventListener('message', (event: MessageEvent<ToEngine>) => {
  started.then(
    (receive) => receive(event.data),
    (cause: unknown) => {
      const answer: FromEngine = {
        m: 'answer',
        id: event.data.id,
        ok: false,
        code: engineCode(cause),
        detail: detailOf(cause),
      };
      scope.postMessage(answer);
    },
  );
});
