/// <reference lib="webworker" />
import { createPortClaims } from '../link/ports/claims.ts';
import { createWebSerialPort } from '../link/ports/webserial.ts';
import type { Timers } from '../link/timers.ts';
import type { OpenedPort } from './deps.ts';
import { EngineError, engineCode } from './errors.ts';
import { createHost } from './host.ts';
import type { EngineContract, PortChoice } from './messages.ts';
import { SOFTWARE } from './version.ts';
import { serveWorker } from './worker/shell.ts';
import { openStores } from './worker/stores.ts';
import { createWebLocks } from './worker/web-locks.ts';

// The thin shell: everything of the platform that the engine needs, and nothing else.

const scope = self as unknown as DedicatedWorkerGlobalScope;

const timers: Timers = {
  nowUs: () => performance.now() * 1000,
  after(ms, call) {
    const id = setTimeout(call, ms);
    return () => clearTimeout(id);
  },
};

const claims = createPortClaims<SerialPort>();

async function openPort(choice: PortChoice, on: Timers): Promise<OpenedPort> {
  // The simulated site is large and a real job never needs it.
  if (choice.kind === 'rig') return (await import('./rig-feed.ts')).openRig(choice.options, on);
  const serial = (navigator as Navigator & { serial?: Serial }).serial;
  if (serial === undefined) throw new EngineError('open-failed', 'this browser has no Web Serial');
  const claim = claims.claim(choice, choice.map === undefined);
  const port = createWebSerialPort(serial, choice, on, claims, claim);
  return { port, rig: null, speed: 1, giveUp: claim.giveUp };
}

serveWorker<EngineContract>(
  scope,
  async () => {
    const host = createHost({
      ...(await openStores()),
      timers,
      utcMs: () => Date.now(),
      newId: () => crypto.randomUUID(),
      random16: () => crypto.getRandomValues(new Uint16Array(1))[0]!,
      locks: createWebLocks(),
      openPort,
      post: (message) => scope.postMessage(message),
      software: SOFTWARE,
    });
    host.start();
    return host.receive;
  },
  engineCode,
);
