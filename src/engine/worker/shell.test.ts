import { describe, expect, it } from 'vitest';
import type { Asked, FromWorker } from './contract.ts';
import { serveWorker } from './shell.ts';
import type { TestContract } from './testing/contract.ts';

function bench(start: () => Promise<(message: Asked<TestContract>) => void>) {
  const posted: FromWorker<TestContract>[] = [];
  let listener: ((event: MessageEvent<Asked<TestContract>>) => void) | null = null;
  serveWorker<TestContract>(
    {
      postMessage: (message) => posted.push(message),
      addEventListener(_type, listens) {
        listener = listens;
      },
    },
    start,
    () => 'closed',
  );
  return {
    posted,
    ask: (id: number) =>
      listener?.({ data: { id, request: { q: 'refuse' } } } as MessageEvent<Asked<TestContract>>),
  };
}

describe('a worker’s shell', () => {
  it('keeps what is asked before the start is over, in order', async () => {
    const taken: number[] = [];
    let begin = (_: (message: Asked<TestContract>) => void): void => {};
    const { ask } = bench(
      () =>
        new Promise((resolve) => {
          begin = resolve;
        }),
    );
    ask(1);
    ask(2);
    await Promise.resolve();
    expect(taken).toEqual([]);
    begin(({ id }) => taken.push(id));
    await new Promise((resolve) => setTimeout(resolve, 0));
    ask(3);
    await new Promise((resolve) => setTimeout(resolve, 0));
    expect(taken).toEqual([1, 2, 3]);
  });

  it('refuses each request with the cause where the start failed', async () => {
    const { ask, posted } = bench(() => Promise.reject(new Error('no disk')));
    ask(1);
    ask(2);
    await new Promise((resolve) => setTimeout(resolve, 0));
    expect(posted).toEqual([
      { m: 'answer', id: 1, ok: false, code: 'closed', detail: 'no disk' },
      { m: 'answer', id: 2, ok: false, code: 'closed', detail: 'no disk' },
    ]);
  });
});
