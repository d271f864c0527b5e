import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonicalText, parseCanonical, toJson } from './canonical.ts';

const bytes = (s: string): Uint8Array => new TextEncoder().encode(s);

describe('canonical JSON', () => {
  it('is what RFC 8785 section 3.2 prints for its sample', () => {
    const sample = JSON.parse(
      '{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],' +
        '"string":"\\u20ac$\\u000F\\u000aA\'\\u0042\\u0022\\u005c\\\\\\"\\/","literals":[null,true,false]}',
    );
    expect(canonicalText(sample)).toBe(
      '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],' +
        '"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
    );
  });

  it('sorts keys by UTF-16 units, as RFC 8785 section 3.2.3 shows', () => {
    const sample = {
      '\u20ac': 'Euro Sign',
      '\r': 'Carriage Return',
      '\ufb33': 'Hebrew Letter Dalet With Dagesh',
      '1': 'One',
      '\ud83d\ude00': 'Emoji: Grinning Face',
      '\u0080': 'Control',
      '\u00f6': 'Latin Small Letter O With Diaeresis',
    };
    const order = [...canonicalText(sample).matchAll(/:"([^"]+)"/g)].map((m) => m[1]);
    expect(order).toEqual([
      'Carriage Return',
      'One',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh',
    ]);
  });

  // RFC 8785 appendix B: IEEE 754 bits beside the text, value from memory.
  it.each([
    ['0000000000000000', '0'],
    ['8000000000000000', '0'],
    ['0000000000000001', '5e-324'],
    ['8000000000000001', '-5e-324'],
    ['7fefffffffffffff', '1.7976931348623157e+308'],
    ['ffefffffffffffff', '-1.7976931348623157e+308'],
    ['4340000000000000', '9007199254740992'],
    ['c340000000000000', '-9007199254740992'],
    ['4430000000000000', '295147905179352830000'],
    ['44b52d02c7e14af5', '9.999999999999997e+22'],
    ['44b52d02c7e14af6', '1e+23'],
    ['44b52d02c7e14af7', '1.0000000000000001e+23'],
    ['444b1ae4d6e2ef4e', '999999999999999700000'],
    ['444b1ae4d6e2ef4f', '999999999999999900000'],
    ['444b1ae4d6e2ef50', '1e+21'],
    ['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
    ['3eb0c6f7a0b5ed8d', '0.000001'],
    ['41b3de4355555553', '333333333.3333332'],
    ['41b3de4355555554', '333333333.33333325'],
    ['41b3de4355555555', '333333333.3333333'],
    ['41b3de4355555556', '333333333.3333334'],
    ['41b3de4355555557', '333333333.33333343'],
    ['becbf647612f3696', '-0.0000033333333333333333'],
    ['43143ff3c1cb0959', '1424953923781206.2'],
  ])('writes the number %s as %s', (bits, text) => {
    const view = new DataView(new ArrayBuffer(8));
    view.setBigUint64(0, BigInt(`0x${bits}`));
    expect(canonicalText(view.getFloat64(0))).toBe(text);
  });

  it('refuses what JSON does not have, mends broken text, leaves undefined out', () => {
    expect(() => toJson(Number.NaN)).toThrow(RangeError);
    expect(() => toJson({ a: [Number.POSITIVE_INFINITY] })).toThrow(RangeError);
    expect(() => toJson(1n)).toThrow(RangeError);
    let deep: unknown = 1;
    for (let i = 0; i < 100; i++) deep = [deep];
    expect(() => toJson(deep)).toThrow(/deep/);
    expect(canonicalText({ a: undefined, b: 'x\ud800y', c: '\u{1f600}' })).toBe('{"b":"x\ufffdy","c":"😀"}');
    expect(canonicalText(JSON.parse('{"__proto__":{"a":1}}'))).toBe('{"__proto__":{"a":1}}');
  });

  it('is read back only in that one form (property)', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 4 }), (value) => {
        const text = canonicalText(value);
        expect(parseCanonical(bytes(text))).toEqual(JSON.parse(text));
        expect(parseCanonical(bytes(`${text} `))).toBeUndefined();
      }),
      { seed: 8785 },
    );
    for (const bad of ['{"b":1,"a":2}', '[1.0]', '"\\u0041"', '{"a":1,"a":1}', '', 'nul', '\ufeff1'])
      expect(parseCanonical(bytes(bad))).toBeUndefined();
    expect(parseCanonical(Uint8Array.of(0x22, 0xff, 0x22))).toBeUndefined();
    expect(parseCanonical(bytes(`${'['.repeat(50_000)}${']'.repeat(50_000)}`))).toBeUndefined();
  });
});
