import type { EngineContract, EngineNews } from './messages.ts';
import { createSilenceWatch, type SilenceClock } from './silence.ts';
import { createWorkerClient, type WorkerClient, type WorkerLine } from './worker/client.ts';

/** The page's end of the engine: typed requests, news, and a watch over the engine's silence. */
export interface EngineClient extends Pick<WorkerClient<EngineContract>, 'ask' | 'close'> {
  /** Calls with every moment, event and beat; the returned function ends it. */
  on(listener: (news: EngineNews) => void): () => void;
  /** No moment has come for two seconds (before the first: nothing at all): what is on the screen is old and no alarm can come. */
  readonly silent: boolean;
  /** Calls on each change of `silent`. */
  onSilence(listener: (silent: boolean) => void): () => void;
}

export function createEngineClient(line: WorkerLine<EngineContract>, clock?: SilenceClock): EngineClient {
  const listeners = new Set<(news: EngineNews) => void>();
  const silence = createSilenceWatch(clock);
  const { ask, close } = createWorkerClient<EngineContract>({
    open: () => line,
    life: 'kept',
    heard: (message) => silence.heard(message.m === 'moment'),
    failed: silence.fell,
    news(news) {
      for (const listener of listeners) listener(news);
    },
  });

  return {
    ask,
    on(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    get silent() {
      return silence.silent;
    },
    onSilence: silence.on,
    close() {
      silence.end();
      close();
    },
  };
}

/** Starts the engine's worker. */
export function startEngine(): EngineClient {
  const worker = new Worker(new URL('./engine.worker.ts', import.meta.url), { type: 'module' });
  return createEngineClient(worker);
}
