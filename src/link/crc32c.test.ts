import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crc32c } from './crc32c.ts';
import { ascii } from './testing/arbitraries.ts';
import { slowCrc } from './testing/slow.ts';

describe('crc32c', () => {
  it.each([
    // Check value of CRC-32C in the public catalogue of CRCs.
    ['123456789', ascii('123456789'), 0xe3069283],
    // RFC 3720, appendix B.4: 32 bytes of zeros, of ones, ascending, descending (values from memory).
    ['32 zeros', new Uint8Array(32), 0x8a9136aa],
    ['32 ones', new Uint8Array(32).fill(0xff), 0x62a8ab43],
    ['ascending', Uint8Array.from({ length: 32 }, (_, i) => i), 0x46dd794e],
    ['descending', Uint8Array.from({ length: 32 }, (_, i) => 31 - i), 0x113fdb5c],
    ['nothing', new Uint8Array(0), 0],
  ])('%s', (_, bytes, crc) => {
    expect(crc32c(bytes)).toBe(crc);
  });

  it('equals the bit by bit form, in one go or in parts', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), fc.nat(200), (bytes, cut) => {
        const at = Math.min(cut, bytes.length);
        expect(crc32c(bytes)).toBe(slowCrc(bytes));
        expect(crc32c(bytes, at, bytes.length, crc32c(bytes, 0, at))).toBe(slowCrc(bytes));
      }),
    );
  });
});
