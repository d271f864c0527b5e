import type { SerialChoice } from '../../engine/messages.ts';
import { isBeside } from '../../job/beside.ts';
import type { DeviceDescription } from '../../plan/device.ts';
import { BESIDE } from '../../words/beside.ts';
import type { Services } from '../context.ts';
import { planOf } from '../setup-of.ts';
import { bundleOf } from '../sheet/bundle.ts';

/**
 * The run reads the second adapter from now on: a Setup like the one in force but for its channels. What else was changed on the
 * sheet since waits for the crew's own press.
 */
export async function readBeside(
  app: Services,
  beside: NonNullable<DeviceDescription['beside']>,
): Promise<void> {
  const run = app.live.run();
  const before = app.live.setup();
  if (run === null || before === null) return;
  const bundle = run.jobId === null ? null : await bundleOf(app, run.jobId);
  const number = before.number + 1;
  const { channels } = planOf(app, bundle, number, null, beside).setup;
  const setup = {
    ...before,
    number,
    channels: [
      ...before.channels.filter((c) => !isBeside(c.index)),
      ...channels.filter((c) => isBeside(c.index)),
    ],
    besideId: beside.hello.deviceId,
  };
  const askedUs = app.live.view()?.tUs ?? 0;
  await app.ask({ q: 'setup', setup });
  const refused = app.live.events().findLast((e) => e.e === 'setup-refused' && e.tUs >= askedUs);
  if (refused === undefined) app.live.setSetup(setup);
  else app.say(BESIDE.refused);
}

/** Connects it, and in a run has it read. */
export async function connectBeside(app: Services, port: SerialChoice): Promise<void> {
  await readBeside(app, await app.ask({ q: 'connect-beside', port }));
}
