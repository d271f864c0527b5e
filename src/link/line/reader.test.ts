import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LineReader, MOST_LINE } from './reader.ts';

function read(chunks: readonly (string | Uint8Array)[]) {
  const got: string[] = [];
  const reader = new LineReader({
    line: (bytes) => got.push(JSON.stringify(new TextDecoder().decode(bytes))),
    stray: (reason, bytes) => got.push(`${reason} ${bytes.length}`),
  });
  for (const c of chunks) reader.push(typeof c === 'string' ? new TextEncoder().encode(c) : c);
  return got;
}

describe('lines of a plain line', () => {
  it('end in LF, CR or both; what comes before the first end may be half a line', () => {
    expect(read(['5,7\n1,2\n3,4\r5,6\r\n7,8\r\n'])).toEqual([
      'partial 4',
      '"1,2\\n"',
      '"3,4\\r"',
      '"5,6\\r"',
      '"7,8\\r"',
    ]);
  });

  it('empty lines are of no account', () => {
    expect(read(['x\n\n\r\n\n1\n'])).toEqual(['partial 2', '"1\\n"']);
  });

  it('a line that is too long is given up piece by piece, and the next one is read', () => {
    const long = '9'.repeat(MOST_LINE * 2 + 10);
    expect(read(['\n', `${long}\n1\n`])).toEqual(['partial 1', 'long 240', 'long 240', 'long 11', '"1\\n"']);
  });

  it('does not depend on how the bytes were cut', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom('1', ',', '\r', '\n', '\r\n', '2.5', 'a=')),
        fc.array(fc.nat({ max: 6 })),
        (parts, cuts) => {
          const text = parts.join('');
          const pieces: string[] = [];
          let at = 0;
          for (const n of cuts) {
            pieces.push(text.slice(at, at + n));
            at += n;
          }
          expect(read([...pieces, text.slice(at)])).toEqual(read([text]));
        },
      ),
      { seed: 4 },
    );
  });
});
