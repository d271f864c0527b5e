import type { JobBundle } from '../../job/bundle.ts';
import type { DeviceDescription } from '../../plan/device.ts';
import { SPAN_UNKNOWN } from '../../words/link.ts';
import type { Services } from '../context.ts';
import { keep, loadOne } from '../documents/store.ts';
import { planOf } from '../setup-of.ts';
import { bundleOf } from '../sheet/bundle.ts';

/**
 * The run's job for another device. The sensors of the sheet are screwed to the first one: by their documents the second
 * would be read wrong, so that they are taken off the sheet unless they name it. Where the first device came back with
 * another scale no document of its sensors holds.
 * @param deviceId null: none of the sheet's sensors is its own
 */
async function jobWith(app: Services, jobId: string, deviceId: string | null): Promise<JobBundle | null> {
  const bundle = await bundleOf(app, jobId);
  const stored = await loadOne(app, 'job', jobId);
  if (bundle === null || stored === null) return bundle;
  const isOwn = (id: string | null | undefined): boolean => deviceId !== null && id === deviceId;
  const own = new Set(bundle.sensors.filter((s) => isOwn(s.document.deviceId)).map((s) => s.id));
  const { device } = stored.document;
  const channels = device.channels.filter((c) => c.sensorId !== null && own.has(c.sensorId));
  if (channels.length === device.channels.length) return bundle;
  const job = { ...stored.document, device: { ...device, channels } };
  await keep(app, 'job', jobId, stored.revision, job);
  return { ...bundle, job, sensors: bundle.sensors.filter((s) => own.has(s.id)) };
}

/**
 * The device that answers goes on in the run: a Setup of its own channels, under the lower of the two ceilings.
 * @param rescaled it is the run's own by its name, with other channels or scales
 */
export async function takeDevice(app: Services, other: DeviceDescription, rescaled: boolean): Promise<void> {
  const { deviceId } = other.hello;
  const jobId = app.live.run()?.jobId ?? null;
  const bundle = jobId === null ? null : await jobWith(app, jobId, rescaled ? null : deviceId);
  const { setup } = planOf(app, bundle, (app.live.setup()?.number ?? 1) + 1, other);
  if (!setup.channels.some((c) => c.role === 'pressure')) {
    app.say(`${SPAN_UNKNOWN.title}. ${SPAN_UNKNOWN.todo}`);
    return;
  }
  await app.ask({ q: 'take-device', deviceId, setup });
  app.live.setSetup(setup);
}
