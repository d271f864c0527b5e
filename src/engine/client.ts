import type { Answers, EngineErrorCode, FromEngine, Request, ToEngine } from './messages.ts';

/** A request that the engine refused; the code has a text in the catalogue. */
export class EngineFault extends Error {
  override readonly name = 'EngineFault';
  constructor(
    readonly code: EngineErrorCode,
    readonly detail: string,
  ) {
    super(`${code}: ${detail}`);
  }
}

export type EngineNews = Extract<FromEngine, { m: 'moment' | 'event' | 'beat' }>;

/** The page's end of the engine: typed requests, news, and a watch over the engine's silence. */
export interface EngineClient {
  /** Rejects with an EngineFault; when the engine died, with code 'internal'. */
  ask<R extends Request>(request: R): Promise<Answers[R['q']]>;
  /** Calls with every moment, event and beat; the returned function ends it. */
  on(listener: (news: EngineNews) => void): () => void;
  /** Nothing has come for two seconds: what is on the screen is old and no alarm can come. */
  readonly silent: boolean;
  /** Calls on each change of `silent`. */
  onSilence(listener: (silent: boolean) => void): () => void;
  close(): void;
}

/** What the client needs of a Worker. */
export interface EngineLine {
  postMessage(message: ToEngine): void;
  terminate(): void;
  addEventListener(type: 'message', listener: (event: MessageEvent<FromEngine>) => void): void;
  addEventListener(type: 'error' | 'messageerror', listener: (event: Event) => void): void;
}

export interface ClientClock {
  nowMs(): number;
  /** Calls again and again; the returned function ends it. */
  every(ms: number, call: () => void): () => void;
}

/** The engine beats twice a second. */
export const SILENT_MS = 2000;
const LOOK_MS = 500;

const pageClock: ClientClock = {
  nowMs: () => performance.now(),
  every(ms, call) {
    const id = setInterval(call, ms);
    return () => clearInterval(id);
  },
};

export function createEngineClient(line: EngineLine, clock: ClientClock = pageClock): EngineClient {
  const waiting = new Map<number, { resolve(value: unknown): void; reject(fault: EngineFault): void }>();
  const listeners = new Set<(news: EngineNews) => void>();
  const silenceListeners = new Set<(silent: boolean) => void>();
  let id = 0;
  let heardMs = clock.nowMs();
  let silent = false;

  function setSilent(next: boolean): void {
    if (next === silent) return;
    silent = next;
    for (const listener of silenceListeners) listener(next);
  }

  /** The worker ended on an error: nobody will answer. */
  function died(detail: string): void {
    setSilent(true);
    for (const { reject } of waiting.values()) reject(new EngineFault('internal', detail));
    waiting.clear();
  }

  line.addEventListener('message', ({ data }) => {
    heardMs = clock.nowMs();
    setSilent(false);
    if (data.m !== 'answer') {
      for (const listener of listeners) listener(data);
      return;
    }
    const asked = waiting.get(data.id);
    waiting.delete(data.id);
    if (data.ok) asked?.resolve(data.value);
    else asked?.reject(new EngineFault(data.code, data.detail));
  });
  line.addEventListener('error', (event) =>
    died(String((event as { message?: unknown }).message ?? 'error')),
  );
  line.addEventListener('messageerror', () => died('a message could not be read'));
  const stop = clock.every(LOOK_MS, () => {
    if (clock.nowMs() - heardMs > SILENT_MS) setSilent(true);
  });

  return {
    ask(request) {
      id++;
      const message = { id, request };
      return new Promise((resolve, reject) => {
        waiting.set(message.id, { resolve, reject });
        line.postMessage(message);
      });
    },
    on(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    get silent() {
      return silent;
    },
    onSilence(listener) {
      silenceListeners.add(listener);
      return () => silenceListeners.delete(listener);
    },
    close() {
      stop();
      line.terminate();
      died('closed');
    },
  };
}

/** Starts the engine's worker. */
export function startEngine(): EngineClient {
  const worker = new Worker(new URL('./engine.worker.ts', import.meta.url), { type: 'module' });
  return createEngineClient(worker);
}
