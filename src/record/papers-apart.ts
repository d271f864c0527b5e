/**
 * The papers that were sealed with a record, against the Setup that was in force: whoever looks a sensor up in the papers
 * should know where the run was judged by another.
 */
import { type JobBundle, parseBundle } from '../job/bundle.ts';
import type { SensorDocument } from '../job/sensor-document.ts';
import type { ChannelSetup } from '../job/setup.ts';
import { canonicalText } from './canonical.ts';
import type { Remark } from './findings.ts';
import type { Manifest } from './manifest.ts';

type Apart = Extract<Remark, { r: 'papers-apart' }>;
type What = Apart['what'][number];

const sameText = (a: unknown, b: unknown): boolean => canonicalText(a) === canonicalText(b);

/** What the plan takes from a sensor's document as it stands there. Of another signal it takes nothing. */
function sensorApart(ch: ChannelSetup, { serial, signal, range, calibration }: SensorDocument): What | null {
  if (signal !== ch.signal) return null;
  const isOther = ch.sensorSerial !== undefined && ch.sensorSerial !== null && ch.sensorSerial !== serial;
  if (isOther || range.lo !== ch.rangeLo || range.hi !== ch.rangeHi) return 'sensor';
  if (ch.calibration === null || calibration === null) return null;
  const { date, asFound, asLeft, uReference } = ch.calibration;
  const mine = { date, asFound, asLeft, uReference };
  const { date: d, asFound: f, asLeft: l, uReference: u } = calibration;
  return sameText(mine, { date: d, asFound: f, asLeft: l, uReference: u }) ? null : 'calibration';
}

function* apart({ job, sensors }: JobBundle, setup: Manifest['setups'][number]['setup']): Generator<What> {
  for (const { channel, sensorId } of job.device.channels) {
    const ch = setup.channels.find((c) => c.index === channel);
    const document = sensors.find((s) => s.id === sensorId)?.document;
    const what = ch === undefined || document === undefined ? null : sensorApart(ch, document);
    if (what !== null) yield what;
  }
}

/** By the last Setup of the run; nothing where the papers can't be read. */
export function papersApart(manifest: Manifest): readonly Apart[] {
  const setup = manifest.setups[manifest.setups.length - 1]?.setup;
  if (setup === undefined || manifest.job === null) return [];
  const parsed = parseBundle(manifest.job);
  const what = parsed.ok ? [...new Set(apart(parsed.value, setup))].sort() : [];
  return what.length === 0 ? [] : [{ r: 'papers-apart', what }];
}
