import { StoreError } from './store.ts';

/** Opening a store, a lock, a word about the storage: what works at all has answered long before, ms. */
export const ANSWER_MS = 3000;
/** One row or one file, durable when it settles: a slow card under load takes seconds, ms. */
export const WORK_MS = 10_000;

/**
 * What the work gives, or a refusal where it does not settle in time: a browser's storage can hang without a word, and
 * nothing of the guard may wait for it.
 * @throws StoreError 'silent'
 */
export function within<T>(ms: number, what: string, work: Promise<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    const late = setTimeout(
      () => reject(new StoreError('silent', `no answer from ${what} for ${ms / 1000} s`)),
      ms,
    );
    work.then(resolve, reject).finally(() => clearTimeout(late));
  });
}
