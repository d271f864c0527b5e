import { DEMO_IDS, type DemoNames, demoBundle } from '../../src/job/demo.ts';
import type { JobDocument } from '../../src/job/job-document.ts';
import { QUICK_RESIN } from '../../src/rig/cure.ts';
import type { RigDeviceOptions } from '../../src/rig/device.ts';
import type { SiteOptions } from '../../src/rig/options.ts';
import type { Stand } from './stand.ts';

/**
 * The repair that the stand goes through: the practice job's own figures under other names and ids, since a real line
 * is never judged by the practice job. Places, people, packer and resin are invented.
 */

const NAMES: DemoNames = {
  title: 'Crack at 12.4 m, 150 mm clay',
  site: 'Mill Lane 14, manhole M3 to M4',
  client: 'Town drains, north',
  notes: '',
  packer: 'Packer 17, 100-150',
  leakCheck: 'in the test pipe',
  resin: 'Resin R-12, two parts',
  transducer: 'Transducer 0-4 bar',
  reference: 'Test gauge G-3',
  sleeveProbe: 'Probe, sleeve',
  airProbe: 'Probe, air in the packer',
  pipeProbe: 'Probe, pipe',
};

export const DEVICE_ID = 'SB-0042';
const ownId = (id: string) => id.replace(/^demo-/, 'mill-');
export const JOB_ID = 'mill-job';
export const PACKER_ID = ownId(DEMO_IDS.packer);
export const RESIN_ID = ownId(DEMO_IDS.resin);

/** A quicker resin than the practice job's: the hold is an hour long at the stand's 10 °C. */
const CURE = [
  { c: 5, minutes: 70 },
  { c: 15, minutes: 40 },
  { c: 25, minutes: 24 },
];

/** The channel of a second transducer at the regulator's outlet: behind all others (src/rig/channels.ts). */
const OUTLET = { channel: 5, role: 'outlet-pressure', place: null, sensorId: null } as const;

/** Keeps packer, resin and sensors, as a firm enters them once. */
export async function keepFirm(stand: Stand): Promise<void> {
  const { packer, resin, sensors } = demoBundle(stand.names ?? NAMES);
  if (packer === null || resin === null) throw new Error('the job has no packer or no resin');
  await stand.put({ kind: 'packer', id: PACKER_ID, body: packer.document });
  await stand.put({ kind: 'resin', id: RESIN_ID, body: { ...resin.document, curePoints: CURE } });
  for (const { id, document } of sensors)
    await stand.put({ kind: 'sensor', id: ownId(id), body: { ...document, deviceId: DEVICE_ID } });
}

/** The filled job sheet. @param pair with a second pressure @param change what is otherwise in it */
export function jobSheet(
  pair = false,
  change: Partial<JobDocument> = {},
  names: DemoNames = NAMES,
): JobDocument {
  const { job } = demoBundle(names);
  const channels = job.device.channels.map((c) => ({
    ...c,
    sensorId: c.sensorId === null ? null : ownId(c.sensorId),
  }));
  return {
    ...job,
    packerId: PACKER_ID,
    resin: { ...job.resin, resinId: RESIN_ID },
    device: { ...job.device, deviceId: DEVICE_ID, channels: pair ? [...channels, OUTLET] : channels },
    ...change,
  };
}

/** Keeps the job with its packer, resin and sensors, as the job sheet would have. @param pair with a second pressure */
export async function keepJob(stand: Stand, pair = false): Promise<void> {
  await keepFirm(stand);
  await stand.put({ kind: 'job', id: JOB_ID, body: jobSheet(pair, {}, stand.names ?? NAMES) });
}

const SITE: SiteOptions = {
  airC: 16,
  // Far over the working pressure: the hand at the valve doses, and the cue helps it to stop.
  regulator: { setBar: 3, relieving: false },
  valve: { conductance: 9e-9 },
  hose: { lengthM: 20, innerMm: 8 },
  packer: { pipeMm: 150, lengthM: 1.2, freeInflationBar: 0.45 },
  pipe: { wallMm: 18, material: 'clay', groundC: 10, sleeveMm: 3, startC: 14, kinetics: QUICK_RESIN },
};

/** The site's device, switched on; what is given takes the place of the common. */
export const repairDevice = (site: SiteOptions = {}, deviceId = DEVICE_ID): RigDeviceOptions => ({
  seed: 7,
  deviceId,
  firmware: '1.4.0',
  site: {
    ...SITE,
    ...site,
    regulator: { ...SITE.regulator, ...site.regulator },
    packer: { ...SITE.packer, ...site.packer },
    pipe: { ...SITE.pipe, ...site.pipe },
  },
  channels: {
    tap: 'hose',
    transducer: { signal: 'current', rangeLoBar: 0, rangeHiBar: 4, bits: 16, offsetBar: 0.006 },
    probes: [{ at: 'sleeve' }, { at: 'air' }, { at: 'pipe' }],
  },
});

/**
 * The same with a second transducer at the regulator's outlet, of a wider span, and the regulator a little over the working pressure.
 * @param swapped each plugged in for the other, and the regulator shut yet
 */
export const pairDevice = (swapped = false): RigDeviceOptions => {
  const device = repairDevice({ regulator: { setBar: swapped ? 0 : 1.65 } });
  return {
    ...device,
    channels: {
      ...device.channels,
      tap: swapped ? 'supply' : 'hose',
      saysTap: 'hose',
      second: {
        tap: swapped ? 'hose' : 'supply',
        says: 'supply',
        transducer: { signal: 'current', rangeHiBar: 10, bits: 16, noiseBar: 0.002 },
      },
    },
  };
};

/** Connects, takes the job, zeroes: the three presses. @param saw is called between them */
export async function beginRepair(
  stand: Stand,
  device: RigDeviceOptions = repairDevice(),
  saw: (what: 'not-connected' | 'packer' | 'zero') => Promise<void> = async () => undefined,
  jobId = JOB_ID,
): Promise<void> {
  const { page } = stand;
  await stand.goto(`#/live/${jobId}`);
  await page.getByTestId('connect-device').waitFor();
  await stand.pass(1);
  await saw('not-connected');
  await stand.attach(device);
  await stand.press('connect-device', 'use-job');
  await stand.pass(4);
  await saw('packer');
  await stand.press('use-job', 'zero');
  await stand.pass(3);
  await saw('zero');
  await stand.press('zero', 'stage');
  await stand.pass(1.5);
}

/** Lets the packer down if it is not empty, ends the run and leaves the device. @returns the run's id */
export async function endRepair(stand: Stand): Promise<string> {
  const { stage } = await stand.view();
  if (stage !== 'done') {
    await stand.hand({ hand: 'valve', open: 0 });
    if (stage !== 'let-down' && stage !== 'prepare') await letDown(stand);
    await stand.hand({ hand: 'vent', open: true });
    await stand.pass(600, (v) => (v.bar ?? 9) < 0.01);
    await stand.pass(30);
    await acknowledge(stand);
    await stand.command({ c: 'stage', to: 'done', reason: 'agreed with the site manager' });
    await stand.pass(3);
  }
  const { runId } = await stand.ask({ q: 'end-run' });
  // Somebody has looked: no story begins beside the packer of another one.
  await stand.ask({ q: 'packer-empty', runId, title: '' });
  // Another packer by the same name: none begins with one that was over its rating and not inspected since.
  await keepJob(stand);
  await stand.ask({ q: 'disconnect' });
  await stand.goto('#/jobs');
  await stand.pass(60);
  return runId;
}

export async function mixed(stand: Stand): Promise<void> {
  await stand.command({ c: 'mixed' });
  await stand.pass(7 * 60);
}

/** Seats at the sheet's pressure and shuts the valve. */
export async function seat(stand: Stand): Promise<void> {
  await stand.command({ c: 'stage', to: 'seat' });
  await stand.pass(6);
  await stand.hand({ hand: 'valve', open: 0.3 });
  await stand.passUntil('seated', 120, (v) => (v.bar ?? 0) > 0.6);
  await stand.hand({ hand: 'valve', open: 0 });
  await stand.pass(8);
}

/** From the seat on towards the working pressure, up to 0.95 bar with the valve open. */
export async function inflate(stand: Stand, open = 0.45): Promise<void> {
  await stand.pass(14);
  // The dial gauge agrees to its last digit.
  await stand.command({ c: 'gauge', bar: Math.round(100 * ((await stand.view()).bar ?? 0)) / 100 });
  await stand.command({ c: 'stage', to: 'inflate' });
  await stand.pass(5);
  await stand.hand({ hand: 'valve', open });
  await stand.passUntil('filled half', 120, (v) => (v.bar ?? 0) > 0.95);
}

/** Goes on to the working pressure, shuts the valve with the cue and begins the hold. */
export async function hold(stand: Stand): Promise<void> {
  await stand.passUntil('filled', 120, (v) => (v.bar ?? 0) > 1.48 || v.guard.closeInS?.value === 0);
  await stand.hand({ hand: 'valve', open: 0 });
  await stand.pass(12);
  await stand.command({ c: 'stage', to: 'hold' });
  await stand.pass(60);
}

/** Everything up to the hold. */
export async function upToHold(stand: Stand, device: RigDeviceOptions = repairDevice()): Promise<void> {
  await beginRepair(stand, device);
  await mixed(stand);
  await seat(stand);
  await inflate(stand);
  await hold(stand);
}

/** Says the let-down and opens the vent. */
export async function letDown(stand: Stand): Promise<void> {
  await stand.command({ c: 'stage', to: 'let-down', reason: 'agreed with the site manager' });
  await stand.command({ c: 'vent', open: true });
  await stand.hand({ hand: 'vent', open: true });
}

/** Shuts the vent: the test of the rebound begins. */
export async function shutVent(stand: Stand): Promise<void> {
  await stand.hand({ hand: 'vent', open: false });
  await stand.pass(1);
  await stand.command({ c: 'vent', open: false });
}

/** Acknowledges whatever waits. */
export async function acknowledge(stand: Stand): Promise<void> {
  for (const { alarm, occurrence, state } of (await stand.view()).alarms)
    if (state === 'unacknowledged' || state === 'returned')
      await stand.command({ c: 'acknowledge', alarm, occurrence });
}
