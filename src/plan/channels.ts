import { isBeside, ownChannel } from '../job/beside.ts';
import type { Named } from '../job/bundle.ts';
import type { ChannelAssignment, JobDocument } from '../job/job-document.ts';
import { isPressureRole, isSecondPressure } from '../job/pressure-roles.ts';
import type { SensorDocument } from '../job/sensor-document.ts';
import type { Calibration, ChannelSetup } from '../job/setup.ts';
import { fitCalibration, leftOf } from '../sensing/calibration.ts';
import { isSpanStated, suggestBeside, suggestChannels } from '../sensing/suggest.ts';
import type { DeviceDescription } from './device.ts';
import type { Notes } from './notes.ts';

/**
 * Channels of the Setup: the device's description gives the converter's scale, the sensor's document its span and
 * calibration, the job what sits where. The job wins over the device's suggestion.
 */

const DAY_MS = 86_400_000;

/** Whole days from one ISO date to another. */
const daysBetween = (from: string, to: string): number => (Date.parse(to) - Date.parse(from)) / DAY_MS;

function calibrationOf(
  sensor: SensorDocument,
  index: number,
  deviceId: string,
  jobDate: string | null,
  notes: Notes,
): Calibration | null {
  const c = sensor.calibration;
  if (c === null) {
    if (sensor.signal !== 'thermocouple') notes.warn('calibration-none', [], sensor.serial);
    return null;
  }
  const foreign =
    (sensor.deviceId !== null && sensor.deviceId !== deviceId) ||
    (sensor.channel !== null && sensor.channel !== index);
  if (foreign) {
    notes.warn('calibration-other-device', [], sensor.serial);
    return null;
  }
  const fit = fitCalibration(leftOf(c), sensor.range.hi - sensor.range.lo, sensor.quantity);
  if (!fit.ok) {
    notes.warn('calibration-refused', [], sensor.serial);
    return null;
  }
  if (jobDate !== null && sensor.dueDays !== null && daysBetween(c.date, jobDate) > sensor.dueDays)
    notes.warn('calibration-due', [], sensor.serial);
  return {
    deviceId,
    channel: index,
    sensorSerial: sensor.serial,
    date: c.date,
    asFound: c.asFound,
    asLeft: c.asLeft,
    offset: fit.offset,
    gain: fit.gain,
    uReference: c.uReference,
    uResidual: fit.uResidual,
  };
}

/** % of the span a kelvin on a sheet, a share of it in a Setup. */
const perKelvinOf = ({ perKelvin }: SensorDocument): { readonly perKelvin?: number } =>
  perKelvin === null ? {} : { perKelvin: perKelvin / 100 };

/** The device's suggestion with what sensor document and job know better. */
function withSensor(
  base: ChannelSetup,
  a: ChannelAssignment,
  sensor: SensorDocument,
  deviceId: string,
  jobDate: string | null,
  notes: Notes,
): ChannelSetup {
  if (sensor.retired) notes.warn('sensor-retired', [], sensor.serial);
  const place = a.role === 'temperature' ? a.place : null;
  if (sensor.signal !== base.signal) {
    // What arrives on the wire is what the device converts: a document of another signal is of another sensor.
    notes.warn('signal-differs', [], sensor.serial);
    return { ...base, role: a.role, place };
  }
  const type = sensor.thermocouple ?? base.thermocouple;
  return {
    ...base,
    role: a.role,
    place,
    thermocouple: type,
    thermocoupleClass: type === null ? null : (sensor.thermocoupleClass ?? 2),
    gaugeKind: isPressureRole(a.role) ? (sensor.gaugeKind ?? 'gauge') : null,
    spanElLo: sensor.span?.elLo ?? base.spanElLo,
    spanElHi: sensor.span?.elHi ?? base.spanElHi,
    rangeLo: sensor.range.lo,
    rangeHi: sensor.range.hi,
    calibration: calibrationOf(sensor, ownChannel(base.index), deviceId, jobDate, notes),
    uSensor: sensor.accuracy === null ? base.uSensor : sensor.accuracy / 2,
    ...perKelvinOf(sensor),
    sensorSerial: sensor.serial,
  };
}

/** Digital sensors send their value itself: the span in Pa or m°C follows the range. */
function digitalSpan(ch: ChannelSetup): ChannelSetup {
  if (ch.signal !== 'digital') return ch;
  const per = isPressureRole(ch.role) ? 1e5 : 1e3;
  return { ...ch, spanElLo: ch.rangeLo * per, spanElHi: ch.rangeHi * per };
}

/** Read by no scale: it would show a number that is wrong and looks right. */
const isUnscaled = (ch: ChannelSetup): boolean => ch.role !== 'unused' && !isSpanStated(ch);

export interface PlannedChannels {
  /** Empty where no device has described itself: the scale comes with it. */
  readonly channels: readonly ChannelSetup[];
  /** The pressure channel, or what would be one, for the uncertainty; null where nothing is known. */
  readonly pressure: ChannelSetup | null;
  readonly supplied: boolean;
}

/** A converter of which nothing is known, so that a sensor's own part of the uncertainty can be told. */
function imagined(sensor: SensorDocument): ChannelSetup {
  const span = sensor.span ?? { elLo: sensor.range.lo * 1e5, elHi: sensor.range.hi * 1e5 };
  return {
    index: sensor.channel ?? 0,
    role: 'pressure',
    place: null,
    signal: sensor.signal,
    thermocouple: null,
    thermocoupleClass: null,
    gaugeKind: sensor.gaugeKind ?? 'gauge',
    partner: null,
    bits: 12,
    rawLo: 0,
    rawHi: 4095,
    elLo: Math.round(span.elLo),
    elHi: Math.round(span.elHi),
    spanElLo: span.elLo,
    spanElHi: span.elHi,
    rangeLo: sensor.range.lo,
    rangeHi: sensor.range.hi,
    calibration: null,
    uSensor:
      sensor.accuracy === null
        ? (0.01 * (sensor.range.hi - sensor.range.lo)) / Math.sqrt(3)
        : sensor.accuracy / 2,
    ...perKelvinOf(sensor),
  };
}

/** What a channel can be told to be: a thermocouple measures no pressure, whatever the sheet says. */
function quantityOf(ch: ChannelSetup): string {
  if (ch.role === 'unused') return ch.signal === 'thermocouple' ? 'temperature' : 'pressure';
  return isPressureRole(ch.role) ? 'pressure' : ch.role;
}

/** Beside the pressure that the guard goes by there is one more, and it sits elsewhere. */
function secondOf(
  channels: readonly ChannelSetup[],
  tap: JobDocument['tap'],
  notes: Notes,
): readonly ChannelSetup[] {
  const seconds = channels.filter((c) => isSecondPressure(c.role));
  const [kept] = seconds.filter((c) => c.role !== 'outlet-pressure' || tap !== 'supply');
  for (const c of seconds) {
    if (c === kept) continue;
    notes.warn('second-left-out', [], c.sensorSerial ?? `${c.index}`);
  }
  return channels.map((c) => (isSecondPressure(c.role) && c !== kept ? { ...c, role: 'unused' } : c));
}

export function planChannels(
  job: JobDocument,
  sensors: readonly Named<SensorDocument>[],
  device: DeviceDescription | null,
  notes: Notes,
): PlannedChannels {
  const byId = new Map(sensors.map((s) => [s.id, s.document]));
  const assignments = job.device.channels;
  if (device === null || device.channels.length === 0) {
    notes.warn('device-not-described');
    const id = assignments.find((a) => a.role === 'pressure')?.sensorId ?? null;
    const sensor = id === null ? undefined : byId.get(id);
    if (sensor === undefined || sensor.quantity !== 'pressure')
      return { channels: [], pressure: null, supplied: false };
    const base = imagined(sensor);
    const calibration = calibrationOf(sensor, base.index, sensor.deviceId ?? 'unknown', job.date, notes);
    return { channels: [], pressure: { ...base, calibration }, supplied: sensor.signal === 'ratio' };
  }
  const { beside } = device;
  const suggested = [...suggestChannels(device.channels), ...suggestBeside(beside?.channels ?? [])];
  const deviceOf = (index: number): string =>
    (isBeside(index) ? beside?.hello.deviceId : null) ?? device.hello.deviceId;
  const named = assignments.some((a) => a.role === 'pressure');
  // An empty assignment leaves it all to the device; a pressure channel that the job names takes the
  // place of the device's own; one that the device sets beside it stays, unless the job says otherwise.
  const assigned = suggested.map((base): ChannelSetup => {
    const a = assignments.find((x) => x.channel === base.index);
    if (a === undefined) return named && base.role === 'pressure' ? { ...base, role: 'unused' } : base;
    if (isBeside(base.index) && isPressureRole(a.role)) {
      notes.warn('beside-pressure', [], `${ownChannel(a.channel)}`);
      return base;
    }
    if (a.role !== 'unused' && quantityOf(base) !== quantityOf({ ...base, role: a.role })) {
      notes.warn('signal-differs', [], `${a.channel}`);
      return base;
    }
    const sensor = a.sensorId === null ? null : (byId.get(a.sensorId) ?? null);
    if (a.sensorId !== null && sensor === null) notes.warn('sensor-missing', [], `${a.channel}`);
    if (sensor !== null)
      return digitalSpan(withSensor(base, a, sensor, deviceOf(base.index), job.date, notes));
    if (isPressureRole(a.role) && base.calibration === null)
      notes.warn('calibration-none', [], `${a.channel}`);
    return {
      ...base,
      role: a.role,
      place: a.role === 'temperature' ? a.place : null,
      gaugeKind: isPressureRole(a.role) ? (base.gaugeKind ?? 'gauge') : null,
    };
  });
  for (const ch of assigned)
    if (isUnscaled(ch)) notes.warn('span-unknown', [], ch.sensorSerial ?? `${ch.index}`);
  const scaled = assigned.map((ch): ChannelSetup => (isUnscaled(ch) ? { ...ch, role: 'unused' } : ch));
  const channels = secondOf(scaled, job.tap, notes);
  for (const a of assignments)
    if (!channels.some((c) => c.index === a.channel)) {
      if (!isBeside(a.channel)) notes.warn('channel-missing', [], `${a.channel}`);
      else if (a.role !== 'unused') notes.warn('beside-missing', [], `${ownChannel(a.channel)}`);
    }
  const pressure = channels.find((c) => c.role === 'pressure') ?? null;
  const partner = channels.find((c) => c.index === pressure?.partner);
  return { channels, pressure, supplied: partner?.role === 'supply' };
}
