import { LinkFault } from '../link/fault.ts';
import { StoreError } from '../record/stores/store.ts';
import type { EngineErrorCode } from './messages.ts';
import { RequestError } from './worker/request-error.ts';

/** A request that the engine cannot meet. */
export class EngineError extends RequestError<EngineErrorCode> {
  override readonly name = 'EngineError';
}

/** The code of anything that was thrown while a request was met. */
export function engineCode(cause: unknown): EngineErrorCode {
  if (cause instanceof EngineError || cause instanceof LinkFault || cause instanceof StoreError)
    return cause.code;
  return 'internal';
}
