import { expect, it } from 'vitest';
import type { CommandFrame } from './frames.ts';
import { BEAT_MS, startHeartbeat } from './heartbeat.ts';
import { createQueue } from './queue.ts';
import { createManualTimers } from './testing/timers.ts';

function bench() {
  const timers = createManualTimers();
  const sent: CommandFrame[] = [];
  const queue = createQueue(
    async (frame) => {
      sent.push(frame);
    },
    timers,
    1,
  );
  let beaten = 0;
  const end = startHeartbeat(timers, queue, (idle) => {
    if (idle) beaten++;
  });
  const answer = () => queue.reply({ t: 'R', command: sent.at(-1)!.number, result: 'ok', value: null });
  return { timers, queue, sent, end, answer, beaten: () => beaten };
}

it('beats once a second, each time once only, answered or not', async () => {
  const { timers, sent, answer, beaten } = bench();
  await timers.run(BEAT_MS - 1);
  expect(sent).toEqual([]);
  await timers.run(1);
  answer();
  await timers.run(2 * BEAT_MS);
  expect(sent.map((k) => k.command.verb)).toEqual(['beat', 'beat', 'beat']);
  expect(new Set(sent.map((k) => k.number)).size).toBe(3);
  expect(beaten()).toBe(3);
});

it('says nothing while another command is on its way', async () => {
  const { timers, queue, sent, answer, beaten } = bench();
  const asked = queue.ask({ verb: 'read' }, { attempts: 9 });
  await timers.run(2.5 * BEAT_MS);
  expect(beaten()).toBe(0);
  answer();
  await asked;
  await timers.run(BEAT_MS);
  expect(sent.at(-1)?.command.verb).toBe('beat');
  expect(beaten()).toBe(1);
});

it('ended, it beats no more and leaves no timer, also where a beat is what ends it', async () => {
  const { timers, sent, end } = bench();
  await timers.run(BEAT_MS);
  end();
  await timers.run(5 * BEAT_MS);
  expect(sent).toHaveLength(1);
  expect(timers.pending).toBe(0);

  const again = createManualTimers();
  let beats = 0;
  const queue = createQueue(async () => undefined, again, 1);
  const stop = startHeartbeat(again, queue, () => {
    beats++;
    stop();
  });
  await again.run(5 * BEAT_MS);
  expect(beats).toBe(1);
  expect(again.pending).toBe(0);
});
