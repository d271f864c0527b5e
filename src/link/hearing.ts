import { createDecoder } from './decode.ts';
import type { StrayReason } from './frames.ts';
import { DEVICE_LETTERS, LF } from './grammar.ts';
import type { LinkError } from './status.ts';

/** Why what comes is no frame. 'no-hello': nothing came that is worth a word. */
export type HeardCode = Extract<
  LinkError,
  'no-hello' | 'line-ends' | 'check' | 'form' | 'speed' | 'not-protocol'
>;

/** What came instead of frames. */
export interface Heard {
  readonly code: HeardCode;
  /** The newest line that shows it: printable and at most LINE_SHOWN characters; null: none. */
  readonly line: string | null;
}

/** Listens to bytes that are no frames, and says what is the matter with them. */
export interface Hearing {
  stray(reason: StrayReason, bytes: Uint8Array): void;
  /** The system said that the signal on the line was not readable (framing, parity, break). */
  disturbed(): void;
  /** A frame came: what was before it explains nothing any more. */
  forget(): void;
  readonly heard: Heard;
}

/** A line of the protocol has 128 bytes at most; more of it than this helps nobody on a phone. */
export const LINE_SHOWN = 96;
/** Fewer stray bytes are the click of an opening port (common practice, no source). */
const CLICK_BYTES = 8;
/** Bytes read at a wrong speed spread over all 256 values, of which 98 are text. */
const TEXT_SHARE = 0.75;
const CR = 0x0d;
const COMMA = 0x2c;

const isText = (b: number): boolean => (b >= 0x20 && b <= 0x7e) || b === CR || b === LF || b === 0x09;

/** Bytes for reading: control characters by their pictures (U+2400 …), what is no ASCII as a dot. */
export function shownLine(bytes: Uint8Array): string {
  let s = '';
  for (const b of bytes.subarray(0, LINE_SHOWN)) {
    if (b >= 0x20 && b <= 0x7e) s += String.fromCharCode(b);
    else s += b < 0x20 ? String.fromCharCode(0x2400 + b) : '·';
  }
  return bytes.length > LINE_SHOWN ? `${s.slice(0, LINE_SHOWN - 1)}…` : s;
}

/** The pieces between CR and LF, each with an LF of its own as a frame has it. */
function cutAtCr(bytes: Uint8Array): Uint8Array[] {
  const pieces: Uint8Array[] = [];
  let from = 0;
  for (let i = 0; i <= bytes.length; i++) {
    if (i < bytes.length && bytes[i] !== CR && bytes[i] !== LF) continue;
    if (i > from) pieces.push(Uint8Array.from([...bytes.subarray(from, i), LF]));
    from = i + 1;
  }
  return pieces;
}

function isFrame(line: Uint8Array): boolean {
  let frames = 0;
  createDecoder('device').push(line, { frame: () => void frames++, stray() {} });
  return frames > 0;
}

/** Begins as a line of the protocol does. */
const looksRight = (line: Uint8Array): boolean =>
  line.length > 2 && DEVICE_LETTERS.includes(String.fromCharCode(line[0]!)) && line[1] === COMMA;

/** Right but for its CR; or, ending in CR before LF, at least begun like a frame. */
function endsInCr(bytes: Uint8Array): boolean {
  if (!bytes.includes(CR)) return false;
  const whole = bytes.length > 1 && bytes[bytes.length - 1] === LF && bytes[bytes.length - 2] === CR;
  return cutAtCr(bytes).some(isFrame) || (whole && looksRight(bytes) && bytes.every(isText));
}

/** In the order in which one explains more than another. */
const CLEAR = ['line-ends', 'form', 'check'] as const;

export function createHearing(): Hearing {
  let bytes = 0;
  let text = 0;
  let broken = 0;
  let newest: string | null = null;
  const clear: { [C in (typeof CLEAR)[number]]?: string } = {};

  function clearly(reason: StrayReason, line: Uint8Array): (typeof CLEAR)[number] | null {
    if (reason === 'form' || reason === 'unknown') return 'form';
    if (endsInCr(line)) return 'line-ends';
    return reason === 'crc' ? 'check' : null;
  }

  function code(): HeardCode {
    const found = CLEAR.find((c) => clear[c] !== undefined);
    if (found !== undefined) return found;
    if (bytes < CLICK_BYTES) return broken > 0 ? 'speed' : 'no-hello';
    return text / bytes < TEXT_SHARE ? 'speed' : 'not-protocol';
  }

  return {
    stray(reason, line) {
      bytes += line.length;
      for (const b of line) if (isText(b)) text++;
      newest = shownLine(line);
      const what = clearly(reason, line);
      if (what !== null) clear[what] = newest;
    },
    disturbed() {
      broken++;
    },
    forget() {
      bytes = 0;
      text = 0;
      broken = 0;
      newest = null;
      for (const c of CLEAR) delete clear[c];
    },
    get heard() {
      const why = code();
      const line = why === 'line-ends' || why === 'form' || why === 'check' ? clear[why] : newest;
      return { code: why, line: why === 'no-hello' ? null : (line ?? null) };
    },
  };
}
