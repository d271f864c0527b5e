import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crc16, holds, withCrc } from './crc16.ts';

const hex = (text: string): number[] => (text.match(/../g) ?? []).map((b) => Number.parseInt(b, 16));

/** By the rule of the standard's flow chart, bit by bit: an independent way to the same. */
function slowly(bytes: Iterable<number>): number {
  let crc = 0xffff;
  for (const b of bytes) {
    crc ^= b;
    for (let k = 0; k < 8; k++) crc = (crc & 1) === 1 ? (crc >> 1) ^ 0xa001 : crc >> 1;
  }
  return crc;
}

describe('CRC-16 of the bus', () => {
  it('gives the values that others publish', () => {
    // The standard's own example, Modbus over Serial Line V1.02, 6.2.2: 02 07 gives 0x1241, sent as 41 12 (from memory).
    expect([...withCrc([0x02, 0x07])]).toEqual([0x02, 0x07, 0x41, 0x12]);
    // The check value of CRC-16/MODBUS in the catalogue of parametrised CRC algorithms (from memory).
    expect(crc16(new TextEncoder().encode('123456789'))).toBe(0x4b37);
    // 01 03 00 00 00 0A closes with C5 CD (common example of the literature).
    expect([...withCrc(hex('01030000000a'))]).toEqual(hex('01030000000ac5cd'));
    // 01 04 02 FF FF has the check 0x80B8, sent as B8 80 (the example of an encyclopedia's page on Modbus).
    expect([...withCrc(hex('010402ffff'))]).toEqual(hex('010402ffffb880'));
  });

  it('is what the rule of the standard gives bit by bit', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 260 }), (bytes) => {
        expect(crc16(bytes)).toBe(slowly(bytes));
      }),
      { seed: 13 },
    );
  });

  it('sees every single changed bit', () => {
    const frame = withCrc(hex('1103066b00030a'));
    expect(holds(frame)).toBe(true);
    for (let i = 0; i < frame.length * 8; i++) {
      const changed = frame.slice();
      changed[i >> 3]! ^= 1 << (i & 7);
      expect(holds(changed)).toBe(false);
    }
    expect(holds(new Uint8Array(0))).toBe(false);
    expect(holds(Uint8Array.of(0xff, 0xff))).toBe(false);
  });
});
