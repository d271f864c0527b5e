import { describe, expect, it } from 'vitest';
import { faultsIn, sample } from '../tools/mutations.mjs';

const faults = (source: string) => faultsIn(source).map(({ line, is }) => `${line} ${is}`);

describe('small faults for the tests to see', () => {
  it('are put into what runs: operators, numbers, truths, statements', () => {
    expect(faults('const a = b < 2 && c;\nlist.push(a);\n')).toEqual([
      '1 const a = b <= 2 && c;',
      '1 const a = b < 3 && c;',
      '1 const a = b < 2 || c;',
      '2 ;',
    ]);
    expect(faults('  s.n += 1;')).toEqual([';', 's.n += 2;'].map((is) => `1 ${is}`));
  });

  it('leave alone comments, texts, types, imports and generics', () => {
    const source = [
      "import { x } from './x1.ts';",
      '/** at most 3 + 4 */',
      'interface A {\n  readonly b: Map<string, 1 | 2>;\n}',
      'export type B = 1 | 2;',
      "const text = 'a + b'; // and 5 > 4",
      'const f = (a: Map<string, number>) => a;',
    ].join('\n');
    expect(faultsIn(source)).toEqual([]);
  });

  it('change one place only', () => {
    const source = 'if (a < 1 || b < 1) c();';
    for (const { text, is } of faultsIn(source)) expect(text).toBe(is);
    expect(faults(source)[0]).toBe('1 if (a <= 1 || b < 1) c();');
  });

  it('are drawn without repetition, the same with one seed', () => {
    const list = Array.from({ length: 50 }, (_, i) => i);
    expect(sample(list, 20, 7)).toEqual(sample(list, 20, 7));
    expect(sample(list, 20, 7)).not.toEqual(sample(list, 20, 8));
    expect(new Set(sample(list, 80, 7)).size).toBe(50);
  });
});
