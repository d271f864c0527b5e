import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { DEMO } from '../words/testing/demo.ts';
import { readBundle } from './bundle.ts';
import { parseDocument } from './documents.ts';

it('is valid document by document', () => {
  expect(parseDocument('job', DEMO.job).ok).toBe(true);
  expect(parseDocument('packer', DEMO.packer!.document).ok).toBe(true);
  expect(parseDocument('resin', DEMO.resin!.document).ok).toBe(true);
  for (const s of DEMO.sensors) expect(parseDocument('sensor', s.document).ok).toBe(true);
});

it('names nothing that it does not carry', () => {
  const sensors = DEMO.sensors.map((s) => s.id);
  for (const c of DEMO.job.device.channels) if (c.sensorId !== null) expect(sensors).toContain(c.sensorId);
  expect(DEMO.job.packerId).toBe(DEMO.packer!.id);
  expect(DEMO.job.resin.resinId).toBe(DEMO.resin!.id);
});

it('is the job file of the fixtures', () => {
  const text = readFileSync(new URL('../../fixtures/traces/demo-job.json', import.meta.url), 'utf8');
  expect(readBundle(text)).toEqual({ ok: true, value: DEMO });
});
