import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bits32 } from '../estimate/testing/random.ts';
import { crc32c } from './crc32c.ts';
import { createDecoder, type DecoderSink } from './decode.ts';
import { encodeFrame } from './encode.ts';
import type { Frame, StrayReason } from './frames.ts';
import { anyDeviceFrame, anyHostFrame, ascii, asText, join, LONGEST } from './testing/arbitraries.ts';
import { slowVerdict } from './testing/slow.ts';

type Got = { frame: Frame } | { stray: StrayReason; text: string };

function collector(): { got: Got[]; sink: DecoderSink } {
  const got: Got[] = [];
  return {
    got,
    sink: {
      frame: (frame) => got.push({ frame }),
      stray: (stray, bytes) => got.push({ stray, text: asText(bytes) }),
    },
  };
}

function decode(chunks: readonly Uint8Array[], direction: 'device' | 'host' = 'device'): Got[] {
  const { got, sink } = collector();
  const decoder = createDecoder(direction);
  for (const c of chunks) decoder.push(c, sink);
  decoder.end(sink);
  return got;
}

const rebuild = (got: readonly Got[]) =>
  join(got.map((g) => ('frame' in g ? encodeFrame(g.frame) : ascii(g.text))));

/** Any text closed by its right CRC. */
const closed = (body: string) => ascii(`${body}${crc32c(ascii(body)).toString(16).padStart(8, '0')}\n`);

function cut(bytes: Uint8Array, sizes: readonly number[]): Uint8Array[] {
  const chunks: Uint8Array[] = [];
  let at = 0;
  for (let i = 0; at < bytes.length; i++) {
    const n = sizes.length === 0 ? bytes.length : sizes[i % sizes.length]!;
    chunks.push(bytes.subarray(at, at + n));
    at += n;
  }
  return chunks;
}

const SAMPLE: Frame = { t: 'S', seq: 41, tick: 1234567, counts: [16384, -3, null], status: 4 };
const GOOD = encodeFrame(SAMPLE);
const NL = ascii('\n');

describe('decoder', () => {
  it.each([['device'], ['host']] as const)('round trip, any chunking: %s', (direction) => {
    const anyFrame: fc.Arbitrary<Frame> = direction === 'device' ? anyDeviceFrame : anyHostFrame;
    const sizes = fc.array(fc.integer({ min: 1, max: 60 }), { maxLength: 5 });
    fc.assert(
      fc.property(fc.array(anyFrame, { maxLength: 12 }), sizes, (frames, chunks) => {
        const got = decode(cut(join(frames.map(encodeFrame)), chunks), direction);
        expect(got).toEqual(frames.map((frame) => ({ frame })));
      }),
      { numRuns: 500 },
    );
  });

  it('after an end begins anew, also where a line without one was being passed over', () => {
    const { got, sink } = collector();
    const decoder = createDecoder('device');
    decoder.push(ascii('x'.repeat(3000)), sink);
    decoder.end(sink);
    expect(got.every((g) => 'stray' in g && g.stray === 'long')).toBe(true);
    const before = got.length;
    decoder.push(GOOD, sink);
    expect(got.slice(before)).toEqual([{ frame: SAMPLE }]);
  });

  it('takes the extremes of every frame', () => {
    for (const frame of LONGEST)
      expect(decode([encodeFrame(frame)], frame.t === 'K' ? 'host' : 'device')).toEqual([{ frame }]);
  });

  it('half a first line is partial and no fault', () => {
    const half = GOOD.subarray(7);
    expect(decode([half, GOOD])).toEqual([{ stray: 'partial', text: asText(half) }, { frame: SAMPLE }]);
    expect(decode([ascii('\u0000\u00ff\n'), GOOD])).toEqual([
      { stray: 'partial', text: '\u0000\u00ff\n' },
      { frame: SAMPLE },
    ]);
  });

  it('after end() it is as after opening', () => {
    const { got, sink } = collector();
    const decoder = createDecoder('device');
    decoder.push(join([GOOD, GOOD.subarray(0, 9)]), sink);
    expect(decoder.held).toBe(9);
    decoder.end(sink);
    decoder.push(join([GOOD.subarray(9), GOOD]), sink);
    decoder.end(sink);
    decoder.end(sink);
    expect(got).toEqual([
      { frame: SAMPLE },
      { stray: 'partial', text: asText(GOOD.subarray(0, 9)) },
      { stray: 'partial', text: asText(GOOD.subarray(9)) },
      { frame: SAMPLE },
    ]);
  });

  it.each<[string, StrayReason, Uint8Array]>([
    ['a flipped digit', 'crc', ascii(asText(GOOD).replace('16384', '16385'))],
    ['upper-case hex', 'crc', ascii(asText(closed('S,1,2,3,0,')).toUpperCase())],
    ['CRC cut short', 'crc', join([GOOD.subarray(0, GOOD.length - 2), NL])],
    ['no CRC', 'crc', ascii('S,1,2,3,0\n')],
    ['only a letter', 'crc', ascii('S,\n')],
    ['an empty line', 'garbage', NL],
    ['words', 'garbage', ascii('booting...\n')],
    ['CR before LF', 'garbage', join([GOOD.subarray(0, GOOD.length - 1), ascii('\r\n')])],
    ['a byte with the high bit', 'garbage', ascii('S,1,\u00b2,3,0,00000000\n')],
    ['noise with a right CRC', 'garbage', closed('S\u0001,1,')],
    ['no letter but a right CRC', 'garbage', closed('12,3,')],
    ['a CRC alone', 'garbage', ascii('00000000\n')],
    ['a later letter', 'unknown', closed('Q,1,new,')],
    ["the host's letter", 'unknown', closed('K,1,hello,')],
    ['a leading zero', 'form', closed('S,01,2,3,0,')],
    ['minus zero', 'form', closed('S,1,2,-0,0,')],
    ['a plus', 'form', closed('S,1,2,+3,0,')],
    ['a space', 'form', closed('S,1,2, 3,0,')],
    ['a fraction', 'form', closed('S,1,2,3.0,0,')],
    ['no count', 'form', closed('S,1,2,0,')],
    ['eight counts', 'form', closed('S,1,2,1,2,3,4,5,6,7,8,0,')],
    ['an empty seq', 'form', closed('S,,2,3,0,')],
    ['an empty status', 'form', closed('S,1,2,3,,')],
    ['a lone minus', 'form', closed('S,1,2,-,0,')],
    ['seq past 32 bits', 'form', closed('S,4294967296,2,3,0,')],
    ['eleven digits', 'form', closed('S,1,2,00000000003,0,')],
    ['count past int32', 'form', closed('S,1,2,2147483648,0,')],
    ['status past 16 bits', 'form', closed('S,1,2,3,65536,')],
    ['nothing after the letter', 'form', closed('S,')],
    ['a letter without a comma before the CRC', 'garbage', closed('S')],
    ['a field too many', 'form', closed('R,1,ok,,,')],
    ['a field too few', 'form', closed('R,1,ok,')],
    ['a word of no list', 'form', closed('R,1,fine,,')],
    ['an empty word', 'form', closed('R,1,,,')],
    ['an id of 17', 'form', closed('H,1,12345678901234567,1,0,0,1,1,')],
    ['an id with a space', 'form', closed('H,1,a b,1,0,0,1,1,')],
    ['an empty id', 'form', closed('H,1,,1,0,0,1,1,')],
    ['an armed guard without limit', 'form', closed('G,1,armed,,,,0,')],
    ['an unarmed guard with one', 'form', closed('G,1,unarmed,0,1,1,0,')],
    ['a channel that is its own partner', 'form', closed('C,0,press,,ratio,0,16,0,1,0,1,0,1,1,')],
    ['a channel of no span', 'form', closed('C,0,press,,ratio,1,16,0,1,0,1,5,5,1,')],
  ])('%s is %s, and the next good frame is taken', (_, reason, bad) => {
    expect(decode([GOOD, bad, GOOD])).toEqual([
      { frame: SAMPLE },
      { stray: reason, text: asText(bad) },
      { frame: SAMPLE },
    ]);
  });

  it('discards an over-long line up to its LF, in pieces of 128', () => {
    const noise = ascii('x'.repeat(300));
    const expected = [
      { frame: SAMPLE },
      { stray: 'long', text: 'x'.repeat(128) },
      { stray: 'long', text: 'x'.repeat(128) },
      { stray: 'long', text: `${'x'.repeat(44)}${asText(GOOD)}` },
      { frame: SAMPLE },
    ];
    const bytes = join([GOOD, noise, GOOD, GOOD]);
    expect(decode([bytes])).toEqual(expected);
    expect(decode(cut(bytes, [1]))).toEqual(expected);
    expect(decode([ascii('y'.repeat(128)), ascii('z')])).toEqual([
      { stray: 'long', text: 'y'.repeat(128) },
      { stray: 'long', text: 'z' },
    ]);
  });

  it('a line of 128 bytes is a line, one of 129 is over-long', () => {
    const just = closed(`Q,${'1'.repeat(128 - 12)},`);
    expect(just.length).toBe(128);
    expect(decode([GOOD, just, GOOD])[1]).toEqual({ stray: 'unknown', text: asText(just) });
    const over = closed(`Q,${'1'.repeat(129 - 12)},`);
    expect(decode([GOOD, over, GOOD]).slice(1)).toEqual([
      { stray: 'long', text: asText(over.subarray(0, 128)) },
      { stray: 'long', text: '\n' },
      { frame: SAMPLE },
    ]);
  });

  it('frames and stray bytes rebuild any input, and chunking changes nothing', () => {
    const piece = fc.oneof(
      fc.uint8Array({ maxLength: 40 }),
      anyDeviceFrame.map(encodeFrame),
      fc.constant(NL),
      fc
        .tuple(anyDeviceFrame.map(encodeFrame), fc.nat(), fc.nat(255))
        .map(([line, at, byte]) => line.map((b, i) => (i === at % line.length ? byte : b))),
      fc.tuple(anyDeviceFrame.map(encodeFrame), fc.nat()).map(([line, n]) => line.slice(n % line.length)),
      fc.integer({ min: 100, max: 400 }).map((n) => new Uint8Array(n).fill(0x53)),
    );
    const sizes = fc.array(fc.integer({ min: 1, max: 200 }), { maxLength: 6 });
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 20 }), sizes, (pieces, chunks) => {
        const bytes = join(pieces);
        const whole = decode([bytes]);
        expect(rebuild(whole)).toEqual(bytes);
        expect(decode(cut(bytes, chunks))).toEqual(whole);
      }),
      { numRuns: 600 },
    );
  });
});

/** Frames, cut, mutated, glued and mixed with noise, `size` bytes of them. */
function badInput(size: number, seed: number): Uint8Array {
  const random = bits32(seed);
  const below = (n: number) => random() % n;
  const frames = fc.sample(anyDeviceFrame, { numRuns: 500, seed }).map(encodeFrame);
  const out = new Uint8Array(size);
  let at = 0;
  const put = (bytes: Uint8Array) => {
    const part = bytes.subarray(0, size - at);
    out.set(part, at);
    at += part.length;
  };
  while (at < size) {
    const frame = frames[below(frames.length)]!.slice();
    const kind = below(10);
    if (kind < 3) put(frame);
    else if (kind < 6) {
      for (let n = 1 + below(3); n > 0; n--) frame[below(frame.length)] = below(256);
      put(frame);
    } else if (kind === 6) put(frame.subarray(below(frame.length)));
    else if (kind === 7) put(frame.subarray(0, below(frame.length)));
    else if (kind === 8) put(Uint8Array.from({ length: below(300) }, () => below(256)));
    else {
      // Changed inside and closed again with the right CRC: only the form can tell.
      const body = frame.slice(0, frame.length - 9);
      body[below(body.length)] = 0x20 + below(0x5f);
      put(closed(asText(body)));
    }
  }
  return out;
}

describe('10 MB of bad input, seed 20240607', () => {
  const bytes = badInput(10_000_000, 20240607);
  const { got, sink } = collector();
  const decoder = createDecoder('device');
  const random = bits32(7);
  for (let at = 0; at < bytes.length; ) {
    const n = 1 + (random() % 4096);
    decoder.push(bytes.subarray(at, at + n), sink);
    at += n;
  }
  decoder.end(sink);

  it('loses no byte', () => {
    let at = 0;
    for (const g of got) {
      const part = 'frame' in g ? encodeFrame(g.frame) : ascii(g.text);
      for (const b of part) if (bytes[at++] !== b) throw new Error(`byte ${at - 1} differs`);
    }
    expect(at).toBe(bytes.length);
  });

  it('agrees with the second opinion on every line: no wrong CRC taken, no good frame missed', () => {
    let at = 0;
    let frames = 0;
    let next = 0;
    let first = true;
    for (const g of got) {
      const length = 'frame' in g ? encodeFrame(g.frame).length : g.text.length;
      const line = bytes.subarray(at, at + length);
      at += length;
      if ('frame' in g) frames++;
      const long = 'stray' in g && g.stray === 'long';
      if (!long && !first && line.at(-1) === 0x0a) {
        const verdict = slowVerdict(line, 'device');
        const mine = 'frame' in g ? 'frame' : g.stray;
        // The second opinion looks at no ranges: only there may the decoder be the stricter.
        if (verdict !== mine && !(verdict === 'frame' && mine === 'form'))
          throw new Error(`${mine}, not ${verdict}: ${JSON.stringify(asText(line))}`);
        if (verdict === 'frame') next++;
      }
      first = false;
    }
    expect(frames).toBeGreaterThan(30_000);
    expect(next).toBeGreaterThanOrEqual(frames - 1);
    expect(next - frames).toBeLessThan(frames / 10);
  });
});
