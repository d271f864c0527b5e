import type { Answers, FromEngine, Request } from '../../src/engine/messages.ts';
import { type Asked, type Done, type Order, START_UTC_MS, type Stamped } from './orders.ts';
import { USB_IDS } from './worker/site.ts';

// Stands before the page's own scripts: the page's wall clock is the engine's, the chooser of ports gives the simulated
// site's, and the stand can speak with the engine's worker. All that is drawn is the page's own.

export interface PageHook {
  order(order: Order): Promise<unknown>;
  ask<R extends Request>(request: R): Promise<Answers[R['q']]>;
  /** The newest moment that the page was shown. */
  moment(): Extract<FromEngine, { readonly m: 'moment' }> | null;
}

/** Numbers of the stand's own requests: far over the page's. */
const FIRST_ASKED = 1_000_000_000;

let utcMs = START_UTC_MS;
const OwnDate = Date;
class StandDate extends OwnDate {
  constructor(...args: [] | [number | string | Date]) {
    if (args.length === 0) super(utcMs);
    // Every form with arguments is the platform's own.
    else super(...(args as [number]));
  }
  static override now(): number {
    return utcMs;
  }
}
globalThis.Date = StandDate as DateConstructor;

if ('serial' in navigator) {
  const port = { getInfo: () => USB_IDS, connected: true } as unknown as SerialPort;
  const host = navigator.serial;
  Object.defineProperties(host, {
    getPorts: { value: async () => [port] },
    requestPort: { value: async () => port },
  });
}

interface Waiting {
  resolve(value: unknown): void;
  reject(error: Error): void;
}

const waiting = new Map<number, Waiting>();
let engine: Worker | null = null;
let moment: Extract<FromEngine, { readonly m: 'moment' }> | null = null;
let asked = FIRST_ASKED;

function hear(event: MessageEvent<Stamped | FromEngine | Done>): void {
  const { data } = event;
  if ('stand' in data) {
    event.stopImmediatePropagation();
    settle(data.stand, data.ok, data.value);
    return;
  }
  if ('standUtcMs' in data && data.standUtcMs !== undefined) utcMs = data.standUtcMs;
  if (data.m === 'moment') moment = data;
  if (data.m === 'answer' && data.id >= FIRST_ASKED) {
    event.stopImmediatePropagation();
    settle(data.id, data.ok, data.ok ? data.value : `${data.code}: ${data.detail}`);
  }
}

function settle(id: number, ok: boolean, value: unknown): void {
  const asker = waiting.get(id);
  waiting.delete(id);
  if (ok) asker?.resolve(value);
  else asker?.reject(new Error(String(value)));
}

const OwnWorker = Worker;
globalThis.Worker = class extends OwnWorker {
  constructor(url: string | URL, options?: WorkerOptions) {
    super(url, options);
    if (!String(url).includes('engine.worker')) return;
    engine = this;
    this.addEventListener('message', hear);
  }
};

function send(message: (id: number) => object): Promise<unknown> {
  return new Promise((resolve, reject) => {
    if (engine === null) {
      reject(new Error('the page has no engine yet'));
      return;
    }
    const id = asked++;
    waiting.set(id, { resolve, reject });
    engine.postMessage(message(id));
  });
}

const hook: PageHook = {
  order: (order) => send((stand) => ({ stand, order }) satisfies Asked),
  ask: (request) => send((id) => ({ id, request })) as never,
  moment: () => moment,
};
// The second is a helper for names that a compiler puts into functions, which those that are sent to the page miss there.
Object.assign(globalThis, { stand: hook, __name: (named: unknown) => named });
