import { engineCode } from '../engine/errors.ts';
import { RequestError } from '../engine/worker/request-error.ts';
import type { EvidenceErrorCode } from './error-codes.ts';

/** A request about a record that cannot be met. */
export class EvidenceError extends RequestError<EvidenceErrorCode> {
  override readonly name = 'EvidenceError';
}

export const evidenceCode = (cause: unknown): EvidenceErrorCode =>
  cause instanceof EvidenceError ? cause.code : engineCode(cause);
