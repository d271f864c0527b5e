import type { WorkerLine } from '../client.ts';
import type { Asked, Contract, FromWorker } from '../contract.ts';

/** A worker whose answers the test gives. */
export interface ScriptedLine<C extends Contract> {
  readonly line: WorkerLine<C>;
  readonly sent: Asked<C>[];
  readonly ended: boolean;
  say(message: FromWorker<C>): void;
  /** An error that the worker did not catch, or a message that could not be read. */
  fail(message: string | null): void;
}

export function createScriptedLine<C extends Contract>(): ScriptedLine<C> {
  const sent: Asked<C>[] = [];
  const listeners = new Map<string, (event: never) => void>();
  let ended = false;
  return {
    sent,
    line: {
      postMessage: (message) => sent.push(message),
      terminate() {
        ended = true;
      },
      addEventListener(type: string, listener: (event: never) => void) {
        listeners.set(type, listener);
      },
    },
    get ended() {
      return ended;
    },
    say: (data) => listeners.get('message')?.({ data } as never),
    fail: (message) => listeners.get(message === null ? 'messageerror' : 'error')?.({ message } as never),
  };
}
