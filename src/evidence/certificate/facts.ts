/** What the certificate states, as rows of name and text, from the sealed record alone. */
import type { JobBundle } from '../../job/bundle.ts';
import { isPressureRole, isSecondPressure } from '../../job/pressure-roles.ts';
import type { ChannelSetup, Setup } from '../../job/setup.ts';
import type { Account } from '../../record/account.ts';
import type { Catalogue } from '../../words/catalogue.ts';
import { NO_VALUE } from '../../words/create-format.ts';
import { lastCup } from '../account.ts';
import { airTestTold } from '../air-test-told.ts';
import { cureTold } from '../cure-told.ts';
import type { Numbers } from '../messages.ts';
import { floorOfRecord, holdsOf } from '../numbers.ts';
import type { Seen } from './exceptions.ts';
import { packerTold } from './packer.ts';

export interface Row {
  readonly name: string;
  readonly text: string;
}

/** UTC, so that the page is the same wherever it is made. */
export function utcText(words: Catalogue, ms: number | null): string {
  const { CERTIFICATE: C } = words.certificate;
  if (ms === null) return C.notKnown;
  const iso = new Date(ms).toISOString();
  return C.utc(iso.slice(0, 10), iso.slice(11, 16));
}

/** A list of what is known. */
const listed = (words: Catalogue, ...list: (string | null | false)[]): string => {
  const kept = list.filter((p): p is string => typeof p === 'string' && p !== '');
  return kept.length === 0 ? words.certificate.CERTIFICATE.notKnown : kept.join(', ');
};

/** Size and material of the pipe; null: nothing of it is stated. */
export function pipeText({ bundle, words }: Seen): string | null {
  const { CERTIFICATE: C, PIPE_OF } = words.certificate;
  const pipe = bundle?.job.pipe ?? null;
  if (pipe === null) return null;
  const parts = [
    pipe.dn !== null && C.dn(pipe.dn),
    pipe.material !== 'unknown' && PIPE_OF[pipe.material],
    pipe.innerMm !== null && C.inner(words.format.fixed(pipe.innerMm, 0)),
  ].filter((p) => p !== false);
  return parts.length === 0 ? null : parts.join(', ');
}

export function repairRows(seen: Seen): readonly Row[] {
  const { manifest, bundle, words } = seen;
  const { CERTIFICATE: C, INFILTRATED } = words.certificate;
  const { fixed } = words.format;
  const or = (text: string): string => (text.trim() === '' ? C.notStated : text);
  const job = bundle?.job ?? null;
  const recorded = C.fromTo(utcText(words, manifest.openedUtcMs), utcText(words, manifest.endedUtcMs));
  if (job === null) return [{ name: C.date, text: recorded }];
  const { defect } = job;
  return [
    { name: C.site, text: or(job.site) },
    { name: C.client, text: or(job.client) },
    { name: C.reference, text: or(job.reference) },
    {
      name: C.defect,
      text: listed(
        words,
        words.fields.DEFECT[defect.kind],
        defect.chainageM !== null && C.chainage(fixed(defect.chainageM, 1)),
        defect.lengthMm !== null && C.long(fixed(defect.lengthMm, 0)),
        INFILTRATED[defect.infiltration],
      ),
    },
    { name: C.pipe, text: pipeText(seen) ?? C.notKnown },
    { name: C.crew, text: or(job.crew) },
    { name: C.date, text: recorded },
  ];
}

export function howRows({ bundle, setup, words }: Seen): readonly Row[] {
  const { CERTIFICATE: C, HOW_FED, WARMED_BY } = words.certificate;
  const { fixed, pressure, temperature } = words.format;
  const out: Row[] = [];
  const packer = packerTold(bundle?.packer?.document ?? null, words);
  const rated = setup?.limits?.ratedBar ?? null;
  out.push({ name: C.packer, text: listed(words, ...packer) });
  if (rated !== null) out.push({ name: C.rated, text: C.ratedHere(pressure(rated)) });
  const resin = bundle?.resin?.document ?? null;
  const used = bundle?.job.resin ?? null;
  const batches =
    used === null || used.resinBatch === ''
      ? null
      : used.hardenerBatch === ''
        ? C.batch(used.resinBatch)
        : C.batches(used.resinBatch, used.hardenerBatch);
  out.push({
    name: C.resin,
    text: listed(
      words,
      resin?.name ?? setup?.resin?.name ?? null,
      batches,
      used !== null && used.mixC !== null && C.mixedAt(temperature(used.mixC)),
    ),
  });
  const by = setup?.heating ?? null;
  if (by !== null) {
    const toC = bundle?.job.heating.toC ?? null;
    const isWarmed = by !== 'none' && by !== 'unknown';
    const to = isWarmed && toC !== null && C.warmedTo(temperature(toC));
    out.push({ name: C.warmed, text: listed(words, WARMED_BY[by], to) });
  }
  if (bundle !== null) {
    const { layers, endOverlapMm } = bundle.job.sleeve;
    out.push({
      name: C.sleeve,
      text: listed(words, C.layers(layers), C.overlap(fixed(endOverlapMm, 0))),
    });
  }
  if (setup !== null) {
    out.push({
      name: C.line,
      text: listed(words, HOW_FED[setup.line], setup.wetness === 'wet' && C.wetLine),
    });
    out.push({ name: C.tap, text: words.site.TAP[setup.tap] });
  }
  return out;
}

/** The four figures that a reader looks for first. */
export function figures(
  { manifest, setup, words }: Seen,
  numbers: Numbers,
): readonly { readonly value: string; readonly label: string }[] {
  const { CERTIFICATE: C } = words.certificate;
  const { pressure, pressureNumber, pressureRate, temperature } = words.format;
  const rated = setup?.limits?.ratedBar ?? null;
  const floor = floorOfRecord(manifest.events, setup).bar;
  const { leak, coldest } = numbers;
  const leakFigure =
    leak?.verdict === 'leaking'
      ? { value: pressureRate(leak.mbarPerMin), label: C.leakOf }
      : leak?.verdict === 'tight' && leak.high !== null
        ? {
            value: C.most(pressureRate(Math.max(0.1, Math.ceil(leak.high * 10 - 1e-9) / 10))),
            label: C.leakMost,
          }
        : { value: NO_VALUE, label: C.leakNone };
  return [
    {
      value: pressure(numbers.peakBar),
      label: rated === null ? C.peakOnly : C.peakRated(pressureNumber(rated)),
    },
    {
      value: pressure(numbers.lowestHoldBar),
      label: floor === null ? C.lowestOnly : C.lowestFloor(pressureNumber(floor)),
    },
    leakFigure,
    { value: coldest === null ? NO_VALUE : temperature(coldest.c), label: C.coldestShort },
  ];
}

/** Eight facts of how it was done, for the first page. */
export function firstRows(seen: Seen, account: Account): readonly Row[] {
  const { bundle, setup, words } = seen;
  const { CERTIFICATE: C } = words.certificate;
  const { fixed, pressure, temperature } = words.format;
  const limits = setup?.limits ?? null;
  const job = bundle?.job ?? null;
  const sensor = setup?.channels.find((c) => c.role === 'pressure') ?? null;
  const known = (text: string | null): string => (text === null || text === '' ? C.notKnown : text);
  return [
    { name: C.working, text: limits?.cue === true ? pressure(limits.workingBar) : C.notKnown },
    {
      name: C.sensor,
      text:
        sensor === null
          ? C.notKnown
          : limits === null
            ? sensorName(words, sensor, bundle)
            : C.sensorU(sensorName(words, sensor, bundle), pressure(limits.uBar)),
    },
    {
      name: C.batchesOf,
      text: listed(
        words,
        bundle?.resin?.document.name ?? setup?.resin?.name ?? null,
        job?.resin.resinBatch ?? null,
        job?.resin.hardenerBatch ?? null,
      ),
    },
    { name: C.calibrated, text: known(sensor?.calibration?.date ?? null) },
    {
      name: C.waterAbove,
      text: job === null || job.ground.waterM === null ? C.notKnown : C.metres(fixed(job.ground.waterM, 1)),
    },
    { name: words.account.ACCOUNT.supply, text: words.account.supplyProved(account) },
    { name: C.gaugeAtSeat, text: words.account.gaugeText(account) },
    {
      name: C.groundAt,
      text:
        job === null || job.ground.temperatureC === null ? C.notKnown : temperature(job.ground.temperatureC),
    },
    { name: C.tap, text: setup === null ? C.notKnown : words.site.TAP[setup.tap] },
  ];
}

export interface SensorRow {
  readonly sensor: string;
  readonly place: string;
  readonly calibration: string;
}

export function sensorRows({ bundle, setup, words }: Seen): readonly SensorRow[] {
  const channels = setup?.channels ?? [];
  return channels
    .filter((c) => isPressureRole(c.role) || c.role === 'temperature')
    .map((c) => ({
      sensor: sensorName(words, c, bundle),
      place: placeOf(words, c),
      calibration: calibrationText(words, c, bundle),
    }));
}

function placeOf(words: Catalogue, { role, place }: ChannelSetup): string {
  const { CERTIFICATE: C } = words.certificate;
  if (isSecondPressure(role)) return words.site.SECOND_PLACE[role];
  if (role === 'pressure') return C.onLine;
  return place === null ? C.notStated : words.terms.PLACE[place];
}

function documentOf(channel: ChannelSetup, bundle: JobBundle | null) {
  const assigned = bundle?.job.device.channels.find((a) => a.channel === channel.index)?.sensorId ?? null;
  return bundle?.sensors.find((s) => s.id === assigned)?.document ?? null;
}

function sensorName(words: Catalogue, channel: ChannelSetup, bundle: JobBundle | null): string {
  const { CERTIFICATE: C } = words.certificate;
  const document = documentOf(channel, bundle);
  const type = channel.thermocouple === null ? null : C.type(channel.thermocouple);
  if (document === null)
    return listed(words, C.channel(channel.index), type, channel.calibration?.sensorSerial ?? null);
  return listed(words, document.name, type, C.serial(document.serial));
}

function calibrationText(words: Catalogue, channel: ChannelSetup, bundle: JobBundle | null): string {
  const { CERTIFICATE: C } = words.certificate;
  const { calibration } = channel;
  if (calibration === null) return C.notCalibrated;
  const reference = documentOf(channel, bundle)?.calibration?.reference ?? '';
  return listed(words, calibration.date, reference !== '' && C.against(reference));
}

/** What the record shows of pressure and cure, each with its bounds. */
export function heldRows(seen: Seen, numbers: Numbers): readonly Row[] {
  const { manifest, setup, peakBar, words } = seen;
  const { CERTIFICATE: C, heldText } = words.certificate;
  const { pressure } = words.format;
  const limits = setup?.limits ?? null;
  const u = limits?.uBar ?? null;
  const out: Row[] = [];
  if (limits?.cue === true) out.push({ name: C.working, text: pressure(limits.workingBar) });
  const floor = floorOfRecord(manifest.events, setup);
  if (limits !== null) {
    const ceiling = pressure(limits.ceilingBar);
    const band =
      floor.bar === null
        ? C.bandUpTo(ceiling)
        : floor.seen
          ? C.bandSeen(pressure(floor.bar), ceiling)
          : C.bandOf(pressure(floor.bar), ceiling);
    out.push({ name: C.band, text: band });
  }
  const outlet = manifest.events.findLast((e) => e.e === 'outlet-stood');
  if (outlet?.e === 'outlet-stood') out.push({ name: C.outlet, text: pressure(outlet.bar) });
  const holds = holdsOf(manifest.events);
  if (holds.length === 0) out.push({ name: C.held_, text: C.noHold });
  holds.slice(-3).forEach((h, i, shown) => {
    const text = heldText(
      h.minutesInBand * 60,
      (h.tUs - h.fromUs) / 1e6,
      h.minBar,
      h.maxBar,
      u,
      floor.bar !== null,
    );
    const number = holds.length - shown.length + i + 1;
    out.push({ name: C.held_, text: holds.length === 1 ? text : C.holdNumber(number, text) });
  });
  const last = holds.at(-1);
  if (last !== undefined) out.push({ name: C.leak, text: words.hold.leakText(last.leak) });
  const peak =
    peakBar === null ? C.notKnown : u === null ? pressure(peakBar) : C.peakU(pressure(peakBar), pressure(u));
  out.push({ name: C.peak, text: peak });
  out.push({ name: C.cure, text: cureText(seen, setup) });
  const cup = lastCup(manifest.events);
  if (cup !== null) out.push({ name: C.cup, text: words.events.eventText(cup) });
  const air = airTestTold(manifest.events, setup);
  if (air.last !== null) {
    const { judgedText, airTestEvent } = words.airTest;
    out.push({
      name: C.airTest,
      text: air.last.what === 'judged' ? judgedText(air.last) : airTestEvent(air.last),
    });
  } else if (air.planned) out.push({ name: C.airTest, text: C.airTestNone });
  const { coldest } = numbers;
  if (coldest !== null) out.push({ name: C.coldest, text: words.hold.coldestValue(coldest) });
  return out;
}

function cureText({ manifest, words }: Seen, setup: Setup | null): string {
  const { CURE_LINE } = words.certificate;
  if (setup?.resin?.curedBy === 'light') return CURE_LINE.light;
  const { events } = manifest;
  const { start, met } = cureTold(events);
  const before =
    start?.before !== undefined && CURE_LINE.sinceMixing(start.before.minutes, start.before.coldestC);
  if (met !== null) {
    const end = holdsOf(events).findLast((h) => h.tUs >= met.tUs);
    return listed(
      words,
      CURE_LINE.met,
      start !== null && CURE_LINE.metAfter((met.tUs - start.tUs) / 1e6),
      before,
      end !== undefined && CURE_LINE.metThen((end.tUs - met.tUs) / 1e6),
    );
  }
  if (setup?.resin === null || setup?.resin === undefined) return CURE_LINE.noResin;
  if (start === null) return CURE_LINE.notStarted;
  return listed(words, CURE_LINE.notMet((manifest.pages.lastUs - start.tUs) / 1e6), before);
}
