import type { JobBundle, Named } from '../../job/bundle.ts';
import type { SensorDocument } from '../../job/sensor-document.ts';
import type { Services } from '../context.ts';
import { DEMO } from '../demo.ts';
import { loadOne } from '../documents/store.ts';

/** A job with everything that it refers to; null when the job is gone. The practice job is always there. */
export async function bundleOf(app: Services, jobId: string): Promise<JobBundle | null> {
  const job = await loadOne(app, 'job', jobId);
  if (job === null) return jobId === DEMO.jobId ? DEMO : null;
  const { packerId, resin, device } = job.document;
  const packer = packerId === null ? null : await loadOne(app, 'packer', packerId);
  const resinKept = resin.resinId === null ? null : await loadOne(app, 'resin', resin.resinId);
  const sensors: Named<SensorDocument>[] = [];
  for (const id of new Set(device.channels.flatMap((c) => (c.sensorId === null ? [] : [c.sensorId])))) {
    const sensor = await loadOne(app, 'sensor', id);
    const document = sensor?.document ?? DEMO.sensors.find((s) => s.id === id)?.document;
    if (document !== undefined) sensors.push({ id, document });
  }
  const demoPacker = packerId === DEMO.packer?.id ? DEMO.packer : null;
  const demoResin = resin.resinId === DEMO.resin?.id ? DEMO.resin : null;
  return {
    jobId,
    job: job.document,
    packer: packer === null ? demoPacker : { id: packer.id, document: packer.document },
    resin: resinKept === null ? demoResin : { id: resinKept.id, document: resinKept.document },
    sensors,
  };
}
