import { expect, it } from 'vitest';
import { fromBase64, toBase64 } from './base64.ts';

const text = (s: string) => new TextEncoder().encode(s);

it.each([
  ['', ''],
  ['f', 'Zg=='],
  ['fo', 'Zm8='],
  ['foo', 'Zm9v'],
  ['foob', 'Zm9vYg=='],
  ['fooba', 'Zm9vYmE='],
  ['foobar', 'Zm9vYmFy'],
])('%j is %j (RFC 4648, section 10)', (bytes, base64) => {
  expect(toBase64(text(bytes))).toBe(base64);
  expect(fromBase64(base64)).toEqual(text(bytes));
});

it.each(['Zg', 'Zg=', 'Zh==', 'Zm9v\n', 'Zm9 v', 'Z-==', '===='])('%j is none', (base64) => {
  expect(fromBase64(base64)).toBeNull();
});

it('takes more bytes than a call takes arguments', () => {
  const bytes = Uint8Array.from({ length: 200_001 }, (_, i) => i % 251);
  expect(fromBase64(toBase64(bytes))).toEqual(bytes);
});
