/** What the certificate states, as rows of name and text, from the sealed record alone. */
import type { JobBundle } from '../../job/bundle.ts';
import type { ChannelSetup, Setup } from '../../job/setup.ts';
import { CERTIFICATE as C, CURE_LINE, heldText, SIGNAL_SIDE } from '../../words/certificate.ts';
import { DEFECT, INFILTRATION } from '../../words/fields.ts';
import { duration, fixed, pressure, temperature } from '../../words/format.ts';
import { leakText } from '../../words/hold.ts';
import { MATERIAL, PLACE, TAP } from '../../words/terms.ts';
import type { Numbers } from '../messages.ts';
import { floorOfRecord, holdsOf } from '../numbers.ts';
import type { Seen } from './exceptions.ts';

export interface Row {
  readonly name: string;
  readonly text: string;
}

/** UTC, so that the page is the same wherever it is made. */
export function utcText(ms: number | null): string {
  if (ms === null) return C.notKnown;
  const iso = new Date(ms).toISOString();
  return `${iso.slice(0, 10)} ${iso.slice(11, 16)} UTC`;
}

const or = (text: string): string => (text.trim() === '' ? C.notStated : text);
const parts = (...list: (string | null | false)[]): string => {
  const kept = list.filter((p): p is string => typeof p === 'string' && p !== '');
  return kept.length === 0 ? C.notKnown : kept.join(', ');
};
const mm = (v: number): string => `${fixed(v, 0)} mm`;

export function repairRows({ manifest, bundle }: Seen): readonly Row[] {
  const job = bundle?.job ?? null;
  const recorded = `${utcText(manifest.openedUtcMs)} to ${utcText(manifest.endedUtcMs)}`;
  if (job === null) return [{ name: C.date, text: recorded }];
  const { defect, pipe } = job;
  return [
    { name: C.site, text: or(job.site) },
    { name: C.client, text: or(job.client) },
    { name: C.reference, text: or(job.reference) },
    {
      name: C.defect,
      text: parts(
        DEFECT[defect.kind],
        defect.chainageM !== null && `${C.chainage} ${fixed(defect.chainageM, 1)} m ${C.fromManhole}`,
        defect.lengthMm !== null && `${mm(defect.lengthMm)} ${C.long}`,
        `${C.infiltration} ${INFILTRATION[defect.infiltration].toLowerCase()}`,
      ),
    },
    {
      name: C.pipe,
      text: parts(
        pipe.dn !== null && `DN ${pipe.dn}`,
        pipe.material !== 'unknown' && MATERIAL[pipe.material].toLowerCase(),
        pipe.innerMm !== null && `${C.inner} ${mm(pipe.innerMm)}`,
      ),
    },
    { name: C.crew, text: or(job.crew) },
    { name: C.date, text: recorded },
  ];
}

export function howRows({ bundle, setup }: Seen): readonly Row[] {
  const out: Row[] = [];
  const packer = bundle?.packer?.document ?? null;
  const rated = setup?.limits?.ratedBar ?? null;
  out.push({
    name: C.packer,
    text: parts(
      packer?.name ?? null,
      packer !== null && packer.serial !== '' && `${C.serial} ${packer.serial}`,
    ),
  });
  if (rated !== null) out.push({ name: C.rated, text: `${pressure(rated)} ${C.ratedHere}` });
  const resin = bundle?.resin?.document ?? null;
  const used = bundle?.job.resin ?? null;
  const name = resin?.name ?? setup?.resin?.name ?? null;
  out.push({
    name: C.resin,
    text: parts(
      name,
      used !== null &&
        used.resinBatch !== '' &&
        `${C.batches} ${used.resinBatch}${used.hardenerBatch === '' ? '' : ` and ${used.hardenerBatch}`}`,
      used !== null && used.mixC !== null && `${C.mixedAt} ${temperature(used.mixC)}`,
    ),
  });
  if (bundle !== null) {
    const { sleeve } = bundle.job;
    out.push({
      name: C.sleeve,
      text: `${C.layers(sleeve.layers)}, ${mm(sleeve.endOverlapMm)} ${C.overlap}`,
    });
  }
  if (setup !== null) {
    out.push({ name: C.line, text: SIGNAL_SIDE[setup.line] });
    out.push({ name: C.tap, text: TAP[setup.tap] });
  }
  return out;
}

export interface SensorRow {
  readonly sensor: string;
  readonly place: string;
  readonly calibration: string;
}

export function sensorRows({ bundle, setup }: Seen): readonly SensorRow[] {
  const channels = setup?.channels ?? [];
  return channels
    .filter((c) => c.role === 'pressure' || c.role === 'temperature')
    .map((c) => ({
      sensor: sensorName(c, bundle),
      place: c.role === 'pressure' ? C.line.toLowerCase() : c.place === null ? C.notStated : PLACE[c.place],
      calibration: calibrationText(c, bundle),
    }));
}

function documentOf(channel: ChannelSetup, bundle: JobBundle | null) {
  const assigned = bundle?.job.device.channels.find((a) => a.channel === channel.index)?.sensorId ?? null;
  return bundle?.sensors.find((s) => s.id === assigned)?.document ?? null;
}

function sensorName(channel: ChannelSetup, bundle: JobBundle | null): string {
  const document = documentOf(channel, bundle);
  const type = channel.thermocouple === null ? '' : `type ${channel.thermocouple}`;
  if (document === null)
    return parts(`channel ${channel.index}`, type, channel.calibration?.sensorSerial ?? null);
  return parts(document.name, type, `${C.serial} ${document.serial}`);
}

function calibrationText(channel: ChannelSetup, bundle: JobBundle | null): string {
  const { calibration } = channel;
  if (calibration === null) return C.notCalibrated;
  const reference = documentOf(channel, bundle)?.calibration?.reference ?? '';
  return parts(calibration.date, reference !== '' && `${C.against} ${reference}`);
}

/** What the record shows of pressure and cure, each with its bounds. */
export function heldRows(seen: Seen, numbers: Numbers): readonly Row[] {
  const { manifest, setup, peakBar } = seen;
  const limits = setup?.limits ?? null;
  const u = limits?.uBar ?? null;
  const out: Row[] = [];
  if (limits?.cue === true) out.push({ name: C.working, text: pressure(limits.workingBar) });
  const floor = floorOfRecord(manifest.events, setup);
  if (limits !== null)
    out.push({
      name: C.band,
      text:
        floor.bar === null
          ? `${C.noLowerEdge}, ${C.upTo} ${pressure(limits.ceilingBar)}`
          : `${pressure(floor.bar)} to ${pressure(limits.ceilingBar)}${floor.seen ? ` (${C.floorSeen})` : ''}`,
    });
  const holds = holdsOf(manifest.events);
  if (holds.length === 0) out.push({ name: C.held_, text: C.noHold });
  holds.slice(-3).forEach((h, i, shown) => {
    const which = holds.length === 1 ? '' : C.holdNumber(holds.length - shown.length + i + 1);
    const text = heldText(
      h.minutesInBand * 60,
      (h.tUs - h.fromUs) / 1e6,
      h.minBar,
      h.maxBar,
      u,
      floor.bar !== null,
    );
    out.push({ name: C.held_, text: `${which}${text}` });
  });
  const last = holds.at(-1);
  if (last !== undefined) out.push({ name: C.leak, text: leakText(last.leak) });
  out.push({
    name: C.peak,
    text:
      peakBar === null ? C.notKnown : `${pressure(peakBar)}${u === null ? '' : ` ± ${pressure(u)} (k = 2)`}`,
  });
  out.push({ name: C.cure, text: cureText(seen, setup) });
  const { coldest } = numbers;
  if (coldest !== null) {
    const place = coldest.place as keyof typeof PLACE | null;
    out.push({
      name: C.coldest,
      text: `${temperature(coldest.c)} (${place === null ? C.notStated : PLACE[place]})`,
    });
  }
  return out;
}

function cureText({ manifest }: Seen, setup: Setup | null): string {
  const { events } = manifest;
  const start = events.find((e) => e.e === 'cure-start');
  const met = events.find((e) => e.e === 'cure-met');
  if (met !== undefined) {
    const end = holdsOf(events).findLast((h) => h.tUs >= met.tUs);
    return parts(
      CURE_LINE.met,
      start !== undefined && CURE_LINE.metAfter((met.tUs - start.tUs) / 1e6),
      end !== undefined && CURE_LINE.metThen((end.tUs - met.tUs) / 1e6),
    );
  }
  if (setup?.resin === null || setup?.resin === undefined) return CURE_LINE.noResin;
  if (start === undefined) return CURE_LINE.notStarted;
  const last = manifest.pages.lastUs;
  return `${CURE_LINE.notMet}; ${duration((last - start.tUs) / 1e6)} were counted`;
}
