import type { JobDocument } from '../../job/job-document.ts';
import type { MapKind } from '../../job/reading-map.ts';
import type { Setup } from '../../job/setup.ts';
import type { Priority } from '../../watch/codes.ts';
import { type Format, METRIC } from '../create-format.ts';
import { OCCASIONS } from './occasions.ts';

/**
 * Words of the certificate. They say what the record holds and no more: time and pressure at the sensor, the data
 * sheet's cure time as a lower bound. They promise nothing about the resin or the repair.
 */

const CERTIFICATE = {
  title: 'Certificate of pressure and cure time',
  practice: {
    title: 'Practice certificate',
    mark: 'PRACTICE',
    what: 'PRACTICE. Recorded on the practice rig: there was no packer, no pipe and no resin. It is no record of a job and proves no repair.',
    trainee: 'Trainee',
    trainer: 'Seen by the trainer',
  },
  lead: 'Made by Steadybar from one sealed record and from nothing else. Dates and clock times are UTC by the computer’s clock; run time counts from the first reading.',
  /** @param run the run's own number */
  record: (run: string) => `Record ${run}`,
  pageOf: (n: number, of: number) => `page ${n} of ${of}`,
  noException: 'Exceptions: none that the record knows of.',
  exceptionsAre: (n: number) => (n === 1 ? '1 exception:' : `${n} exceptions, the weightiest first:`),
  allOnNext: (n: number) => `and ${n} more on page 2`,
  peakRated: (rated: string) => `peak, rated ${rated}`,
  peakOnly: 'peak, no limit set',
  lowestFloor: (floor: string) => `lowest in the hold, floor ${floor}`,
  lowestOnly: 'lowest in the hold, floor not known',
  leakMost: 'leak at most, warmth taken out',
  leakOf: 'leak, warmth taken out',
  leakNone: 'leak: cannot be told',
  most: (rate: string) => `≤ ${rate}`,
  coldestShort: 'coldest likely spot',
  batchesOf: 'Resin, batches',
  waterAbove: 'Groundwater above the invert',
  groundAt: 'Ground or pipe',
  sensorU: (sensor: string, u: string) => `${sensor}, ± ${u}`,
  calibrated: 'Calibrated',
  gaugeAtSeat: 'Dial gauge and sensor, at the seat',
  witness: 'Witness sample',
  cup: 'Witness cup',
  metres: (m: string) => `${m} m`,
  doesNotShort:
    'which pipe was repaired, where the sensor sat, that the computer’s clock was right, how strong the resin is, whether anybody accepted the job. Corrections stand in the record file. Page 3: more, and how to verify without trusting the sender.',
  added: (n: number) =>
    n === 1 ? 'Signed after the sealing, 1 addition:' : `Signed after the sealing, ${n} additions, the last:`,
  decided: {
    released: (by: string, when: string) => `Accepted by ${by}, ${when}.`,
    rejected: (by: string, when: string) => `Rejected by ${by}, ${when}.`,
  },
  because: (reason: string) => `Reason: “${reason}”.`,
  decisionNote: 'This decision is told by whoever printed this; no seal covers it.',
  utcTime: (time: string) => `${time} UTC`,
  runTime: (time: string) => `run time ${time}`,
  /** @param length of the run */
  runLong: (length: string) => `run of ${length}`,
  siteNot: 'site not stated',
  pipeNot: 'pipe not stated',
  fingerprintLabel: 'Fingerprint of the record (SHA-256 of its signed manifest)',
  details: 'Details of the record',
  repair: 'What was repaired',
  how: 'How',
  held: 'What the record shows',
  trace: 'Pressure and temperatures over the run',
  traceNote:
    'Line pressure at the sensor (gauge pressure) and temperatures at the probes, with the limits in force. Grey columns are times without readings; marks on top are alarms.',
  exceptions: 'Exceptions',
  noExceptions: 'None that the record knows of.',
  moreExceptions: (n: number) => `and ${n} more in the record`,
  doesNot: 'What this page does not prove',
  doesNotText:
    'The seal shows that the holder of the signing key signed exactly this record, and that nothing in it was changed since. It does not show which pipe was repaired or that the trace is of this repair: anyone who holds the computer can start a run on any air line. It does not show where the pressure sensor or the probes sat, that the computer’s clock was right, or that the entries of the job sheet are true; those were typed by people. Cure time is the data sheet’s time at the temperatures that were read or assumed; whether the resin is hard is told by the witness sample and by inspection, not by this page. Corrections signed after the sealing stand in the record file, not here.',
  check: 'How to verify',
  checkText:
    'Ask for the record file (.steadybar.zip). CHECK.txt in it has the steps by hand, with openssl and sha256sum and nothing of Steadybar; whoever has the program can open the file under “Verify a file” instead. The code holds the SHA-256 of the file’s manifest.json, the same as here:',
  key: 'Signed with the key (compare it with the list of keys that the firm gave you):',
  made: (run: string, software: string, engine: string, sealed: string, sealedBy: string) =>
    `Run ${run}; recorded by ${software}, engine ${engine}; sealed ${sealed} by ${sealedBy}.`,
  codeOpens: (page: string) =>
    `It opens the verification page at ${page} with that fingerprint filled in; whether that is the firm’s page, the firm says.`,
  when: 'Who bounds when it was made',
  noWitness:
    'No witness had seen the computer’s log when this page was made: its times are the word of the computer’s own clock.',
  openedAfter: (when: string, key: string) =>
    `Opened after ${when}: what the witness with the key ${key} signed then was in the log before it.`,
  sealedBefore: (when: string, key: string) =>
    `Sealed before ${when}: the witness with the key ${key} signed the log then, with this record in it.`,
  stampedBefore: (when: string) =>
    `Sealed before ${when}: a time stamp (RFC 3161) over the log says so; openssl ts -verify checks it.`,
  qrLabel: 'QR code with the fingerprint of the manifest',
  signatures: 'Signatures',
  signCrew: 'For the crew',
  signFirm: 'For the firm',
  signClient: 'Seen by the client',
  signLine: 'Name, date, signature',
  signedBy: (name: string, when: string) => `${name}, ${when}, by hand on the computer’s screen`,
  present: 'Crew that day',
  atComputer: (names: string, list: string) =>
    names === '' ? `At the computer: ${list}` : `${names}; at the computer: ${list}`,
  checklist: 'Checklist',
  checklistOf: (list: string) =>
    `${list}, as the job kept it when it was opened. Answers are the crew’s word; those given during the run stand in its record.`,
  checkItem: 'Item',
  checkAnswer: 'Answer',
  checkWhen: 'When',
  checkBy: 'By',
  checkDone: 'yes',
  checkOpen: 'not answered',
  checkSafety: (item: string) => `${item} (safety)`,
  photos: 'Photographs',
  photosNote:
    'As they were sealed with the record; in its file they are larger. The seal shows that they were not exchanged since, not what they are of.',
  photoOf: (n: number, what: string) => `${n} ${what}`,
  photoTaken: {
    camera: (when: string) => `taken ${when} by the computer’s clock`,
    file: (when: string) => `a file dated ${when}`,
  },
  photoOriginal: 'the original is in the record file',
  photoMissing: 'This photograph was not there when this page was made.',
  photosMore: (n: number) =>
    n === 1 ? 'One more is in the record file.' : `${n} more are in the record file.`,
  occasions: OCCASIONS,
  notKnown: 'not known',
  notStated: 'not stated',

  // rows
  site: 'Site',
  client: 'Client',
  reference: 'Reference',
  defect: 'Defect',
  pipe: 'Pipe',
  chainage: (metres: string) => `at ${metres} m from the starting manhole`,
  long: (mm: string) => `${mm} mm long`,
  dn: (dn: number) => `DN ${dn}`,
  inner: (mm: string) => `inner diameter ${mm} mm`,
  crew: 'Crew',
  date: 'Recorded',
  fromTo: (from: string, to: string) => `${from} to ${to}`,
  utc: (date: string, time: string) => `${date} ${time} UTC`,
  packer: 'Packer',
  serial: (serial: string) => `serial ${serial}`,
  rated: 'Rated pressure',
  ratedHere: (pressure: string) => `${pressure} at this diameter`,
  resin: 'Resin',
  batch: (resin: string) => `batches ${resin}`,
  batches: (resin: string, hardener: string) => `batches ${resin} and ${hardener}`,
  mixedAt: (temperature: string) => `mixed at ${temperature}`,
  warmed: 'Packer warmed',
  warmedTo: (temperature: string) => `to ${temperature}`,
  sleeve: 'Sleeve',
  layers: (n: number) => (n === 1 ? '1 layer' : `${n} layers`),
  overlap: (mm: string) => `${mm} mm past each end of the defect`,
  line: 'Air line',
  wetLine: 'with water in it',
  onLine: 'air line',
  tap: 'Sensor at',
  channel: (n: number) => `channel ${n}`,
  type: (letter: string) => `type ${letter}`,
  sensors: 'Sensors',
  sensor: 'Sensor',
  place: 'Position',
  calibration: 'Calibration',
  against: (reference: string) => `against ${reference}`,
  notCalibrated: 'not calibrated',
  asTyped: 'Entries of the job sheet are as the crew typed them.',

  working: 'Working pressure',
  airTest: 'Air test',
  airTestNone: 'planned, not made',
  outlet: 'Supply at the regulator’s outlet, before inflating',
  held_: 'Pressure held',
  band: 'Hold band',
  bandUpTo: (ceiling: string) => `hold floor not known, up to ${ceiling}`,
  bandOf: (floor: string, ceiling: string) => `${floor} to ${ceiling}`,
  bandSeen: (floor: string, ceiling: string) =>
    `${floor} to ${ceiling} (hold floor from what inflating showed)`,
  leak: 'Leak',
  peak: 'Peak of the run',
  peakU: (peak: string, u: string) => `${peak} ± ${u} (k = 2)`,
  cure: 'Data-sheet cure time',
  coldest: 'Coldest likely spot while curing',
  noHold: 'No hold was recorded.',
  holdNumber: (n: number, held: string) => `Hold ${n}: ${held}`,
};

/** How wet the defect was, beside what it is. */
const INFILTRATED: Record<JobDocument['defect']['infiltration'], string> = {
  'not-looked': 'infiltration not looked',
  none: 'infiltration none seen',
  damp: 'infiltration damp',
  dripping: 'infiltration dripping',
  running: 'infiltration running',
};

/** What warmed the packer from outside while the sleeve cured. */
const WARMED_BY: Record<JobDocument['heating']['by'], string> = {
  unknown: 'not stated',
  none: 'no',
  'hot-air': 'by hot air',
  water: 'by warm water',
  steam: 'by steam',
};

/** Of what the pipe is, beside its size; what is not known is not stated. */
const PIPE_OF: Record<Exclude<JobDocument['pipe']['material'], 'unknown'>, string> = {
  clay: 'clay',
  concrete: 'concrete',
  pvc: 'PVC',
  pe: 'PE',
  iron: 'iron',
  grp: 'GRP',
};

const HOW_FED: Record<Setup['line'], string> = {
  closed: 'shut valve',
  'supplied-relieving': 'supplied, relieving regulator',
  'supplied-nonrelieving': 'supplied, regulator does not relieve',
  unknown: 'not known',
};

const ALARM: Record<Priority, string> = { urgent: 'Alarm, urgent', high: 'Alarm, high', low: 'Alarm, low' };

export function certificate(f: Format) {
  const CURE_LINE = {
    met: 'reached at the coldest likely spot (cautious count)',
    metAfter: (s: number) => `${f.duration(s)} after it began to count`,
    /** @param c coldest that it may have been */
    sinceMixing: (minutes: number, c: number) =>
      `${f.duration(minutes * 60)} before seating counted since mixing, at ${f.quantity('temperature', c, METRIC, 1)} or warmer`,
    metThen: (s: number) => `the hold went on for ${f.duration(s)}`,
    notMet: (s: number) => `not reached within this record (cautious count); ${f.duration(s)} were counted`,
    light: 'not judged: the resin cures by light',
    noResin: 'not followed: no resin with cure times on the job sheet',
    notStarted: 'did not begin to count',
  };

  const heldText = (
    bandS: number,
    holdS: number,
    low: number | null,
    high: number | null,
    uBar: number | null,
    floorKnown: boolean,
  ): string => {
    const bounds =
      low === null || high === null
        ? 'no usable pressure'
        : `${f.pressure(low)} to ${f.pressure(high)}${uBar === null ? '' : `, each ± ${f.pressure(uBar)} (k = 2)`}`;
    const where = floorKnown ? 'inside the hold band' : 'inflated and not over the ceiling';
    return `${f.duration(bandS)} ${where}, of ${f.duration(holdS)}; ${bounds}`;
  };

  /** Every exception in plain words. */
  const EXCEPTION = {
    interrupted: 'The run was not ended by the crew: it was found open and closed as interrupted.',
    resumed: (n: number, s: number) =>
      `The recording broke off and was taken up again (${n} ${n === 1 ? 'time' : 'times'}); ${f.duration(s)} are missing.`,
    damage: (n: number) =>
      `${n} ${n === 1 ? 'block' : 'blocks'} of the record were damaged on the computer before it was sealed.`,
    noJob: 'No job sheet belongs to this record: site, packer, resin and sensors are not known.',
    noPacker: 'The packer is not known.',
    noLimit: 'No limit was set: nothing warned of the packer’s rated pressure.',
    noMargin: (reason: string) =>
      `The working pressure was the rated pressure, without margin. Reason given: ${reason}`,
    overRated: (bar: number) => `The reading went over the rated pressure: ${f.pressure(bar)}.`,
    overCeiling: (bar: number) => `The reading went over the ceiling: ${f.pressure(bar)}.`,
    noFloor: 'The hold floor is not known, so nothing tells whether the pressure fell under it.',
    floorSeen: 'The packer’s free inflation pressure was not known and was taken from inflating.',
    noWater: 'Groundwater above the pipe is not known.',
    noFree: 'The packer’s own free inflation pressure is not known.',
    tap: 'The sensor did not read the packer’s own pressure (or it is not known): hold and leak could not be judged.',
    tapHose: 'The sensor sat in the hose: while air flowed, its reading was not the packer’s pressure.',
    lineUnknown: 'It is not known how the packer was fed: a leak could not be told.',
    lineSupplied: 'The line was supplied during the hold: a leak could not be seen.',
    supplyWentOn: 'The packer was filled from a supply that the proof had shown to be too high, or to creep.',
    supplyVoid: (why: string) => `The proof of the supply held no longer: ${why}.`,
    noZero: 'The zero of the pressure sensor was not taken with the coupling open.',
    noSecondZero: 'The zero of the second pressure sensor was not taken.',
    noGauge: 'The dial gauge was not compared with the sensor.',
    gaugeDiffers: (gauge: number, reading: number | null) =>
      `Dial gauge and sensor differed: ${f.pressure(gauge)} and ${reading === null ? 'no reading' : f.pressure(reading)}.`,
    probeUnchecked: (place: string) => `The probe (${place}) was not compared with a thermometer.`,
    probeDiffers: (place: string) => `The probe (${place}) and the thermometer differed.`,
    readBy: {
      registers:
        'Readings came off a bus by a register map: their times are this computer’s, and no device kept a limit of its own.',
      columns:
        'Unchecked line: readings came as plain text without a check, so that a disturbed one may look right; their times are this computer’s, and no device kept a limit of its own.',
    } satisfies Record<MapKind, string>,
    besideDevice: (id: string) =>
      `Temperatures came from a second adapter (${id}), at the time of this computer’s clock.`,
    besideBy: {
      registers: (id: string) =>
        `Temperatures came from a second adapter (${id}), off a bus by a register map, at the time of this computer’s clock.`,
      columns: (id: string) =>
        `Temperatures came from a second adapter (${id}) over an unchecked line: a disturbed one may look right; their times are this computer’s.`,
    } satisfies Record<MapKind, (id: string) => string>,
    besideGap: (n: number, s: number) =>
      `The second adapter’s temperatures are missing ${n === 1 ? 'once' : `${n} times`}, ${f.duration(s)} in all.`,
    besideGone: (at: string) => `The second adapter’s temperatures are missing from ${at} on.`,
    noProbe: 'No temperature was measured.',
    noSleeveProbe:
      'No probe at the sleeve: cure time went by other probes or by the planned ground temperature.',
    uncalibrated: (what: string) => `Not calibrated: ${what}.`,
    pressureSensor: 'the pressure sensor',
    secondPressure: 'the second pressure sensor',
    probe: (place: string) => `the probe (${place})`,
    unnamedPlace: 'position not named',
    sharedLine:
      'Two packers hung on this line: the readings are of one of them at best, and a leak of either is not told apart.',
    lightCured: 'Cure was not judged: the resin cures by light, of which time and temperature say nothing.',
    heatingUnknown:
      'It is not stated whether the packer was warmed from outside: cure time was counted as if it was.',
    noMixed: 'The time of mixing was not entered.',
    noBatch: 'The batch of resin or hardener is not noted.',
    cup: (said: string) => `${said}.`,
    witnessNone: 'No witness sample was recorded.',
    witnessSoft: 'The witness sample was recorded as not hard.',
    witnessWarm: 'The witness sample was not kept at pipe temperature.',
    reboundNone: 'It was not recorded that the line stayed at zero with the vent shut after let-down.',
    airTestFailed: 'The air test of the repair failed.',
    airTestUnsaid: (why: string) => `The air test says nothing of the repair: ${why}.`,
    airTestNone: 'An air test of the repair was planned and not made.',
    airTestEarlier: (what: string) => `Earlier: ${what}`,
    reboundBack: 'After let-down the pressure came back with the vent shut.',
    noHold: 'No hold was recorded.',
    notHeld: (s: number) => `The pressure was outside the hold band for ${f.duration(s)} of the hold.`,
    attempts: (n: number) => `${n} attempts were made.`,
    abandoned: 'An attempt was given up.',
    byData: 'Stages were read off the data, not entered by the crew.',
    topUps: (n: number) =>
      `The closed line was topped up or opened ${n} ${n === 1 ? 'time' : 'times'} in the hold.`,
    loss: 'The crew answered that pressure was lost.',
    override: (what: string, reason: string) => `Gone on against advice (${what}): ${reason}`,
    setupRefused: 'A change of the job sheet during the run was refused.',
    gap: (reason: string, n: number, s: number) =>
      `Readings missing: ${reason} (${n} ${n === 1 ? 'gap' : 'gaps'}, ${f.duration(s)} in all).`,
    alarm: (priority: Priority, title: string, n: number, at: string) =>
      `${ALARM[priority]}: ${title}, ${n === 1 ? `at run time ${at}` : `${n} times, first at run time ${at}`}.`,
    note: (at: string, text: string) => `Note at run time ${at}: ${text}`,
    checkPassed: (item: string, reason: string, by: string) =>
      `Safety item gone on without${by === '' ? '' : ` (${by})`}: ${item}. Reason: ${reason}`,
    safetyOpen: (list: string) => `Safety items of the checklist that nobody answered: ${list}.`,
    unticked: (list: string) => `Items of the checklist that nobody answered: ${list}.`,
    keyLost:
      'The computer’s earlier signing key was lost; nothing but the firm’s word vouches for the present one.',
  };

  return { CERTIFICATE, CURE_LINE, EXCEPTION, HOW_FED, INFILTRATED, PIPE_OF, WARMED_BY, heldText };
}
