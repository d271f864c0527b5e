import { expect, it } from 'vitest';
import { createManualTimers } from '../testing/timers.ts';
import { createReplayPort } from './replay.ts';
import { portContract } from './testing/contract.ts';

const CAPTURE = new TextEncoder().encode('S,1,100,5,0,00000000\n'.repeat(40));

portContract('replay', (timers) => ({
  port: createReplayPort(CAPTURE, { chunkBytes: 7, everyMs: 20 }, timers),
  stir() {},
}));

it('plays every byte in order, then is gone', async () => {
  const timers = createManualTimers();
  const port = createReplayPort(CAPTURE, { chunkBytes: 13, everyMs: 0 }, timers);
  const got: number[] = [];
  let gone = 0;
  await port.open({ bytes: (c) => got.push(...c), recovered() {}, gone: () => gone++ });
  await timers.run(10);
  expect(new Uint8Array(got)).toEqual(CAPTURE);
  expect(gone).toBe(1);
});
