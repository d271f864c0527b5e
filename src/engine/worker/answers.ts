import type { AnswerTo, Asked, Contract, FromWorker, RefusalCode, RequestName } from './contract.ts';
import { detailOf } from './request-error.ts';

/** Long work tells its share, 0…1, and lets other messages in. */
export type Tell = (share: number) => Promise<void>;

/** One for each request, so that the compiler names one that is missing. */
export type Handlers<C extends Contract> = {
  readonly [Q in RequestName<C>]: (
    request: Extract<C['request'], { q: Q }>,
    tell: Tell,
  ) => AnswerTo<C, Q> | Promise<AnswerTo<C, Q>>;
};

export interface AnswerSite<C extends Contract> {
  readonly handlers: Handlers<C>;
  /** The code of anything that a handler threw. */
  codeOf(cause: unknown): RefusalCode<C>;
  post(message: FromWorker<C>): void;
  /** Settles once other messages had their turn. */
  pause(): Promise<void>;
}

/** Progress in smaller steps than this is not told. */
const PROGRESS_STEP = 0.01;

/** Meets each request by its handler and answers it exactly once, whatever comes. The returned function never rejects. */
export function createAnswers<C extends Contract>(site: AnswerSite<C>): (message: Asked<C>) => Promise<void> {
  function handlerOf(q: unknown): ((request: C['request'], tell: Tell) => unknown) | null {
    if (typeof q !== 'string' || !Object.hasOwn(site.handlers, q)) return null;
    return site.handlers[q as RequestName<C>] as (request: C['request'], tell: Tell) => unknown;
  }

  return async ({ id, request }) => {
    let told = 0;
    const tell: Tell = async (share) => {
      if (share - told >= PROGRESS_STEP) {
        told = share;
        site.post({ m: 'progress', id, share });
      }
      await site.pause();
    };
    const refuse = (code: RefusalCode<C>, detail: string): void =>
      site.post({ m: 'answer', id, ok: false, code, detail });
    // A message from an older page may be anything.
    const q = (request as C['request'] | null | undefined)?.q;
    const handler = handlerOf(q);
    if (handler === null) {
      refuse('bad-request', `no request ${String(q)}`);
      return;
    }
    try {
      site.post({ m: 'answer', id, ok: true, value: await handler(request, tell) });
    } catch (cause) {
      refuse(site.codeOf(cause), detailOf(cause));
    }
  };
}
