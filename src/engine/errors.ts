import { LinkFault } from '../link/session.ts';
import { StoreError } from '../record/stores/store.ts';
import type { EngineErrorCode } from './messages.ts';

/** A request that cannot be met, with the code that the page turns into words. */
export class EngineError extends Error {
  override readonly name = 'EngineError';
  constructor(
    readonly code: EngineErrorCode,
    message: string,
  ) {
    super(message);
  }
}

/** The code of anything that was thrown while a request was met. */
export function engineCode(cause: unknown): EngineErrorCode {
  if (cause instanceof EngineError || cause instanceof LinkFault || cause instanceof StoreError)
    return cause.code;
  return 'internal';
}

export function detailOf(cause: unknown): string {
  return cause instanceof Error ? cause.message : String(cause);
}
