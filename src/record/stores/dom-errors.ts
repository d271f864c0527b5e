import { StoreError, type StoreErrorCode } from './store.ts';

/** By name: an exception from another realm need not be an instance of this realm's Error. */
const CODES: Readonly<Record<string, StoreErrorCode>> = {
  QuotaExceededError: 'full',
  NotAllowedError: 'denied',
  SecurityError: 'denied',
  NoModificationAllowedError: 'busy',
  NotFoundError: 'missing',
  DataError: 'corrupt',
  NotReadableError: 'corrupt',
  VersionError: 'stale',
};

/** The StoreError of whatever the browser threw. */
export function storeErrorOf(error: unknown): StoreError {
  if (error instanceof StoreError) return error;
  const { name, message } = (typeof error === 'object' && error !== null ? error : {}) as {
    name?: unknown;
    message?: unknown;
  };
  const code = (typeof name === 'string' ? CODES[name] : undefined) ?? 'failed';
  return new StoreError(code, typeof message === 'string' ? message : String(error));
}
