import { expect, it } from 'vitest';
import { createSession } from './session.ts';
import { createScriptedPort } from './testing/device.ts';
import { createManualTimers } from './testing/timers.ts';

it('opens the port that the user chose, at whatever speed; others that fit have their turn after a loss only', async () => {
  const timers = createManualTimers();
  const site = createScriptedPort();
  const opened: { baudRate: number; turn: number }[] = [];
  const quiet = () => undefined;
  const session = createSession(
    {
      ...site.port,
      open: (events, how) => {
        opened.push(how);
        return site.port.open(events, how);
      },
    },
    timers,
    { frame: quiet, stray: quiet, state: quiet, error: quiet },
    { rateHz: 50, expected: null, firstCommand: 100, speeds: [500_000, 115_200] },
  );
  site.device.deaf = true;
  const connected = session.connect().catch(() => undefined);
  await timers.run(20_000);
  await connected;
  expect(opened.map((how) => how.baudRate)).toEqual([500_000, 115_200]);
  expect(opened.every((how) => how.turn === 0)).toBe(true);
  site.device.deaf = false;
  const again = session.connect();
  await timers.run(5000);
  await again;
  expect(opened.at(-1)?.turn).toBe(0);
  opened.length = 0;
  site.pull();
  await timers.run(5000);
  expect(opened.length).toBeGreaterThan(1);
  expect(opened.map((how) => how.turn)).toEqual(opened.map((_, i) => i + 1));
});
