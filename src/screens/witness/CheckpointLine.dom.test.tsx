import { cleanup, fireEvent, render, screen } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, expect, it } from 'vitest';
import { WITNESS as W } from '../../words/witness.ts';
import { type Services, ServicesContext } from '../context.ts';
import { CheckpointLine } from './CheckpointLine.tsx';

afterEach(cleanup);

const settled = () => new Promise((resolve) => setTimeout(resolve, 0));

function show(answers: readonly (object | Error)[]) {
  let asked = 0;
  const [of, noted] = createSignal(0);
  const evidence = async () => {
    const answer = answers[asked++];
    if (answer instanceof Error) throw answer;
    return answer;
  };
  const fail = (cause: unknown) => {
    throw cause;
  };
  render(() => (
    <ServicesContext.Provider value={{ evidence, fail } as unknown as Services}>
      <CheckpointLine lead="what it is good for" of={of()} />
    </ServicesContext.Provider>
  ));
  return () => noted(1);
}

it('is a line with the short form; the code is one press away, and the newest is shown when something was noted', async () => {
  const view = (leaves: number, short: string) => ({
    leaves,
    short,
    checkpoint: `log.x\n${leaves}\n${short}=\n`,
  });
  const noted = show([view(7, 'Q1w2E3r4'), view(8, 'a1b2c3d4')]);
  const line = (await screen.findByTestId('checkpoint-line')) as HTMLDetailsElement;
  expect(line.textContent).toContain(W.line(W.leaves(7), 'Q1w2E3r4'));
  expect([line.open, screen.queryByTestId('code')]).toEqual([false, null]);
  line.open = true;
  fireEvent(line, new Event('toggle'));
  expect(screen.getByTestId('code')).toBeTruthy();
  noted();
  await settled();
  expect(screen.getByTestId('checkpoint-line').textContent).toContain(W.line(W.leaves(8), 'a1b2c3d4'));
  // It stays as it was laid open.
  expect(screen.getByTestId('code')).toBeTruthy();
});

it('nothing is noted yet, or the log can’t be read: there is no line, and nothing else is disturbed', async () => {
  show([{ leaves: 0, short: '', checkpoint: '' }]);
  await settled();
  expect(screen.queryByTestId('checkpoint-line')).toBeNull();
  cleanup();
  show([new Error('corrupt')]);
  await settled();
  expect(screen.queryByTestId('checkpoint-line')).toBeNull();
});
