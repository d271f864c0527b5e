/**
 * CRC-16 of Modbus over Serial Line V1.02, 6.2.2 (CRC generation): polynomial 0x8005 reflected (0xA001), start 0xFFFF, no
 * final inversion; on the line the low byte comes first.
 */
const TABLE = Uint16Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let k = 0; k < 8; k++) c = c & 1 ? (c >>> 1) ^ 0xa001 : c >>> 1;
  return c;
});

/** Of bytes[from..to). */
export function crc16(bytes: Uint8Array, from = 0, to = bytes.length): number {
  let crc = 0xffff;
  for (let i = from; i < to; i++) crc = (crc >>> 8) ^ TABLE[(crc ^ bytes[i]!) & 0xff]!;
  return crc;
}

/** The bytes with their check behind them. */
export function withCrc(body: readonly number[]): Uint8Array {
  const frame = new Uint8Array(body.length + 2);
  frame.set(body);
  const crc = crc16(frame, 0, body.length);
  frame[body.length] = crc & 0xff;
  frame[body.length + 1] = crc >>> 8;
  return frame;
}

/** The last two bytes are the check of those before them. */
export function holds(bytes: Uint8Array, from = 0, to = bytes.length): boolean {
  const body = to - 2;
  return body > from && crc16(bytes, from, body) === (bytes[body]! | (bytes[body + 1]! << 8));
}
