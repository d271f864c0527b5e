import { expect, it } from 'vitest';
import { createRigDevice } from '../../rig/device.ts';
import { createSession } from '../session.ts';
import { createManualTimers } from '../testing/timers.ts';
import { createRigPort } from './rig.ts';
import { portContract } from './testing/contract.ts';

portContract('rig', (timers) => {
  const device = createRigDevice({ seed: 1, bootS: 0.01 });
  return {
    port: createRigPort(device, timers),
    stir: () => device.press(),
    unplug: () => device.fault({ fault: 'unplug' }),
    replug: () => device.fault({ fault: 'replug' }),
  };
});

it('carries a session: greeting, 50 samples a second, unplug, replug, reset', async () => {
  const timers = createManualTimers();
  const device = createRigDevice({ seed: 2 });
  let samples = 0;
  let boots = 0;
  const session = createSession(
    createRigPort(device, timers),
    timers,
    {
      frame(f) {
        if (f.t === 'S') samples++;
        if (f.t === 'H') boots++;
      },
      stray() {},
      state() {},
      error() {},
    },
    { rateHz: 50, expected: null, firstCommand: 7 },
  );
  const connected = session.connect();
  await timers.run(1500);
  await connected;
  const before = samples;
  await timers.run(2000);
  expect(samples - before).toBeGreaterThanOrEqual(99);
  expect(samples - before).toBeLessThanOrEqual(101);
  const bootId = session.greeting?.hello.bootId;
  device.fault({ fault: 'unplug' });
  await timers.run(100);
  expect(session.state).toBe('lost');
  device.fault({ fault: 'replug' });
  await timers.run(2500);
  expect(session.state).toBe('streaming');
  expect(session.greeting?.hello.bootId).not.toBe(bootId);
  device.fault({ fault: 'reset' });
  await timers.run(3000);
  expect(session.state).toBe('streaming');
  expect(boots).toBeGreaterThanOrEqual(3);
  const after = samples;
  await timers.run(1000);
  expect(samples).toBeGreaterThan(after + 45);
  const closed = session.close();
  await timers.run(500);
  await closed;
});
