import type { Asked, Contract, FromWorker, RefusalCode } from './contract.ts';
import { detailOf } from './request-error.ts';

/** What the shell needs of a worker's global scope. */
export interface WorkerScope<C extends Contract> {
  postMessage(message: FromWorker<C>): void;
  addEventListener(type: 'message', listener: (event: MessageEvent<Asked<C>>) => void): void;
}

/**
 * Hands the page's requests to what `start` gives. What is asked before that is there waits for it; where it cannot
 * be had, each request is refused with the cause.
 */
export function serveWorker<C extends Contract>(
  scope: WorkerScope<C>,
  start: () => Promise<(message: Asked<C>) => void>,
  codeOf: (cause: unknown) => RefusalCode<C>,
): void {
  const started = start();
  scope.addEventListener('message', ({ data }) => {
    started.then(
      (receive) => receive(data),
      (cause: unknown) =>
        scope.postMessage({
          m: 'answer',
          id: data.id,
          ok: false,
          code: codeOf(cause),
          detail: detailOf(cause),
        }),
    );
  });
}
