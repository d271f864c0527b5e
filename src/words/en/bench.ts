import type { BenchPoint, ReasonOf, RefusedLine, Verdict } from '../../job/bench-codes.ts';
import type { DisplayUnits, Format } from '../create-format.ts';

/** What was found, as its sentence tells it. */
export interface Told {
  readonly value: number | null;
  readonly against: number | null;
  readonly more: number | null;
}

/** Under it a device lets its limit be raised or taken away (firmware-protocol/SPEC.md, 7). */
const SMALL_BAR = 0.1;

type Sentence = (told: Told, units: DisplayUnits) => string;

export const BENCH = {
  title: 'Bench',
  lead: 'Try a device that was built or bought before it guards a packer: what its line says, what its sensors show, whether its own alarm is heard. No packer hangs on the line meanwhile.',
  connectTitle: 'Connect the device to be tried',
  connect: 'Connect a device',
  connectOther: 'Choose another port',
  practice: 'Try it with the practice rig',
  disconnect: 'Disconnect',
  inRun:
    'A run is going on. The bench takes no port and tries nothing meanwhile: go on with it when the run is ended.',
  toLive: 'Go to live',
  limitSet: 'A limit is in force for a packer that may be full. The bench only looks; end that first.',
  listening: (device: string, firmware: string) => `${device}, firmware ${firmware}`,
  nobody: 'Nobody has said who it is yet.',
  listened: (time: string) => `Listened to for ${time}.`,
  again: 'Begin again',
  points: 'What was found',
  channel: (index: number) => `channel ${index}`,
  tries: 'To be tried by hand',
  zeroText: 'Open the line to the air, wait a moment.',
  zero: 'Take the zero here',
  spanText: 'Pump to a steady pressure and type what the reference shows.',
  reference: 'Reference shows',
  compare: 'Compare',
  warmText: 'Take the tip of one probe in the warm hand, then press; hold it for a minute.',
  warm: (index: number, place: string | null) =>
    place === null ? `In my hand: channel ${index}` : `In my hand: channel ${index}, ${place}`,
  warmPractice: 'Practice: take all probes in the hand',
  warmPracticeEnd: 'Practice: let the probes go',
  guardText: (bar: string) =>
    `Its own limit is set to ${bar} and the device says so. Then pump by hand, without a packer, until it sounds. This computer raises its alarm too, as it should.`,
  arm: (bar: string) => `Set its limit to ${bar}`,
  pump: 'It is armed. Pump slowly over the limit.',
  heardAsk: 'It tripped. Was its sounder heard?',
  heard: 'Heard',
  notHeard: 'Not heard',
  takeAway: 'Take the limit away again',
  putBack: 'Set its limit as it was',
  stillArmed: (bar: string) =>
    `The device still keeps the limit of this test, ${bar}. Let the pressure out first, then take it away; a run sets its own.`,
  taken: 'The limit of the test is gone.',
  lines: 'Lines as they came',
  linesText: 'Newest first. A line that was refused stands with its reason; nothing of it was read.',
  linesMade: 'This source does not speak the protocol: the lines are what was made of what came.',
  noLines: 'Nothing has come over the line.',
  read: 'read',
  baud: (n: number) => `${n} baud`,
  refusedTitle: 'Lines refused',
  refusedCount: (n: number) => (n === 1 ? '1 line' : `${n} lines`),
  keepTitle: 'Keep it as the device’s record',
  by: 'Tried by (initials)',
  notes: 'Notes',
  keep: 'Keep this record',
  kept: 'Kept with the device’s sensors.',
  keptPractice: 'Kept as practice. It is no record of a real device.',
  records: 'Bench records',
  noRecords: 'None kept yet. A device that was tried above can be kept here.',
  open: 'Open a record file',
  imported: 'Added. It is marked as out of a file.',
  fileRefused: (what: string) => `Not taken over: ${what}`,
  gone: 'This record is not here any more.',
  recordTitle: (device: string) => `Bench record of ${device}`,
  practiceMark: 'PRACTICE: no real device',
  fileMark: 'Out of a file: not tried on this computer',
  device: 'Device',
  firmware: 'Firmware',
  when: 'Kept',
  byRow: 'Tried by',
  speed: 'Speed',
  listenedRow: 'Listened to',
  said: 'What it says of itself',
  print: 'Print',
  export: 'Save as file',
  notProved: 'It tells how this device was on that day, on that computer. It is no calibration.',
  toBench: 'Try it on the bench',
  fromSensors: 'Bench: try a device',
  sensorNone: 'No bench record of this sensor’s device is kept.',
  sensorNoDevice: 'Enter the device above: its bench records then stand here.',
};

export const VERDICT: Readonly<Record<Verdict, string>> = {
  good: 'Good',
  doubtful: 'Doubtful',
  bad: 'Bad',
  'not-tried': 'Not tried',
};

export const POINT: Readonly<Record<BenchPoint, string>> = {
  lines: 'Lines read',
  rate: 'Rate',
  lost: 'Lost samples',
  clock: 'Clock',
  restarts: 'Restarts',
  step: 'Smallest step',
  noise: 'Noise',
  drift: 'Drift',
  zero: 'Zero',
  span: 'Span',
  supply: 'Sensor power',
  warm: 'Warm hand',
  guard: 'Its own alarm',
};

export const REFUSED: Readonly<Record<RefusedLine, string>> = {
  garbage: 'no line of the protocol: an unknown letter, or bytes that are no text',
  crc: 'its check does not match: disturbed, or computed in another way',
  form: 'its check is right and its form is not: a field is out of its range, missing or too many',
  long: 'longer than 128 bytes without an end',
  partial: 'half a line, cut by the opening of the port: no fault',
  unknown: 'of a later version of the protocol: no fault',
};

/** The sentence of each reason. */
export function benchReasons(f: Format) {
  const n = (value: number | null): string => (value === null ? '–' : f.count(value));
  const fixed = (value: number | null, digits: number): string =>
    value === null ? '–' : f.fixed(value, digits);
  const small = (mbar: number | null, units: DisplayUnits): string =>
    f.quantity('smallPressure', mbar, units, 1);
  const smallBar = (bar: number | null, units: DisplayUnits): string =>
    f.quantity('smallPressure', bar === null ? null : bar * 1000, units);
  const kelvin = (k: number | null, units: DisplayUnits): string =>
    f.quantity('temperatureDifference', k, units);

  const refused: Sentence = (t) => `${n(t.value)} of ${n(t.against)} lines refused.`;
  const rate: Sentence = (t) =>
    t.against === null
      ? `${fixed(t.value, 1)} samples a second.`
      : `${fixed(t.value, 1)} samples a second; the device says ${fixed(t.against, 0)}.`;
  const lost: Sentence = (t) => `${n(t.value)} of ${n(t.against)} samples missing.`;
  const clock: Sentence = (t) =>
    `${fixed(t.value, 0)} ± ${fixed(t.against, 0)} ppm against this computer’s clock.`;
  const step: Sentence = (t, u) => `${small(t.value, u)} a step (${n(t.against)} bits).`;
  const noise: Sentence = (t, u) =>
    `${small(t.value, u)}, ${fixed(t.against, 1)} counts (standard deviation); ${fixed(t.more, 0)} counts from lowest to highest in a second.`;
  const drift: Sentence = (t, u) =>
    `${f.pressureRate(t.value, u)} ± ${f.pressureRate(t.against, u)}, over ${f.duration(t.more)} at rest.`;
  const zero: Sentence = (t, u) =>
    `The open line reads ${smallBar(t.value, u)}; at most ${smallBar(t.against, u)} may be taken off.`;
  const span: Sentence = (t, u) =>
    `${smallBar(t.value, u)} off at ${f.pressure(t.more, u)}; both together may be ${smallBar(t.against, u)} apart.`;
  const supply: Sentence = (t) =>
    `Lowest ${fixed(t.against, 2)} V of ${fixed(t.more, 2)} V, ${t.value === null ? '–' : f.percent(Math.max(0, t.value))} under.`;
  const warm: Sentence = (t, u) =>
    `Moved by ${kelvin(t.value, u)} from ${f.temperature(t.against, u)} in ${f.duration(t.more)}.`;
  const tripped: Sentence = (t, u) =>
    `Tripped at ${f.pressure(t.value, u)}, limit ${f.pressure(t.against, u)}.`;
  const and =
    (first: Sentence, second: string): Sentence =>
    (t, u) =>
      `${first(t, u)} ${second}`;
  const only =
    (text: string): Sentence =>
    () =>
      text;

  const reasons: { readonly [P in BenchPoint]: Readonly<Record<ReasonOf<P>, Sentence>> } = {
    lines: {
      few: (t) => `${n(t.against)} lines so far: too few.`,
      clean: refused,
      some: and(refused, 'An odd one is a click on the cable; watch it.'),
      many: and(refused, 'Change the cable; if the firmware is new, compare a line with the protocol.'),
    },
    rate: {
      few: only('Listen for ten seconds.'),
      kept: rate,
      slow: and(rate, 'Slow: a forecast in the fill has little to go by.'),
      'too-slow': and(rate, 'Too slow for a fill. Raise the baud, or send fewer channels.'),
    },
    lost: {
      few: only('Too few samples so far.'),
      none: lost,
      some: and(lost, 'Each is a gap in the record.'),
      many: and(lost, 'The line is too slow for the rate, or the device too busy.'),
    },
    clock: {
      few: (t) => `${f.duration(t.more)} of one minute listened.`,
      close: clock,
      off: and(clock, 'A coarse oscillator: rates are off by that much.'),
      'far-off': and(clock, 'Its tick is not 100 µs: correct the firmware.'),
    },
    restarts: {
      few: (t) => `${f.duration(t.against)} of one minute listened.`,
      none: (t) => `None in ${f.duration(t.against)}.`,
      restarted: (t) =>
        `Started anew ${n(t.value)} times: power too weak, a watchdog, or its plug was pulled (then begin again).`,
    },
    step: {
      'no-channel': only('It has no pressure channel.'),
      fine: step,
      coarse: and(step, 'A small leak is seen late.'),
      'too-coarse': and(step, 'Too coarse for a hold: a finer converter, or a sensor of a smaller span.'),
      'no-scale': only(
        'Its line does not say which signal is zero and which is full scale: enter both in the sensor’s document.',
      ),
    },
    noise: {
      few: only('Leave the line at rest for ten seconds.'),
      quiet: noise,
      noisy: and(noise, 'Screen the sensor’s cable, or average more.'),
      'too-noisy': and(noise, 'Too much to see a leak or a forecast: screen, earth, separate the power.'),
      frozen: and(
        noise,
        'Not one count moved: a step is coarser than the noise, or the sensor hangs. Pump a little.',
      ),
      'no-reading': only('The sensor gives no pressure: a broken wire, a missing sensor, a wrong range.'),
    },
    drift: {
      few: (t) => `${f.duration(t.more)} of three minutes at rest.`,
      steady: drift,
      drifts: and(drift, 'Let it warm up for a quarter of an hour and begin again.'),
      unsure: and(drift, 'Not sure yet: leave it at rest for longer.'),
      'drifts-far': and(
        drift,
        'As much as a leak that is told. Warm it up and begin again; if it stays, the sensor is not fit for a hold.',
      ),
    },
    zero: {
      'not-taken': only('Not taken yet.'),
      'not-still': only('The line moved. Open it, wait, take it again.'),
      near: zero,
      far: and(zero, 'More than half of it: watch it.'),
      'too-far': and(zero, 'Refused: line under pressure, wrong range, or a sensor that is off.'),
      'no-reading': only('There was no pressure to take it of.'),
    },
    span: {
      'not-compared': only('Not compared yet.'),
      'not-still': only('The line moved. Wait until it stands, compare again.'),
      agrees: span,
      'too-low': and(span, 'So low that it says little of the span: compare higher.'),
      'just-off': and(span, 'Just beyond: take the zero and compare again.'),
      differs: and(span, 'Wrong span or scale, or the reference is off.'),
    },
    supply: {
      'not-measured': only('The device does not measure it.'),
      few: only('Listen for ten seconds.'),
      steady: supply,
      sags: and(supply, 'It gives way: a weak port, a long cable.'),
      'sags-far': and(supply, 'Too low: another port, a powered hub.'),
      'told-low': and(supply, 'The device itself calls it too low.'),
    },
    warm: {
      'not-held': only('Not held yet.'),
      holding: and(warm, 'Go on holding.'),
      rises: warm,
      little: and(warm, 'Little: was the tip in the hand?'),
      none: and(warm, 'It did not rise: shorted, or another probe was held.'),
      falls: and(warm, 'It fell: the two wires are swapped.'),
      'no-reading': only('It gives no temperature: open, or not plugged in.'),
    },
    guard: {
      'not-armed': only('Not tried yet.'),
      refused: (_, u) =>
        `Refused: it takes another limit only under ${f.pressure(SMALL_BAR, u)}. Let the pressure out and try again.`,
      armed: (t, u) => `Limit ${f.pressure(t.against, u)}; highest so far ${f.pressure(t.more, u)}.`,
      'not-asked': and(tripped, 'Say whether it was heard.'),
      heard: and(tripped, 'Heard.'),
      late: and(tripped, 'Heard, but late: pump slowly and try again.'),
      absent: only('The device has no alarm of its own: only this computer warns.'),
      'no-answer': only('It did not answer the command: it hears nothing, or cannot be told a limit.'),
      'not-kept': only('It does not keep the limit that it was given.'),
      silent: (t, u) =>
        `Pumped to ${f.pressure(t.more, u)} over a limit of ${f.pressure(t.against, u)}, and it did not trip.`,
      mute: and(tripped, 'It does not say that its sounder sounds.'),
      'not-heard': and(tripped, 'Not heard: louder sounder, or its wire.'),
    },
  };
  return {
    /** What was found at a point, with its numbers; null where the point has no such reason. */
    foundText(point: BenchPoint, reason: string, told: Told, units: DisplayUnits): string {
      const of: Readonly<Record<string, Sentence>> = reasons[point];
      return Object.hasOwn(of, reason) ? of[reason]!(told, units) : '';
    },
  };
}
