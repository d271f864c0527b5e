import { cleanup, render, screen } from '@solidjs/testing-library';
import { afterEach, expect, it } from 'vitest';
import type { SealedFacts } from '../../evidence/messages.ts';
import { signerText } from '../../words/evidence.ts';
import { AdditionLine } from './Additions.tsx';

afterEach(cleanup);

it('what somebody wrote stands apart, so that it can’t turn what the program says beside it', () => {
  const of = {
    number: 1,
    utcMs: 1.77e12,
    kind: 'note',
    body: { by: '\u202eeciffO', text: 'held\u202e 4 h' },
    signedBy: null,
  } as unknown as SealedFacts['additions'][number];
  render(() => <AdditionLine of={of} />);
  const line = screen.getByRole('listitem');
  expect([...line.querySelectorAll('bdi')].map((e) => e.textContent)).toEqual([
    '\u202eeciffO',
    'held\u202e 4 h',
  ]);
  const own = [...line.childNodes].filter((n) => n.nodeType === 3).map((n) => n.textContent);
  expect(own.join('')).toContain(signerText(null));
  expect(own.join('')).not.toMatch(/\u202e/);
});
