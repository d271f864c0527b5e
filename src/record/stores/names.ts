import { StoreError } from './store.ts';

/** Names that every store can keep: no path, no hidden file, nothing that a file system folds or reserves. */
const NAME = /^[a-z0-9][a-z0-9._-]{0,119}$/;

/** @throws StoreError 'denied' on a name that no store takes */
export function checkName(name: string): void {
  if (!NAME.test(name) || name.includes('..'))
    throw new StoreError('denied', `not a file name here: ${JSON.stringify(name)}`);
}

/** The bytes [offset, offset + length) exist; reading past the end is a fault of the caller. */
export function checkRange(size: number, offset: number, length: number): void {
  if (
    !Number.isSafeInteger(offset) ||
    !Number.isSafeInteger(length) ||
    offset < 0 ||
    length < 0 ||
    offset + length > size
  )
    throw new StoreError('failed', `no bytes ${offset}..${offset + length} in a file of ${size}`);
}

/** @throws StoreError 'failed' unless 0 <= size <= now */
export function checkCut(now: number, size: number): void {
  if (!Number.isSafeInteger(size) || size < 0 || size > now)
    throw new StoreError('failed', `a file of ${now} bytes can't be cut to ${size}`);
}
