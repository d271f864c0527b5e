import type { JobBundle } from '../../job/bundle.ts';
import type { JobDocument } from '../../job/job-document.ts';
import { HELLO, JUNCTION, PRESS, PROBE } from '../../sensing/testing/device.ts';
import { DEMO } from '../../words/testing/demo.ts';
import { makeSetup, type Plan } from '../setup.ts';

/** The practice job and its device, planned with changes. */

export const DEVICE = {
  hello: { ...HELLO, deviceId: 'RIG-0001', channels: 5, maxRateHz: 200 },
  channels: [
    PRESS,
    { ...PROBE, partner: 4 },
    { ...PROBE, index: 2, place: 'air', partner: 4 },
    { ...PROBE, index: 3, place: 'pipe', partner: 4 },
    { ...JUNCTION, index: 4 },
  ],
} as const;

export const plan = (
  job: Partial<JobDocument> = {},
  more: Partial<JobBundle> = {},
  device: typeof DEVICE | null = DEVICE,
): Plan =>
  makeSetup({
    bundle: { ...DEMO, ...more, job: { ...DEMO.job, ...job } },
    settings: null,
    device,
    number: 1,
    practice: false,
  });
export const pressures = (p: Partial<JobDocument['pressures']>) => ({
  pressures: { ...DEMO.job.pressures, ...p },
});
export const codes = (list: readonly { code: string }[]) => list.map((n) => n.code);
export const derived = (p: Plan, code: string) => p.derivations.find((d) => d.code === code)?.value;
export const packer = DEMO.packer!.document;
