import { expect, it } from 'vitest';
import { plainLine } from './fault.ts';

it('nothing in a line moves what a terminal shows', () => {
  const line = plainLine('a\u001b[2J\rVALID\u202e\u2066b\tc – ü 水\n');
  expect(line).toBe('a\ufffd[2J\ufffdVALID\ufffd\ufffdb\ufffdc – ü 水\ufffd');
});
