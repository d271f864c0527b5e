/**
 * The input-log entries that do not fit the sample columns, as lines of JSON: one array an entry,
 * `[samplesBefore, tUs, kind, …]`. Device frames are kept as their canonical line without its LF, stray bytes in
 * hex, so that a person can read the page with a text viewer.
 */

import type { ReadingMap } from '../job/reading-map.ts';
import { encodeFrame } from '../link/encode.ts';
import { type DeviceFrame, STRAY_REASONS } from '../link/frames.ts';
import type { Raw, RawPart } from '../link/maps/raw.ts';
import { parseFrame } from '../link/parse.ts';
import type { WatchEvent } from '../watch/events.ts';
import { fromHex, toHex } from './hex.ts';
import type { PageFormat } from './layout.ts';
import type { LogEntry, LogHead } from './log.ts';
import { isUtcMs } from './utc.ts';

/** What the sample that follows was made of: it stands among the texts, the sample among the columns where it fits there. */
export interface RawText {
  readonly l: 'raw';
  readonly tUs: number;
  readonly raw: Raw;
}

/** What is kept as a text. */
export type TextEntry = LogEntry | RawText;

/** A text and the number of the page's samples that came before it. */
export interface PlacedEntry {
  readonly samplesBefore: number;
  readonly entry: TextEntry;
}

const ascii = new TextDecoder();
const utf8 = new TextEncoder();
const COMMA = 0x2c;

/** The line without its LF. */
export function entryLine(samplesBefore: number, entry: TextEntry): string {
  const at = [samplesBefore, entry.tUs, entry.l];
  switch (entry.l) {
    case 'frame':
      return JSON.stringify([
        ...at,
        ascii.decode(encodeFrame(entry.frame)).slice(0, -1),
        ...(entry.map === undefined ? [] : [entry.map]),
      ]);
    case 'beside':
      return JSON.stringify([
        ...at,
        ascii.decode(encodeFrame(entry.frame)).slice(0, -1),
        ...(entry.map === undefined ? [] : [entry.map]),
        // Its samples stand here and in no columns: what one was made of stands with it.
        ...(entry.raw === undefined ? [] : [rawText(entry.raw)]),
      ]);
    case 'raw':
      return JSON.stringify([...at, rawText(entry.raw)]);
    case 'stray':
    case 'beside-stray':
      return JSON.stringify([...at, entry.reason, toHex(entry.bytes)]);
    case 'setup':
      return JSON.stringify([...at, entry.setup]);
    case 'command':
      return JSON.stringify([...at, entry.command]);
    case 'notice':
      return JSON.stringify([...at, entry.notice]);
    case 'state':
      return JSON.stringify([...at, entry.state]);
  }
}

/** The number of each request before the bytes that answered it, in hex. */
const rawText = (raw: Raw): string => raw.map(({ ask, bytes }) => `${ask}:${toHex(bytes)}`).join(' ');

const RAW_PART = /^(0|[1-9]\d{0,2}):((?:[0-9a-f]{2})+)$/;

function rawOf(text: string): Raw | null {
  const raw: RawPart[] = [];
  for (const part of text.split(' ')) {
    const m = RAW_PART.exec(part);
    const bytes = m === null ? null : fromHex(m[2]!);
    if (m === null || bytes === null) return null;
    raw.push({ ask: Number(m[1]), bytes });
  }
  return raw;
}

/** The frame of a canonical line without its LF, or null when it is not one, CRC included. */
export function frameOfLine(line: string): DeviceFrame | null {
  const bytes = utf8.encode(`${line}\n`);
  const frame = parseFrame(bytes, 0, bytes.lastIndexOf(COMMA) + 1);
  if (frame === null || frame.t === 'K') return null;
  const again = encodeFrame(frame);
  if (again.length !== bytes.length || again.some((b, i) => b !== bytes[i])) return null;
  return frame;
}

const isRecord = (v: unknown): v is Record<string, unknown> =>
  typeof v === 'object' && v !== null && !Array.isArray(v);
const isTime = (v: unknown): v is number => typeof v === 'number' && Number.isSafeInteger(v) && v >= 0;

/** Deeper than any entry, and shallow enough to be walked through. */
const MAX_DEPTH = 32;

/** JSON can write numbers that are none when they are read, and nest without end. */
function isBounded(value: unknown, depth = 0): boolean {
  if (typeof value === 'number') return Number.isFinite(value);
  if (typeof value !== 'object' || value === null) return true;
  if (depth === MAX_DEPTH) return false;
  for (const member of Array.isArray(value) ? value : Object.values(value))
    if (!isBounded(member, depth + 1)) return false;
  return true;
}

/** undefined where it is no JSON, or JSON beyond these bounds. */
function parseJson(text: string): unknown {
  try {
    const value: unknown = JSON.parse(text);
    return isBounded(value) ? value : undefined;
  } catch {
    return undefined;
  }
}

/**
 * Reads one line; null when it is not an entry of this format. Setups, commands and notices are checked for
 * being what they claim to be; their members are for their own schemas.
 */
export function parseEntryLine(line: string): PlacedEntry | null {
  const row = parseJson(line);
  if (!Array.isArray(row) || row.length < 4) return null;
  const [samplesBefore, tUs, kind, body, extra] = row as unknown[];
  if (!isTime(samplesBefore) || !isTime(tUs)) return null;
  const isStray = kind === 'stray' || kind === 'beside-stray';
  const more = isStray || ((kind === 'frame' || kind === 'beside') && extra !== undefined);
  if (row.length !== (more ? 5 : 4)) return null;
  const entry = isKind(kind) ? READ[kind](tUs, body, extra) : null;
  return entry === null ? null : { samplesBefore, entry };
}

type Of<L extends TextEntry['l']> = Extract<TextEntry, { l: L }>;

/** How the members after the kind are read; null where they are not of this format. */
const READ: {
  readonly [L in TextEntry['l']]: (tUs: number, body: unknown, extra: unknown) => Of<L> | null;
} = {
  frame(tUs, body, extra) {
    const frame = typeof body === 'string' ? frameOfLine(body) : null;
    if (frame === null || extra === undefined) return frame === null ? null : { l: 'frame', tUs, frame };
    if (frame.t !== 'H' || !isRecord(extra)) return null;
    return { l: 'frame', tUs, frame, map: extra as unknown as ReadingMap };
  },
  beside(tUs, body, extra) {
    const frame = typeof body === 'string' ? frameOfLine(body) : null;
    if (frame === null || extra === undefined) return frame === null ? null : { l: 'beside', tUs, frame };
    if (frame.t === 'H' && isRecord(extra))
      return { l: 'beside', tUs, frame, map: extra as unknown as ReadingMap };
    const raw = frame.t === 'S' && typeof extra === 'string' ? rawOf(extra) : null;
    return raw === null ? null : { l: 'beside', tUs, frame, raw };
  },
  raw(tUs, body) {
    const raw = typeof body === 'string' ? rawOf(body) : null;
    return raw === null ? null : { l: 'raw', tUs, raw };
  },
  stray: (tUs, body, extra) => strayOf('stray', tUs, body, extra),
  'beside-stray': (tUs, body, extra) => strayOf('beside-stray', tUs, body, extra),
  setup(tUs, body) {
    if (!isRecord(body) || !isTime(body.number) || !Array.isArray(body.channels)) return null;
    return { l: 'setup', tUs, setup: body } as unknown as Of<'setup'>;
  },
  command(tUs, body) {
    if (!isRecord(body) || typeof body.c !== 'string') return null;
    return { l: 'command', tUs, command: body } as unknown as Of<'command'>;
  },
  notice(tUs, body) {
    if (!isRecord(body) || typeof body.n !== 'string') return null;
    return { l: 'notice', tUs, notice: body } as unknown as Of<'notice'>;
  },
  state(tUs, body) {
    if (!isRecord(body) || !isTime(body.form) || !isTime(body.samples) || !isRecord(body.run)) return null;
    return { l: 'state', tUs, state: body } as unknown as Of<'state'>;
  },
};

function strayOf<L extends 'stray' | 'beside-stray'>(l: L, tUs: number, body: unknown, extra: unknown) {
  const reason = STRAY_REASONS.find((r) => r === body);
  const bytes = typeof extra === 'string' ? fromHex(extra) : null;
  return reason === undefined || bytes === null ? null : { l, tUs, reason, bytes };
}

/** Kinds that a page of format 1 does not hold: an entry of a second source would be taken for none. */
const isOfBeside = ({ l }: TextEntry): boolean => l === 'beside' || l === 'beside-stray';

/** The least format of a page in which such an entry stands. */
export const formatFor = (entry: TextEntry): PageFormat =>
  entry.l === 'state' ? 3 : isOfBeside(entry) ? 2 : 1;

const isKind = (kind: unknown): kind is TextEntry['l'] =>
  typeof kind === 'string' && Object.hasOwn(READ, kind);

export const eventLine = (event: WatchEvent): string => JSON.stringify(event);

export function parseEventLine(line: string): WatchEvent | null {
  const body = parseJson(line);
  if (!isRecord(body) || typeof body.e !== 'string' || typeof body.tUs !== 'number') return null;
  return body as unknown as WatchEvent;
}

/** Engines are counted from 1: what claims to be by none can't be judged again by any. */
export const isEngine = (v: unknown): v is number =>
  typeof v === 'number' && Number.isSafeInteger(v) && v >= 1;

const HASH = /^[0-9a-f]{64}$/;

export function parseHead(text: string): LogHead | null {
  const h = parseJson(text);
  if (!isRecord(h)) return null;
  if (h.format !== 1 || !isEngine(h.engine) || typeof h.practice !== 'boolean') return null;
  if (typeof h.runId !== 'string' || typeof h.software !== 'string') return null;
  if (h.jobId !== null && typeof h.jobId !== 'string') return null;
  if (h.utcMs !== null && !isUtcMs(h.utcMs)) return null;
  if (h.seen !== undefined && !(typeof h.seen === 'string' && HASH.test(h.seen))) return null;
  return h as unknown as LogHead;
}
