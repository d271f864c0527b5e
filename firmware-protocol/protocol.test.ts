import { readFileSync } from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crc32c } from '../src/link/crc32c.ts';
import { createDecoder } from '../src/link/decode.ts';
import { encodeFrame } from '../src/link/encode.ts';
import {
  type ChannelFrame,
  type Frame,
  MAX_LINE,
  PROTOCOL_VERSION,
  STATUS,
  type StrayReason,
  TICK_S,
} from '../src/link/frames.ts';
import { DEVICE_LETTERS, HOST_LETTERS } from '../src/link/grammar.ts';
import { USUAL_SPEEDS } from '../src/link/speeds.ts';
import { anyDeviceFrame, anyHostFrame, ascii, asText, LONGEST } from '../src/link/testing/arbitraries.ts';
import { electrical, nominal, signalBands } from '../src/sensing/signal.ts';
import { suggestChannels } from '../src/sensing/suggest.ts';
import protocol from './protocol.json' with { type: 'json' };

// The description generates lines; the codec has to take exactly those that it allows, with the values it names.

interface Field {
  readonly name: string;
  readonly type: string;
  readonly min?: number;
  readonly max?: number;
  readonly values?: readonly string[];
  readonly mayBeEmpty?: boolean;
  readonly repeat?: { readonly min: number; readonly max: number };
}
interface Message {
  readonly letter: string;
  readonly sentBy: string;
  readonly fields: readonly Field[];
  readonly rules?: readonly string[];
  readonly verbs?: Readonly<Record<string, readonly Field[]>>;
}
const messages = protocol.frames as readonly Message[];

type Value = string | number | null;
const line = (letter: string, values: readonly Value[]) => {
  const body = `${letter},${values.map((v) => (v === null ? '' : String(v))).join(',')},`;
  return ascii(`${body}${crc32c(ascii(body)).toString(16).padStart(8, '0')}\n`);
};

function decode(bytes: Uint8Array, sentBy: string): Frame | StrayReason {
  let got: Frame | StrayReason | null = null;
  const decoder = createDecoder(sentBy === 'host' ? 'host' : 'device');
  decoder.push(bytes, {
    frame: (f) => {
      got = f;
    },
    stray: (reason) => {
      got = reason;
    },
  });
  if (got === null) throw new Error('nothing came');
  return got;
}

function values(field: Field): fc.Arbitrary<Value> {
  const { min = 0, max = 0 } = field;
  const some: fc.Arbitrary<Value> =
    field.type === 'word'
      ? fc.constantFrom(...field.values!)
      : field.type === 'id'
        ? fc.string({ minLength: 1, maxLength: 16, unit: fc.constantFrom(...'AZaz09._-') })
        : fc.oneof(fc.constantFrom(min, max), fc.integer({ min, max }));
  return field.mayBeEmpty ? fc.option(some, { nil: null, freq: 3 }) : some;
}

const fieldsOf = (m: Message, verb: string | null): readonly Field[] => {
  if (verb === null) return m.fields;
  return [m.fields[0]!, { ...m.fields[1]!, values: [verb] }, ...m.verbs![verb]!];
};

/** One list of field values; fields that repeat give a list of their own. */
const lists = (fields: readonly Field[]) =>
  fc.tuple(
    ...fields.map(
      (f): fc.Arbitrary<Value | Value[]> =>
        f.repeat ? fc.array(values(f), { minLength: f.repeat.min, maxLength: f.repeat.max }) : values(f),
    ),
  );

/** The rules of the description, read by hand. */
const RULES: Record<string, (v: Record<string, Value>) => boolean> = {
  'rawLo < rawHi': (v) => v.rawLo! < v.rawHi!,
  'elLo != elHi': (v) => v.elLo !== v.elHi,
  'rangeLo < rangeHi': (v) => v.rangeLo! < v.rangeHi!,
  'partner != index': (v) => v.partner !== v.index,
  'channel, limitCounts and limitMbar are empty exactly when state is unarmed': (v) =>
    [v.channel, v.limitCounts, v.limitMbar].every((x) => (x === null) === (v.state === 'unarmed')),
  'unarmed has sounder 0': (v) => v.state !== 'unarmed' || v.sounder === 0,
};
const keeps = (m: Message, v: Record<string, Value>) => (m.rules ?? []).every((r) => RULES[r]!(v));

interface Kind {
  readonly m: Message;
  readonly verb: string | null;
  readonly name: string;
}
const kinds = messages.flatMap((m): Kind[] =>
  m.verbs
    ? Object.keys(m.verbs).map((verb) => ({ m, verb, name: `${m.letter} ${verb}` }))
    : [{ m, verb: null, name: m.letter }],
);

const spec = readFileSync(path.join(import.meta.dirname, 'SPEC.md'), 'utf8');

describe('SPEC.md', () => {
  it('every line that it shows is a frame, but the ones it calls spoilt', () => {
    const shown = [...spec.matchAll(/^ +(?:[<>] )?([A-Z],[^\s…⏎]*,[0-9a-f]{8})⏎?$/gm)].map((m) => m[1]!);
    expect(shown.length).toBeGreaterThan(15);
    for (const text of shown)
      expect([text, decode(ascii(`${text}\n`), text.startsWith('K') ? 'host' : 'device')]).toEqual([
        text,
        expect.objectContaining({ t: text[0] }),
      ]);
    const spoilt = /nothing: `(K,[^`]*)`/.exec(spec)?.[1] ?? '';
    const decoder = createDecoder('host');
    const strays: string[] = [];
    decoder.push(ascii(`\n${spoilt}\n`), { frame: () => strays.push('frame'), stray: (r) => strays.push(r) });
    expect(strays).toEqual(['partial', 'crc']);
  });

  it('its four sensors read as it says', () => {
    const channels = [...spec.matchAll(/^ {4}(C,.*)$/gm)]
      .slice(0, 6)
      .map((m) => decode(ascii(`${m[1]}\n`), 'device') as ChannelFrame);
    expect(channels.map((c) => c.signal)).toEqual([
      'current',
      'ratio',
      'voltage',
      'tc-k',
      'digital',
      'digital',
    ]);
    const scale = (c: ChannelFrame) => suggestChannels([{ ...c, index: 0, partner: null }])[0]!;
    const value = (c: ChannelFrame, counts: number) => {
      const [el, unit] = [electrical(scale(c))!, nominal(scale(c))!];
      return unit.a + unit.b * (el.a + el.b * counts);
    };
    const [loop, ratio, supply, , junction, chip] = channels as [ChannelFrame, ...ChannelFrame[]];
    // By hand: 4 mA · 100 Ω = 0.4 V of 2.048 V in 32 768 counts is 6400; 20 mA five times that.
    expect(value(loop, 6400)).toBeCloseTo(0, 9);
    expect(value(loop, 32_000)).toBeCloseTo(6, 9);
    // 0.5 and 4.5 V · 3/4 of 4.096 V in 1024 counts: 93.75 and 843.75; 5 V: 937.5.
    expect(value(ratio!, 93.75)).toBeCloseTo(0, 9);
    expect(value(ratio!, 843.75)).toBeCloseTo(6, 9);
    expect(value(supply!, 937.5)).toBeCloseTo(5, 9);
    expect(value(junction!, 16 * 21.5)).toBeCloseTo(21.5, 9);
    // Half of 2^24 counts is half of the span.
    expect(value(chip!, 2 ** 23)).toBeCloseTo(2, 6);
    expect(value(chip!, 0.9 * 2 ** 24)).toBeCloseTo(4, 6);
  });

  it('its number for a broken sensor is the one by which the host takes a reading away', () => {
    const current = signalBands(4000, 20_000).faultLo;
    const ratio = signalBands(100_000, 900_000).faultLo;
    expect(spec).toContain(`under ${current} µA of \`current\``);
    expect(spec.replace(/\s+/g, ' ')).toContain('under 80 000 ppm of `ratio`');
    expect([current, ratio]).toEqual([3600, 80_000]);
    expect(protocol.guard.brokenUnderSpanShare).toBe(1 / 40);
    // rangeLo − (rangeHi − rangeLo) / 40
    expect(signalBands(0, 600_000).faultLo).toBe(-15_000);
    // The device on a pty: 4000 counts at 100 000 ppm, 0.04 counts a ppm.
    const floor = /GUARD_FLOOR (\d+)/.exec(
      readFileSync(path.join(import.meta.dirname, 'host', 'world.h'), 'utf8'),
    );
    expect(Number(floor?.[1])).toBe(ratio * 0.04);
  });

  it('a word that is not known is `form`, a letter that is not known is `unknown`', () => {
    const closed = (body: string) => ascii(`${body}${crc32c(ascii(body)).toString(16).padStart(8, '0')}\n`);
    expect(decode(closed('Z,1,'), 'device')).toBe('unknown');
    expect(decode(closed('K,5,fly,'), 'host')).toBe('form');
    expect(decode(closed('E,1,0,melted,,,'), 'device')).toBe('form');
  });
});

describe('protocol.json', () => {
  it('the example line of SPEC.md is a frame', () => {
    const example = /^ {4}(S,.*)⏎$/m.exec(spec)?.[1] ?? '';
    expect(decode(ascii(`${example}\n`), 'device')).toEqual({
      t: 'S',
      seq: 41,
      tick: 1234567,
      counts: [16384, -3, null],
      status: 4,
    });
  });

  it('names the constants of the codec', () => {
    expect(protocol.version).toBe(PROTOCOL_VERSION);
    expect(protocol.line.maxBytes).toBe(MAX_LINE);
    expect(protocol.clock.tickSeconds).toBe(TICK_S);
    expect(protocol.speeds).toEqual(USUAL_SPEEDS);
    expect(Object.fromEntries(protocol.status.map((s) => [s.name, s.bit]))).toEqual(STATUS);
    expect(crc32c(ascii(protocol.line.crc.check.ascii)).toString(16)).toBe(protocol.line.crc.check.crc);
    const letters = (by: string) =>
      messages
        .filter((m) => m.sentBy === by)
        .map((m) => m.letter)
        .sort();
    expect(letters('device')).toEqual([...DEVICE_LETTERS].sort());
    expect(letters('host')).toEqual([...HOST_LETTERS].sort());
  });

  it.each(kinds)('$name: what it allows is decoded, field by field, and encoded alike', ({ m, verb }) => {
    const fields = fieldsOf(m, verb);
    let kept = 0;
    fc.assert(
      fc.property(lists(fields), (list) => {
        const named: Record<string, Value> = {};
        fields.forEach((f, i) => {
          if (!f.repeat) named[f.name] = list[i] as Value;
        });
        const bytes = line(m.letter, list.flat());
        const got = decode(bytes, m.sentBy);
        if (!keeps(m, named)) {
          expect(got).toBe('form');
          return;
        }
        kept++;
        if (typeof got === 'string') throw new Error(`${got}: ${asText(bytes)}`);
        expect(encodeFrame(got)).toEqual(bytes);
        const flat = { ...got, ...('command' in got && typeof got.command === 'object' ? got.command : {}) };
        fields.forEach((f, i) => {
          expect((flat as unknown as Record<string, unknown>)[f.name]).toEqual(list[i]);
        });
      }),
      { numRuns: 400 },
    );
    expect(kept).toBeGreaterThan(5);
  });

  it.each(kinds)('$name: a value just outside is refused', ({ m, verb }) => {
    const fields = fieldsOf(m, verb);
    const good = fc
      .sample(lists(fields), { numRuns: 3000, seed: 5 })
      .find((list) => keeps(m, Object.fromEntries(fields.map((f, i) => [f.name, list[i] as Value]))));
    if (good === undefined) throw new Error('no sample keeps the rules');
    const at = (i: number, value: Value) =>
      line(m.letter, [...good.slice(0, i), value, ...good.slice(i + 1)].flat());
    fields.forEach((f, i) => {
      const bad: Value[] = ['x y', '01', '-0', '+1'];
      if (f.type === 'int') bad.push(f.min! - 1, f.max! + 1, 'x');
      if (f.type === 'word') bad.push('nonesuch', 'OK', `${f.values![0]}x`);
      if (f.type === 'id') bad.splice(1, 3, 'A'.repeat(17));
      if (!f.mayBeEmpty) bad.push(null);
      for (const b of bad) expect([f.name, b, decode(at(i, b), m.sentBy)]).toEqual([f.name, b, 'form']);
    });
    const whole = good.flat();
    const extra = m.fields.some((f) => f.repeat) ? Array<Value>(8).fill(1) : [1];
    expect(decode(line(m.letter, [...whole, ...extra]), m.sentBy)).toBe('form');
  });

  it('has every field of every frame of the codec, in the order of the line', () => {
    const check = (frame: Frame) => {
      const m = messages.find((x) => x.letter === frame.t)!;
      const verb = frame.t === 'K' ? frame.command.verb : null;
      const flat: Record<string, unknown> = { ...frame };
      if (frame.t === 'K') Object.assign(flat, frame.command);
      const expected = fieldsOf(m, verb).flatMap((f) => flat[f.name] as Value | Value[]);
      expect(asText(encodeFrame(frame))).toBe(asText(line(frame.t, expected)));
    };
    LONGEST.forEach(check);
    fc.assert(fc.property(fc.oneof(anyDeviceFrame, anyHostFrame), check));
  });
});
