import { detailOf, engineCode } from '../engine/errors.ts';
import type { EvidenceErrorCode } from './error-codes.ts';

/** A request about a record that cannot be met, with the code that the page turns into words. */
export class EvidenceError extends Error {
  override readonly name = 'EvidenceError';
  constructor(
    readonly code: EvidenceErrorCode,
    message: string,
  ) {
    super(message);
  }
}

export const evidenceCode = (cause: unknown): EvidenceErrorCode =>
  cause instanceof EvidenceError ? cause.code : engineCode(cause);

export { detailOf };
