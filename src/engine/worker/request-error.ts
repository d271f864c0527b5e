/**
 * A request that cannot be met, with the code that the page turns into words: thrown where the request is met, and
 * again where it was asked.
 */
export class RequestError<Code extends string = string> extends Error {
  override readonly name: string = 'RequestError';
  constructor(
    readonly code: Code,
    readonly detail: string,
  ) {
    super(`${code}: ${detail}`);
  }
}

/** What a refusal says beside its code, of anything that was thrown. */
export function detailOf(cause: unknown): string {
  if (cause instanceof RequestError) return cause.detail;
  return cause instanceof Error ? cause.message : String(cause);
}
