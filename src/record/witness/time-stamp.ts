/**
 * Time stamps of RFC 3161: the request for one, and what an answer says. Whether the authority signed it is for
 * `openssl ts -verify`, which knows certificates; here it is held against what it was asked for.
 */
import { joinBytes, sameBytes } from '../bytes.ts';

/** An answer with a chain of certificates has some thousand bytes. */
export const MOST_STAMP_BYTES = 65_536;

const TAG = {
  boolean: 1,
  integer: 2,
  octets: 4,
  none: 5,
  oid: 6,
  sequence: 0x30,
  set: 0x31,
  time: 0x18,
} as const;

function der(tag: number, ...content: readonly Uint8Array[]): Uint8Array {
  const body = joinBytes([new Uint8Array(0), ...content]);
  const n = body.length;
  const length = n < 128 ? [n] : n < 256 ? [0x81, n] : [0x82, n >> 8, n & 255];
  return joinBytes([Uint8Array.of(tag, ...length), body]);
}

/** 2.16.840.1.101.3.4.2.1 */
const SHA256_OID = Uint8Array.of(0x60, 0x86, 0x48, 1, 0x65, 3, 4, 2, 1);
/** 1.2.840.113549.1.9.16.1.4, what a token holds: a TSTInfo. */
const TST_INFO_OID = Uint8Array.of(0x2a, 0x86, 0x48, 0x86, 0xf7, 0x0d, 1, 9, 16, 1, 4);

const imprintOf = (sha256: Uint8Array): Uint8Array =>
  der(TAG.sequence, der(TAG.sequence, der(TAG.oid, SHA256_OID), der(TAG.none)), der(TAG.octets, sha256));

/** A positive number's bytes as an INTEGER has them. */
function integer(bytes: Uint8Array): Uint8Array {
  let at = 0;
  while (at < bytes.length - 1 && bytes[at] === 0) at++;
  const rest = bytes.slice(at);
  return der(TAG.integer, rest[0]! > 127 ? joinBytes([Uint8Array.of(0), rest]) : rest);
}

/**
 * A TimeStampReq, DER, that asks for the authority's certificate too.
 * @param sha256 of what is to be stamped, 32 bytes
 * @param nonce eight random bytes
 */
export function stampRequest(sha256: Uint8Array, nonce: Uint8Array): Uint8Array {
  return der(
    TAG.sequence,
    der(TAG.integer, Uint8Array.of(1)),
    imprintOf(sha256),
    integer(nonce),
    der(TAG.boolean, Uint8Array.of(255)),
  );
}

interface Node {
  readonly tag: number;
  readonly body: Uint8Array;
}

const MOST_DEPTH = 12;

/** The nodes side by side in these bytes; null where they are no DER. */
function nodesIn(bytes: Uint8Array): readonly Node[] | null {
  const nodes: Node[] = [];
  let at = 0;
  while (at < bytes.length) {
    const tag = bytes[at]!;
    const first = bytes[at + 1];
    if (first === undefined || (tag & 31) === 31) return null;
    let [length, head] = [first, 2];
    if (first > 127) {
      const n = first & 127;
      if (n === 0 || n > 3) return null;
      length = 0;
      for (let i = 0; i < n; i++) {
        const b = bytes[at + 2 + i];
        if (b === undefined) return null;
        length = length * 256 + b;
      }
      head = 2 + n;
    }
    if (at + head + length > bytes.length) return null;
    nodes.push({ tag, body: bytes.subarray(at + head, at + head + length) });
    at += head + length;
  }
  return nodes;
}

/** The content that stands behind the OID of a TSTInfo, wherever in the token. */
function tstInfoIn(bytes: Uint8Array, depth = 0): Uint8Array | null {
  const nodes = depth > MOST_DEPTH ? null : nodesIn(bytes);
  if (nodes === null) return null;
  for (const [i, node] of nodes.entries()) {
    const next = nodes[i + 1];
    if (node.tag === TAG.oid && sameBytes(node.body, TST_INFO_OID) && next?.tag === 0xa0) {
      const [octets] = nodesIn(next.body) ?? [];
      if (octets?.tag === TAG.octets) return octets.body;
    }
    if ((node.tag & 0x20) !== 0) {
      const found = tstInfoIn(node.body, depth + 1);
      if (found !== null) return found;
    }
  }
  return null;
}

/** GeneralizedTime, with or without a fraction of the second; UTC in ms. */
function timeOf(text: string): number | null {
  const m = /^(\d{4})(\d\d)(\d\d)(\d\d)(\d\d)(\d\d)(\.\d{1,9})?Z$/.exec(text);
  if (m === null) return null;
  const ms = Date.parse(`${m[1]}-${m[2]}-${m[3]}T${m[4]}:${m[5]}:${m[6]}Z`);
  return Number.isFinite(ms) ? ms + Math.round(Number(m[7] ?? 0) * 1000) : null;
}

export interface Stamp {
  /** 32 bytes, SHA-256 of what was stamped. */
  readonly sha256: Uint8Array;
  /** UTC by the authority's clock. */
  readonly utcMs: number;
  /** As in the request; null: none. */
  readonly nonce: Uint8Array | null;
}

export type StampReading =
  | { readonly ok: true; readonly stamp: Stamp }
  /** `refused`: the authority granted none. `form`: no answer of RFC 3161, or not over a SHA-256. */
  | { readonly ok: false; readonly why: 'refused' | 'form' };

/** What a TimeStampResp, DER, says. Takes whatever bytes. */
export function readStamp(response: Uint8Array): StampReading {
  const form = { ok: false, why: 'form' } as const;
  if (response.length > MOST_STAMP_BYTES) return form;
  const [whole, more] = nodesIn(response) ?? [];
  if (whole?.tag !== TAG.sequence || more !== undefined) return form;
  const [status, token] = nodesIn(whole.body) ?? [];
  const [code] = status?.tag === TAG.sequence ? (nodesIn(status.body) ?? []) : [];
  if (code?.tag !== TAG.integer || code.body.length !== 1) return form;
  // 0 granted, 1 granted with modifications.
  if (code.body[0]! > 1) return { ok: false, why: 'refused' };
  const info = token === undefined ? null : tstInfoIn(token.body);
  const [sequence] = info === null ? [] : (nodesIn(info) ?? []);
  const parts = sequence?.tag === TAG.sequence ? nodesIn(sequence.body) : null;
  if (parts === null || parts === undefined) return form;
  const [, , imprint, , time, ...rest] = parts;
  const [algorithm, hash] = imprint?.tag === TAG.sequence ? (nodesIn(imprint.body) ?? []) : [];
  const [oid] = algorithm?.tag === TAG.sequence ? (nodesIn(algorithm.body) ?? []) : [];
  if (oid?.tag !== TAG.oid || !sameBytes(oid.body, SHA256_OID)) return form;
  if (hash?.tag !== TAG.octets || hash.body.length !== 32 || time?.tag !== TAG.time) return form;
  const utcMs = timeOf(new TextDecoder('latin1').decode(time.body));
  if (utcMs === null) return form;
  const nonce = rest.find((n) => n.tag === TAG.integer)?.body ?? null;
  return { ok: true, stamp: { sha256: hash.body.slice(), utcMs, nonce: nonce?.slice() ?? null } };
}

/** Whether an answer's nonce is the one that was asked with; one without a nonce is none. */
export const isNonce = (stamp: Stamp, nonce: Uint8Array): boolean =>
  stamp.nonce !== null && sameBytes(integer(nonce), der(TAG.integer, stamp.nonce));

/** What a TimeStampReq, DER, asks: the hash and the nonce; null for whatever is none of ours. */
export function readRequest(
  request: Uint8Array,
): { readonly sha256: Uint8Array; readonly nonce: Uint8Array } | null {
  const [whole] = request.length > MOST_STAMP_BYTES ? [] : (nodesIn(request) ?? []);
  const [version, imprint, nonce] = whole?.tag === TAG.sequence ? (nodesIn(whole.body) ?? []) : [];
  if (version?.tag !== TAG.integer || imprint?.tag !== TAG.sequence || nonce?.tag !== TAG.integer)
    return null;
  const [, hash] = nodesIn(imprint.body) ?? [];
  return hash?.tag === TAG.octets ? { sha256: hash.body.slice(), nonce: nonce.body.slice() } : null;
}
