import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CommandFrame } from './frames.ts';
import { CommandError, createQueue } from './queue.ts';
import { createManualTimers, settle } from './testing/timers.ts';

function bench(firstNumber = 0) {
  const timers = createManualTimers();
  const sent: CommandFrame[] = [];
  const queue = createQueue(
    async (frame) => {
      sent.push(frame);
    },
    timers,
    firstNumber,
  );
  return { timers, sent, queue };
}

describe('the command queue', () => {
  it('sends one at a time and settles each with the reply of its number', async () => {
    const { queue, sent, timers } = bench(7);
    const first = queue.ask({ verb: 'hello' });
    const second = queue.ask({ verb: 'start', rateHz: 50 });
    await settle();
    expect(sent.map((f) => f.number)).toEqual([7]);
    expect(queue.reply({ t: 'R', command: 99, result: 'ok', value: null })).toBe(false);
    expect(queue.reply({ t: 'R', command: 7, result: 'ok', value: null })).toBe(true);
    await first;
    expect(sent.map((f) => f.number)).toEqual([7, 8]);
    queue.reply({ t: 'R', command: 8, result: 'clamped', value: 40 });
    expect(await second).toMatchObject({ result: 'clamped', value: 40 });
    expect(queue.waiting).toBe(0);
    expect(timers.pending).toBe(0);
  });

  it('asks again under the same number, then gives up and lets the next one go', async () => {
    const { queue, sent, timers } = bench();
    const dead = queue.ask({ verb: 'read' });
    const failed = expect(dead).rejects.toMatchObject({ reason: 'no-answer' });
    const live = queue.ask({ verb: 'beat' });
    await timers.run(1250);
    await failed;
    expect(sent.map((f) => f.number)).toEqual([0, 0, 0, 1]);
    queue.reply({ t: 'R', command: 1, result: 'ok', value: null });
    await live;
  });

  it('a write that fails after its command was given up does not end the next command', async () => {
    const timers = createManualTimers();
    const failLate: ((cause: Error) => void)[] = [];
    const queue = createQueue(
      (frame) => (frame.number === 0 ? new Promise((_, reject) => failLate.push(reject)) : Promise.resolve()),
      timers,
      0,
    );
    const dead = expect(queue.ask({ verb: 'read' }, { attempts: 1 })).rejects.toMatchObject({
      reason: 'no-answer',
    });
    const next = queue.ask({ verb: 'beat' });
    await timers.run(450);
    await dead;
    for (const fail of failLate) fail(new Error('late'));
    await settle();
    expect(queue.reply({ t: 'R', command: 1, result: 'ok', value: null })).toBe(true);
    expect(await next).toMatchObject({ command: 1 });
  });

  it('is not wedged by a write that never settles nor by one that rejects', async () => {
    const timers = createManualTimers();
    let n = 0;
    const queue = createQueue(
      () => {
        n++;
        if (n === 1) return new Promise<void>(() => {});
        if (n === 2) return Promise.reject(new Error('line'));
        return Promise.resolve();
      },
      timers,
      0,
    );
    const outcomes = [
      queue.ask({ verb: 'read' }, { attempts: 1 }).catch((e: CommandError) => e.reason),
      queue.ask({ verb: 'read' }, { attempts: 1 }).catch((e: CommandError) => e.reason),
      queue.ask({ verb: 'stop' }).then((r) => r.result),
    ];
    await timers.run(500);
    queue.reply({ t: 'R', command: 2, result: 'ok', value: null });
    expect(await Promise.all(outcomes)).toEqual(['no-answer', 'write-failed', 'ok']);
  });

  it('fails what waits when the port goes and works again afterwards', async () => {
    const { queue } = bench();
    const lost = [queue.ask({ verb: 'read' }), queue.ask({ verb: 'beat' })].map((p) =>
      p.catch((e: CommandError) => e.reason),
    );
    queue.drop('port gone');
    expect(await Promise.all(lost)).toEqual(['dropped', 'dropped']);
    const next = queue.ask({ verb: 'hello' });
    await settle();
    queue.reply({ t: 'R', command: 2, result: 'ok', value: null });
    await next;
  });

  it('numbers wrap and are not repeated within 65 536 commands', async () => {
    const { queue, sent } = bench(65_535);
    for (const command of [65_535, 0]) {
      const answer = queue.ask({ verb: 'beat' });
      queue.reply({ t: 'R', command, result: 'ok', value: null });
      await answer;
    }
    expect(sent.map((f) => f.number)).toEqual([65_535, 0]);
  });

  it('always settles, whatever is lost', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.tuple(fc.boolean(), fc.nat(700), fc.boolean()), { maxLength: 12 }),
        async (script) => {
          const { queue, sent, timers } = bench();
          let settled = 0;
          for (const [answer, wait, drop] of script) {
            queue.ask({ verb: 'beat' }).then(
              () => settled++,
              (e: unknown) => {
                expect(e).toBeInstanceOf(CommandError);
                settled++;
              },
            );
            await timers.run(wait);
            const last = sent.at(-1);
            if (answer && last) queue.reply({ t: 'R', command: last.number, result: 'ok', value: null });
            if (drop) queue.drop('gone');
          }
          await timers.run(script.length * 1300 + 1300);
          expect(settled).toBe(script.length);
          expect(queue.waiting).toBe(0);
        },
      ),
      { numRuns: 60, seed: 11 },
    );
  });
});
