/**
 * The papers that were sealed with a record, against the Setups that were in force while there was work: the certificate names
 * packer, resin, pipe and sensors as the papers have them, and whoever looks them up should know where the run was judged by others.
 */
import { type JobBundle, parseBundle } from '../job/bundle.ts';
import { ratedFor } from '../job/packer-table.ts';
import type { SensorDocument } from '../job/sensor-document.ts';
import type { ChannelSetup, Setup } from '../job/setup.ts';
import { parseSetup } from '../job/setup-schema.ts';
import { canonicalText } from './canonical.ts';
import type { PaperPart, Remark } from './findings.ts';
import type { Manifest } from './manifest.ts';

type Apart = Extract<Remark, { r: 'papers-apart' }>;

/** Of a mean of logarithms. */
const ROUNDING = 1e-9;

const sameText = (a: unknown, b: unknown): boolean => canonicalText(a) === canonicalText(b);

/** What the plan takes from a sensor's document as it stands there. Of another signal it takes nothing. */
function sensorApart(
  ch: ChannelSetup,
  { serial, signal, range, calibration, accuracy, perKelvin }: SensorDocument,
): PaperPart | null {
  if (signal !== ch.signal) return null;
  const isOther = ch.sensorSerial !== undefined && ch.sensorSerial !== null && ch.sensorSerial !== serial;
  if (isOther || range.lo !== ch.rangeLo || range.hi !== ch.rangeHi) return 'sensor';
  if (accuracy !== null && ch.uSensor !== accuracy / 2) return 'sensor';
  if (perKelvin !== null && ch.perKelvin !== perKelvin / 100) return 'sensor';
  if (ch.calibration === null || calibration === null) return null;
  const { date, asFound, asLeft, uReference } = ch.calibration;
  const mine = { date, asFound, asLeft, uReference };
  const { date: d, asFound: f, asLeft: l, uReference: u } = calibration;
  return sameText(mine, { date: d, asFound: f, asLeft: l, uReference: u }) ? null : 'calibration';
}

/** The plan takes the packer's own rating, or the lower one of another packer on the line. */
function isOtherPacker({ job, packer }: JobBundle, { limits, pipe }: Setup): boolean {
  if (limits === null || packer === null) return false;
  const own = ratedFor(packer.document, pipe?.innerMm ?? null);
  return limits.ratedBar !== own && limits.ratedBar !== job.otherRatedBar;
}

/** What a Setup says that has not the member: it is of before that was asked. */
const UNASKED = { curedBy: 'time', countsFrom: 'unstated' } as const;

/** Members that both know. */
function isOtherResin({ resin }: JobBundle, { resin: used }: Setup): boolean {
  if (used === null || resin === null) return (used === null) !== (resin === null);
  const { document: sheet } = resin;
  const of = { ...sheet, points: sheet.curePoints.map(({ c, minutes }) => ({ c, minutes })) };
  const members = ['name', 'criterion', 'points', 'lowestC', 'exotherm', 'expectedRiseK'] as const;
  const later = ['curedBy', 'countsFrom'] as const;
  return (
    members.some((m) => !sameText(used[m], of[m])) || later.some((m) => (used[m] ?? UNASKED[m]) !== of[m])
  );
}

/**
 * Temperature of the mix and the witness cup, where the Setup has them: they may be typed late, and never be others. What the plan makes
 * of earlier cups lies among them.
 */
function isOtherMix({ job, resin }: JobBundle, { resin: used }: Setup): boolean {
  const { potC, cup } = used ?? {};
  if (potC !== undefined && potC !== job.resin.mixC) return true;
  if (cup === undefined) return false;
  if (cup.massG !== job.resin.cupMassG) return true;
  const { mark } = cup;
  if (mark === null) return false;
  const { document: sheet } = resin ?? {};
  const earlier = sheet?.cupMarks ?? [];
  const ages = earlier.map((m) => m.mark);
  const isAmong = mark.age >= Math.min(...ages) - ROUNDING && mark.age <= Math.max(...ages) + ROUNDING;
  return !isAmong || mark.batches > earlier.length || !earlier.some((m) => m.riseK === mark.riseK);
}

function isOtherPipe({ job }: JobBundle, { pipe }: Setup): boolean {
  const stated = job.pipe.innerMm ?? job.pipe.dn;
  return stated !== null && pipe !== null && stated !== pipe.innerMm;
}

const isOtherSite = ({ job }: JobBundle, setup: Setup): boolean =>
  job.tap !== setup.tap ||
  job.line !== setup.line ||
  (setup.wetness !== undefined && job.wetness !== setup.wetness) ||
  (setup.heating !== undefined && job.heating.by !== setup.heating) ||
  (setup.infiltration !== undefined && job.defect.infiltration !== setup.infiltration);

/** Method, size, length and groundwater of its air test: all that its numbers are made of. */
function isOtherAirTest({ job }: JobBundle, { airTest, limits, pipe }: Setup): boolean {
  if (airTest === undefined) return false;
  const isF1417 = airTest.method === 'F1417';
  const mm = isF1417 ? pipe?.innerMm : (job.pipe.dn ?? pipe?.innerMm);
  return (
    airTest.method !== job.airTest.method ||
    airTest.lengthM !== job.airTest.lengthM ||
    airTest.mm !== mm ||
    airTest.headBar !== (isF1417 ? (limits?.headBar ?? null) : null)
  );
}

function* apart(bundle: JobBundle, setup: Setup): Generator<PaperPart> {
  for (const { channel, sensorId } of bundle.job.device.channels) {
    const ch = setup.channels.find((c) => c.index === channel);
    const document = bundle.sensors.find((s) => s.id === sensorId)?.document;
    const what = ch === undefined || document === undefined ? null : sensorApart(ch, document);
    if (what !== null) yield what;
  }
  if (isOtherPacker(bundle, setup)) yield 'packer';
  if (isOtherResin(bundle, setup) || isOtherMix(bundle, setup)) yield 'resin';
  if (isOtherPipe(bundle, setup)) yield 'pipe';
  if (isOtherSite(bundle, setup)) yield 'site';
  if (isOtherAirTest(bundle, setup)) yield 'air-test';
}

/** The Setups by which air was let in, and what came after: a sheet may be filled in before. */
function setupsOfWork({ setups, events }: Pick<Manifest, 'setups' | 'events'>): readonly Setup[] {
  const fromUs =
    events.find((e) => e.e === 'stage' && e.stage !== 'prepare')?.tUs ?? Number.POSITIVE_INFINITY;
  const inForce = Math.max(
    0,
    setups.findLastIndex((s) => s.tUs <= fromUs),
  );
  return setups.slice(inForce).map((s) => s.setup);
}

/** Nothing where the papers can't be read. */
export function papersApart(manifest: Manifest): readonly Apart[] {
  if (manifest.job === null) return [];
  const parsed = parseBundle(manifest.job);
  if (!parsed.ok) return [];
  const found = new Set<PaperPart>();
  const seen = new Set<string>();
  for (const setup of setupsOfWork(manifest)) {
    // Setups that differ in their number alone are held against the papers once.
    const text = canonicalText({ ...setup, number: 0 });
    // A manifest is anybody's: where its Setups are none, they are not those of the pages either, which is told.
    if (!seen.has(text) && parseSetup(setup).ok)
      for (const what of apart(parsed.value, setup)) found.add(what);
    seen.add(text);
  }
  const what = [...found].sort();
  return what.length === 0 ? [] : [{ r: 'papers-apart', what }];
}
