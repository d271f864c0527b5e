import { expect, it } from 'vitest';
import { RULES } from '../../src/evidence/pictures.ts';
import { MARK_STYLE, MARKS } from '../../src/widgets/lanes/marks.ts';

it('a limit has one line style on the screen and on paper', () => {
  expect(Object.keys(RULES)).toEqual([...MARKS]);
  for (const mark of MARKS) expect(RULES[mark].dash, mark).toBe((MARK_STYLE[mark].dash ?? []).join(' '));
});
