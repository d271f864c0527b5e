/**
 * The job's papers as a sealed record carries them: the job with its packer, resin and sensors. They may come from
 * anywhere, so nothing of them is believed before its schema has taken it.
 */

import type { Named } from '../job/bundle.ts';
import { type JobBundle, parseBundle, toBundle } from '../job/bundle.ts';
import type { Documents, JobDocumentKind } from '../job/documents.ts';
import { parseDocument } from '../job/documents.ts';
import type { SensorDocument } from '../job/sensor-document.ts';
import type { DocumentStore } from '../record/stores/store.ts';

async function read<K extends JobDocumentKind>(
  documents: DocumentStore,
  kind: K,
  id: string | null,
): Promise<Named<Documents[K]> | null> {
  if (id === null) return null;
  const stored = await documents.get(kind, id);
  const parsed = stored === null ? null : parseDocument(kind, stored.body);
  return parsed?.ok === true ? { id, document: parsed.value } : null;
}

/** The job as it is now, ready for the manifest; null when there is none or it can't be read. */
export async function papersOf(documents: DocumentStore, jobId: string | null): Promise<unknown> {
  const job = await read(documents, 'job', jobId);
  if (job === null || jobId === null) return null;
  const { packerId, resin, device } = job.document;
  const sensors: Named<SensorDocument>[] = [];
  for (const id of new Set(device.channels.map((c) => c.sensorId))) {
    const sensor = await read(documents, 'sensor', id);
    if (sensor !== null) sensors.push(sensor);
  }
  return toBundle({
    jobId,
    job: job.document,
    packer: await read(documents, 'packer', packerId),
    resin: await read(documents, 'resin', resin.resinId),
    sensors,
  });
}

/** The papers in a record; null when there are none that this program can read. */
export function bundleIn(papers: unknown): JobBundle | null {
  if (papers === null || papers === undefined) return null;
  const parsed = parseBundle(papers);
  return parsed.ok ? parsed.value : null;
}
