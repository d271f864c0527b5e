import { describe, expect, it } from 'vitest';
import { createAnswers } from './answers.ts';
import type { FromWorker } from './contract.ts';
import { RequestError } from './request-error.ts';
import type { TestContract } from './testing/contract.ts';

function bench() {
  const posted: FromWorker<TestContract>[] = [];
  let pauses = 0;
  let full = false;
  const answer = createAnswers<TestContract>({
    handlers: {
      double: ({ n }) => n * 2,
      long: async ({ steps }, tell) => {
        for (let i = 1; i <= steps; i++) await tell(i / steps);
        return 'done';
      },
      refuse: () => {
        throw new RequestError('closed', 'for lunch');
      },
    },
    codeOf: (cause) => (cause instanceof RequestError ? 'closed' : 'internal'),
    post(message) {
      if (full && message.m === 'answer' && message.ok) throw new TypeError('cannot be cloned');
      posted.push(message);
    },
    async pause() {
      pauses++;
    },
  });
  return {
    answer,
    posted,
    pauses: () => pauses,
    fill: () => {
      full = true;
    },
  };
}

describe('requests', () => {
  it('are answered once each, with what their handler gave or why it refused', async () => {
    const { answer, posted } = bench();
    await answer({ id: 7, request: { q: 'double', n: 21 } });
    await answer({ id: 8, request: { q: 'refuse' } });
    expect(posted).toEqual([
      { m: 'answer', id: 7, ok: true, value: 42 },
      { m: 'answer', id: 8, ok: false, code: 'closed', detail: 'for lunch' },
    ]);
  });

  it.each([{ q: 'lunch' }, { q: 'toString' }, { q: 3 }, {}, null, undefined])(
    '%j is no request, and is told so',
    async (request) => {
      const { answer, posted } = bench();
      await answer({ id: 1, request: request as never });
      expect(posted).toMatchObject([{ m: 'answer', id: 1, ok: false, code: 'bad-request' }]);
    },
  );

  it('an answer that cannot be sent is a refusal', async () => {
    const { answer, posted, fill } = bench();
    fill();
    await answer({ id: 1, request: { q: 'double', n: 1 } });
    expect(posted).toEqual([{ m: 'answer', id: 1, ok: false, code: 'internal', detail: 'cannot be cloned' }]);
  });

  it('long ones tell their share in steps of a hundredth and let others in at each', async () => {
    const { answer, posted, pauses } = bench();
    await answer({ id: 1, request: { q: 'long', steps: 1000 } });
    const shares = posted.flatMap((m) => (m.m === 'progress' ? [m.share] : []));
    expect(shares.length).toBeGreaterThanOrEqual(90);
    expect(shares.length).toBeLessThanOrEqual(100);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    expect(pauses()).toBe(1000);
    expect(posted.at(-1)).toEqual({ m: 'answer', id: 1, ok: true, value: 'done' });
  });
});
