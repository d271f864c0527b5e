import { cleanup, fireEvent, render, screen } from '@solidjs/testing-library';
import { afterEach, expect, it } from 'vitest';
import type { Comparison } from '../../evidence/witness/messages.ts';
import { type Services, ServicesContext } from '../context.ts';
import { CompareCheckpoint } from './Compare.tsx';

afterEach(cleanup);

function show(answer: Comparison | null) {
  const asked: unknown[] = [];
  const services = {
    evidence: async (request: unknown) => {
      asked.push(request);
      return answer;
    },
    fail: (error: unknown) => {
      throw error;
    },
  };
  render(() => (
    <ServicesContext.Provider value={services as unknown as Services}>
      <CompareCheckpoint with="opened" lead="" />
    </ServicesContext.Provider>
  ));
  return asked;
}

const paste = (text: string) =>
  fireEvent.input(screen.getByTestId('compare-text'), { target: { value: text } });

it('asks with the text as it was pasted, and takes the answer away when the text changes', async () => {
  const asked = show({ c: 'same-history', size: 3, holds: 'part' });
  expect((screen.getByTestId('compare-checkpoint') as HTMLButtonElement).disabled).toBe(true);
  paste('log.x\n3\n');
  fireEvent.click(screen.getByTestId('compare-checkpoint'));
  expect(asked).toEqual([{ q: 'compare', text: 'log.x\n3\n', with: 'opened' }]);
  const told = await screen.findByTestId('comparison');
  expect([told.dataset.comparison, told.classList.contains('strong')]).toEqual(['same-history', false]);
  paste('another');
  expect(screen.queryByTestId('comparison')).toBeNull();
});

it('whatever is not one history is strong', async () => {
  for (const answer of [
    { c: 'another-history', size: 3 },
    { c: 'unsigned', size: 3 },
    { c: 'not-told', size: 3 },
    { c: 'no-checkpoint' },
    null,
  ] as const) {
    show(answer);
    paste('x');
    fireEvent.click(screen.getByTestId('compare-checkpoint'));
    expect((await screen.findByTestId('comparison')).classList.contains('strong')).toBe(true);
    cleanup();
  }
});
