import type { Answer, AnswerTo, Asked, Contract, FromWorker, Progress, RefusalCode } from './contract.ts';
import { RequestError } from './request-error.ts';

/** The page's end of a worker: each request is settled by its own answer, in whatever order they come. */
export interface WorkerClient<C extends Contract> {
  /** Rejects with a RequestError; when the worker failed or was ended, with code 'internal'. */
  ask<R extends C['request']>(request: R, onProgress?: (share: number) => void): Promise<AnswerTo<C, R['q']>>;
  /** Ends the worker, whatever it is at: all that it was asked is refused with this. `as-needed`: the next request starts another. */
  stop(code: RefusalCode<C>, detail: string): void;
  /** Ends the worker. */
  close(): void;
}

/** What the client needs of a Worker. */
export interface WorkerLine<C extends Contract> {
  postMessage(message: Asked<C>): void;
  terminate(): void;
  addEventListener(type: 'message', listener: (event: MessageEvent<FromWorker<C>>) => void): void;
  addEventListener(type: 'error' | 'messageerror', listener: (event: Event) => void): void;
}

export interface WorkerLife<C extends Contract> {
  open(): WorkerLine<C>;
  /**
   * `kept`: opened at once and never replaced, whatever happens to it, since it holds what no other has (a run).
   * `as-needed`: opened at the first request, and anew at the next one after it failed.
   */
  readonly life: 'kept' | 'as-needed';
  /** Anything came: it lives. Called before what came is handed on. */
  heard?(message: FromWorker<C>): void;
  news?(news: C['news']): void;
  /** It failed or was ended, and answers nothing that was asked before. Called before the refusals. */
  failed?(): void;
}

interface Waiting {
  resolve(value: unknown): void;
  reject(error: RequestError): void;
  readonly onProgress: ((share: number) => void) | undefined;
}

const isAnswer = <C extends Contract>(m: FromWorker<C>): m is Answer<C> => m.m === 'answer';
const isProgress = <C extends Contract>(m: FromWorker<C>): m is Progress => m.m === 'progress';

export function createWorkerClient<C extends Contract>(worker: WorkerLife<C>): WorkerClient<C> {
  const waiting = new Map<number, Waiting>();
  let line: WorkerLine<C> | null = null;
  let id = 0;

  function take(message: FromWorker<C>): void {
    worker.heard?.(message);
    if (isAnswer(message)) {
      const asked = waiting.get(message.id);
      waiting.delete(message.id);
      if (message.ok) asked?.resolve(message.value);
      else asked?.reject(new RequestError(message.code, message.detail));
    } else if (isProgress(message)) {
      waiting.get(message.id)?.onProgress?.(message.share);
    } else {
      worker.news?.(message);
    }
  }

  function refuseAll(code: RefusalCode<C>, detail: string): void {
    worker.failed?.();
    for (const { reject } of waiting.values()) reject(new RequestError(code, detail));
    waiting.clear();
  }

  function failed(detail: string): void {
    if (worker.life === 'as-needed') {
      line?.terminate();
      line = null;
    }
    refuseAll('internal', detail);
  }

  function start(): WorkerLine<C> {
    const started = worker.open();
    started.addEventListener('message', ({ data }) => take(data));
    started.addEventListener('error', (e) => failed(String((e as { message?: unknown }).message ?? 'error')));
    started.addEventListener('messageerror', () => failed('a message could not be read'));
    line = started;
    return started;
  }

  if (worker.life === 'kept') start();

  return {
    ask(request, onProgress) {
      const message = { id: ++id, request };
      return new Promise((resolve, reject) => {
        waiting.set(message.id, { resolve, reject, onProgress });
        (line ?? start()).postMessage(message);
      });
    },
    stop(code, detail) {
      line?.terminate();
      line = null;
      refuseAll(code, detail);
    },
    close() {
      line?.terminate();
      refuseAll('internal', 'closed');
    },
  };
}
