/// <reference lib="webworker" />
import type { FromEngine } from '../../../src/engine/messages.ts';
import type { WatchView } from '../../../src/watch/view.ts';
import { type Asked, type Done, type Order, START_UTC_MS, type Until } from '../orders.ts';
import { createClock } from './clock.ts';
import { again, joinMoments, type Moment } from './moments.ts';
import { createSerialSite } from './site.ts';
import { watchStorage } from './storage.ts';

// Stands before the engine's own first line: gives it a clock that can be held, serial ports with a simulated site on
// them, and joins the pictures of time that passes fast. The engine's code behind it is the built one.

const scope = self as unknown as DedicatedWorkerGlobalScope;

/** While time passes fast the page is shown a picture this often, and while it stands still too: it must not think the engine dead. */
const SHOW_MS = 400;

/** Links of a chain of promises that settle between two calls. */
const PROMISE_TURNS = 20;
/** Calls are made at a stretch for so long before messages get their turn, ms of real time. */
const STRETCH_MS = 20;

let passing = false;
let turnedMs = 0;

const realNow = performance.now.bind(performance);
const realTimeout = setTimeout.bind(scope);
const realClear = clearTimeout.bind(scope);
const realInterval = setInterval.bind(scope);
const post = scope.postMessage.bind(scope);

const channel = new MessageChannel();
const turns: (() => void)[] = [];
channel.port1.onmessage = () => turns.shift()?.();
const storage = watchStorage(realNow, realTimeout);
const clock = createClock({
  nowMs: realNow,
  setTimeout: (call, ms) => realTimeout(call, ms) as unknown as number,
  clearTimeout: realClear,
  async turn() {
    // Chains of promises, streams among them, settle between two calls; messages get their turn now and then, for
    // each costs more than a call.
    for (let i = 0; i < PROMISE_TURNS; i++) await null;
    if (!storage.waits && passing && realNow() - turnedMs < STRETCH_MS) return;
    await new Promise<void>((resolve) => {
      turns.push(resolve);
      channel.port2.postMessage(null);
    });
    await storage.quiet();
    turnedMs = realNow();
  },
});
const startMs = clock.nowMs();
const utcMs = () => Math.floor(START_UTC_MS + clock.nowMs() - startMs);

performance.now = () => clock.nowMs();
Date.now = utcMs;
const timeout = (call: () => void, ms = 0) => clock.after(ms, call);
const interval = (call: () => void, ms = 0) => clock.after(ms, call, ms);
const cancel = (id?: number) => clock.cancel(id ?? 0);
Object.assign(scope, {
  setTimeout: timeout,
  setInterval: interval,
  clearTimeout: cancel,
  clearInterval: cancel,
  // A helper for names that a compiler puts into functions, which the text of a function misses here.
  __name: (named: unknown) => named,
});

const serial = createSerialSite(clock);
Object.defineProperty(navigator, 'serial', { value: serial, configurable: true });

let refusal: string | null = null;
const { write } = FileSystemSyncAccessHandle.prototype;
FileSystemSyncAccessHandle.prototype.write = function (...args) {
  if (refusal !== null) throw new DOMException('refused', refusal);
  return write.apply(this, args);
};

let shownMs = 0;
let waiting: Moment | null = null;
let last: Moment | null = null;
let view: WatchView | null = null;

function show(message: FromEngine): void {
  post({ ...message, standUtcMs: utcMs() });
}

function showWaiting(): void {
  if (waiting === null) return;
  show(waiting);
  waiting = null;
  shownMs = realNow();
}

function tell(message: FromEngine): void {
  if (message.m === 'beat' && passing) return;
  if (message.m !== 'moment') {
    // What happened stays behind the picture that it happened after.
    showWaiting();
    show(message);
    return;
  }
  view = message.view;
  last = message;
  const both = waiting === null ? message : joinMoments(waiting, message);
  if (both === null) showWaiting();
  waiting = both ?? message;
  if (!passing || realNow() - shownMs > SHOW_MS) showWaiting();
}

scope.postMessage = ((message: FromEngine) => tell(message)) as typeof scope.postMessage;

realInterval(() => {
  if (!clock.held || passing) return;
  show(last === null ? { m: 'beat', utcMs: utcMs() } : again(last));
}, SHOW_MS);

async function obey(order: Order): Promise<unknown> {
  switch (order.o) {
    case 'hold':
      clock.hold();
      return null;
    case 'pass': {
      const until = order.until === null ? null : (new Function(`return ${order.until}`)() as Until);
      passing = true;
      try {
        return await clock.pass(order.ms, () => until !== null && view !== null && until(view));
      } finally {
        passing = false;
        showWaiting();
      }
    }
    case 'attach':
      serial.attach(order.device);
      return null;
    case 'hand':
      serial.device().hand(order.hand);
      return null;
    case 'fault':
      serial.device().fault(order.fault);
      return null;
    case 'refuse':
      refusal = order.name;
      return null;
  }
}

scope.addEventListener('message', (event: MessageEvent<Partial<Asked>>) => {
  const { stand, order } = event.data;
  if (stand === undefined || order === undefined) return;
  event.stopImmediatePropagation();
  obey(order).then(
    (value) => post({ stand, ok: true, value } satisfies Done),
    (error: unknown) => post({ stand, ok: false, value: String(error) } satisfies Done),
  );
});
