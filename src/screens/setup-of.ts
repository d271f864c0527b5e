import type { JobBundle } from '../job/bundle.ts';
import { blankJob } from '../job/job-document.ts';
import type { DeviceDescription } from '../plan/device.ts';
import { makeSetup, type Plan } from '../plan/setup.ts';
import { LIVE } from '../words/live.ts';
import type { LinkShown, Services } from './context.ts';
import { DEMO } from './demo.ts';
import { suggestedTap } from './sheet/tap.ts';

/** A real line is never judged by an invented packer, resin or sensor: what the practice job holds stays out of it. */
export function withoutPractice(bundle: JobBundle): JobBundle {
  const { packer, resin, sensors } = bundle;
  return {
    ...bundle,
    packer: packer?.id === DEMO.packer?.id ? null : packer,
    resin: resin?.id === DEMO.resin?.id ? null : resin,
    sensors: sensors.filter((s) => !DEMO.sensors.some((d) => d.id === s.id)),
  };
}

/** The second adapter as it described itself; null: there is none. */
function besideOf(link: LinkShown | null): NonNullable<DeviceDescription['beside']> | null {
  const hello = link?.beside?.hello ?? null;
  return hello === null ? null : { hello, channels: link?.beside?.channels ?? [] };
}

/**
 * The plan of a job as things stand: the connected device describes its channels, the settings give the reaction
 * times, and the zero counts only once it was taken. Without a job the device's own scale is used and no limit is
 * set.
 * @param number of the Setup: one more than the last of the run
 * @param beside the second adapter that was connected just now
 * @param other the device that is to be read, where it is not the one that is: its zero is not taken
 */
export function planOf(
  app: Services,
  bundle: JobBundle | null,
  number: number,
  other: DeviceDescription | null = null,
  beside: NonNullable<DeviceDescription['beside']> | null = null,
): Plan {
  const link = app.live.link();
  const hello = link?.hello ?? null;
  const first = other ?? (hello === null ? null : { hello, channels: link?.channels ?? [] });
  const second = beside ?? besideOf(link);
  const device = first === null || second === null ? first : { ...first, beside: second };
  const view = app.live.view();
  const gauge = {
    jobId: null,
    job: { ...blankJob(LIVE.packerNone), tap: suggestedTap(device?.channels ?? []) },
    packer: null,
    resin: null,
    sensors: [],
  };
  const own = bundle !== null && link?.kind === 'serial' ? withoutPractice(bundle) : bundle;
  return makeSetup({
    bundle: own ?? gauge,
    settings: app.settings(),
    device,
    number,
    before: number > 1 ? app.live.setup() : null,
    practice: link?.kind === 'rig',
    earlier: app.sensorRuns(),
    zeroed: other === null && view !== null && view.firstUs !== null && !view.standing.includes('not-zeroed'),
  });
}
