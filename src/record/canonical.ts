/** JSON in the one form of RFC 8785, as bytes; what is signed is these bytes. */
import canonicalize from 'canonicalize';

export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

const MAX_DEPTH = 64;
/** A half of a surrogate pair on its own: I-JSON has no such text. */
const LONE = /[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/**
 * A copy that is JSON and nothing else: undefined members left out, -0 made 0, broken text mended with U+FFFD.
 * @throws RangeError on a number that is not finite, a value that JSON does not have, or nesting beyond bounds
 */
export function toJson(value: unknown, depth = 0): Json {
  if (depth > MAX_DEPTH) throw new RangeError('nested too deep');
  if (value === null || typeof value === 'boolean') return value;
  if (typeof value === 'string') return value.replace(LONE, '\ufffd');
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new RangeError(`${value} is no number of JSON`);
    return value === 0 ? 0 : value;
  }
  if (Array.isArray(value)) return value.map((v) => toJson(v ?? null, depth + 1));
  if (typeof value === 'object') {
    const out: Record<string, Json> = Object.create(null) as Record<string, Json>;
    for (const [key, v] of Object.entries(value))
      if (v !== undefined) out[key.replace(LONE, '\ufffd')] = toJson(v, depth + 1);
    return out;
  }
  throw new RangeError(`a ${typeof value} is not JSON`);
}

/** @throws RangeError as toJson */
export function canonicalText(value: unknown): string {
  return canonicalize(toJson(value)) as string;
}

export function canonicalBytes(value: unknown): Uint8Array {
  return new TextEncoder().encode(canonicalText(value));
}

/**
 * Reads bytes that must be canonical JSON: what does not come out the same again was not.
 * @returns undefined when they are not
 */
export function parseCanonical(bytes: Uint8Array): Json | undefined {
  try {
    const text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
    const value = JSON.parse(text) as Json;
    return canonicalText(value) === text ? value : undefined;
  } catch {
    return undefined;
  }
}
