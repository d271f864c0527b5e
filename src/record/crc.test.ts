import { crc32 as zlibCrc32 } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crc32c as lineCrc32c } from '../link/crc32c.ts';
import { crc32, crc32c } from './crc.ts';

const text = (s: string): Uint8Array => new TextEncoder().encode(s);

describe('CRC-32', () => {
  it('is CBF43926 for "123456789" (CRC catalogue: CRC-32/ISO-HDLC)', () => {
    expect(crc32(text('123456789'))).toBe(0xcbf43926);
  });
  it('goes on from a seed, at any length (property)', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), fc.nat({ max: 300 }), (bytes, cut) => {
        const whole = crc32(bytes);
        expect(crc32(bytes.subarray(cut), crc32(bytes.subarray(0, cut)))).toBe(whole);
        // Node has this one from 20.15 and 22.2 on, by another hand.
        if (zlibCrc32 !== undefined) expect(whole).toBe(zlibCrc32(bytes));
      }),
      { seed: 32 },
    );
  });
});

describe('CRC-32C', () => {
  it('is E3069283 for "123456789" (CRC catalogue: CRC-32/ISCSI)', () => {
    expect(crc32c(text('123456789'))).toBe(0xe3069283);
  });
  it('is the value that the protocol has, over any stretch and seed (property)', () => {
    fc.assert(
      fc.property(
        fc.uint8Array({ maxLength: 300 }),
        fc.nat({ max: 300 }),
        fc.nat({ max: 300 }),
        (bytes, a, b) => {
          const from = Math.min(a, b, bytes.length);
          const to = Math.min(Math.max(a, b), bytes.length);
          expect(crc32c(bytes, from, to)).toBe(lineCrc32c(bytes, from, to));
          expect(crc32c(bytes, from, to, 77)).toBe(lineCrc32c(bytes, from, to, 77));
        },
      ),
      { seed: 1975, numRuns: 400 },
    );
  });
});
