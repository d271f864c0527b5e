/** Faults of the practice rig, by the code that the rig takes. */
export type RigFaultCode =
  | 'regulator'
  | 'creep'
  | 'stuck-open'
  | 'leak'
  | 'open-probe'
  | 'unplug'
  | 'replug'
  | 'reset'
  | 'garbage'
  | 'silence'
  | 'supply-sag'
  | 'kink'
  | 'burst'
  | 'blown-hose'
  | 'relief'
  | 'first-lost'
  | 'second-off'
  | 'second-lost'
  | 'sensors-swapped'
  | 'cup-in-air'
  | 'cup-swapped'
  | 'hose-leak'
  | 'put-right';

/** Words of the live screen. */
export const LIVE = {
  title: 'Live',
  connectTitle: 'Connect',
  connectText: 'The pressure is watched from the first reading on, with or without a job.',
  connectDevice: 'Connect the device',
  connectBy: {
    registers: (name: string) => `Read the bus by “${name}”`,
    columns: (name: string) => `Read the plain line by “${name}”`,
  },
  knownDevice: (deviceId: string, baud: number) =>
    `Last one here: ${deviceId}, at ${baud} baud. Its port is taken without asking again.`,
  knownMap: (name: string, baud: number) =>
    `Last here: read by “${name}”, at ${baud} baud. Its port is taken without asking again.`,
  connectedTo: (deviceId: string, firmware: string) => `Connected: ${deviceId}, firmware ${firmware}`,
  toBench: 'Look at its lines on the bench',
  connectOther: 'Choose another port',
  connectRig: 'Use the practice rig',
  practices: 'More practice sites',
  drills: 'Drills',
  drillsText: 'Something goes wrong in each; a goal, and a debrief behind it.',
  noSerial:
    'This browser has no serial port, so no device can be connected here. Saved runs can be opened and reviewed. For a live job use Chrome, Edge or Firefox on a computer, or Chrome on Android.',
  disconnect: 'Disconnect',
  packerStep: 'Packer',
  packerTitle: 'Which packer?',
  packerText: 'Compare the serial number and the plate of the packer in your hands.',
  limitsBefore: (ceiling: string) =>
    `The run before was not seen to end empty: its ceiling of ${ceiling} stays in force until a packer is chosen.`,
  packerPractice: 'Practice job with its packer',
  packerNone: 'No packer: no over-pressure warning',
  packerNew: 'Enter a packer',
  plate: (serial: string, from: number, to: number) =>
    serial === '' ? `${from}-${to} mm` : `${serial}, ${from}-${to} mm`,
  diameter: 'Inner diameter of the pipe',
  correctSheet: 'Correct the job sheet',
  goMixed: 'The resin is mixed: go on',
  mixedAlready: 'The resin was mixed already',
  zeroTitle: 'Zero',
  zeroText: 'Open the coupling and see that it is open. The reading must stand still near zero.',
  zeroPressure:
    'The line is under pressure: the zero cannot be taken now. Never open a coupling under pressure.',
  zero: 'Zero now',
  zeroSkip: 'Go on without zero',
  zeroReason: 'Zero not taken',
  takeDevice: (deviceId: string) => `Take ${deviceId} for this run`,
  takeText:
    'Only where the first device cannot come back. From then on this one is read, by its own scale and without a zero: look at the dial gauge. Its zero is asked again while nothing is inflated. The lower of the two ceilings holds, and is set in it as its own limit. Sensors on the job sheet belong to the first device and are taken off it.',
  takeRescaledText:
    'The device says another scale than it did: another sensor was fitted, or its settings were changed. Look at the dial gauge first. From then on it is read by the new scale and without a zero, which is asked again while nothing is inflated. The lower of the two ceilings holds, and is set in it as its own limit. Sensors on the job sheet belong to the first scale and are taken off it.',
  endText:
    'Recording stops and the trace is kept with the job. The watch stays on while the device is connected.',
  unwrittenTitle: 'A part of the record is not on the disk',
  unwrittenText:
    'The run is still open, the watch goes on, and the part that waits is tried again and again. When there is room, end the run again. Or save the whole record as a file first, and then end the run without the part that waits.',
  savePages: 'Save the record as a file',
  endWithout: 'End without the part that waits',
  endWhy: 'The packer may be full. Why does the run end here? The reason is kept in the record.',
  /** Which of the reasons says that the packer was seen empty. */
  endedEmpty: 2,
  endReasons: [
    'The packer stays under pressure, watched by the dial gauge',
    'The reading is wrong or gone',
    'Let down, the dial gauge shows zero',
  ],
  /** Said against what is read; kept in the record. */
  endedAgainst: (pressure: string) => `Let down, the dial gauge shows zero; the line read ${pressure}`,
  endUnderPressure: 'The line is not at zero. Ending the run stops the record, not the packer.',
  recording: (bytes: string, saved: string) => `Recording, ${bytes}, saved ${saved} ago`,
  notRecording: 'Not recording',
  resumedRun: 'Resumed after an interruption',
  minutesInBand: 'In the hold band',
  lowest: 'Lowest in the hold',
  highest: 'Peak in the hold',
  peak: 'Peak',
  leak: 'Leak',
  rate: 'Rate',
  rest: 'With no flow',
  settle: 'Will settle at',
  within: (value: string, low: string, high: string) => `${value} (${low} to ${high})`,
  gaugeTitle: 'Compare the dial gauge',
  gaugeText: 'Valve shut, wait 15 to 20 s, then read the dial gauge.',
  gaugeValue: 'Dial gauge shows',
  gaugeSend: 'Compare',
  gaugeResult: (gauge: string, sensor: string) => `Dial gauge ${gauge}, sensor ${sensor}.`,
  warmTitle: 'Warm the probes in the hand',
  warmText:
    'Hold one probe and the thermometer together in the hand for a minute, then the next: two that are mixed up show it. Only then is a probe believed above ground temperature.',
  warmValue: (place: string) => `Thermometer shows (${place})`,
  warmSend: 'Compare',
  agrees: 'Agree.',
  differs: 'Differ beyond their uncertainty.',
  answerLetDown: 'Yes, letting down',
  answerLoss: 'No, losing air',
  witnessTitle: 'Witness sample',
  witnessText: 'The sample kept at pipe temperature is:',
  witnessHard: 'Hard',
  witnessSoft: 'Not hard',
  notedHard: 'Noted: hard, kept at pipe temperature.',
  notedSoft: 'Noted: not hard. Leave the packer under pressure.',
  notedWarm:
    'Noted: hard, but not kept at pipe temperature: it says nothing of the sleeve. If it was kept there, tick that and press again.',
  sampleDoubt: {
    'hard-early':
      'Hard far too early for the data sheet: was it kept warmer than the pipe, or is it of another resin? It shortens no wait.',
    'soft-late':
      'Not hard long after the data sheet’s time: a slow batch, or a sample kept colder? The count waits for it.',
  },
  witnessPlace: 'It was kept at pipe temperature',
  span: 'Time shown',
  spanMinute: '1 min',
  spanTenMinutes: '10 min',
  spanHour: '1 h',
  spanAll: 'All',
  traceLabel: 'Pressure and temperatures over time',
  deviceGuard: (state: string) => `Limit in the device: ${state}`,
  deviceGuardAt: (state: string, limit: string) => `Limit in the device: ${state}, ${limit}`,
  deviceSilence: 'Silence the device’s sounder',
  checkpointCode: 'Checkpoint code for the client’s photograph',
  toSheet: 'Job sheet',
  note: 'Note',
  noteAdd: 'Save note',
  asleep: 'The computer may fall asleep: keep it on power, do not lock it.',
};

export const RIG = {
  title: 'Practice rig',
  text: 'Its hands and faults. No real line has this panel.',
  valve: 'Supply valve',
  shut: 'Shut',
  regulator: 'Regulator',
  ventOpen: 'Open vent',
  ventShut: 'Shut vent',
  couple: 'Couple the hose',
  uncouple: 'Open the coupling',
  endShut: 'Shut the hose end',
  endOpen: 'Open the hose end',
  speed: 'Speed of time',
  truth: 'True pressure in the packer',
  faults: 'Faults to find',
};

/** What there is to be learnt at each practice site beside the usual one. */
export const PRACTICE_SITE: Record<
  'practice-pair' | 'practice-moved' | 'practice-differ' | 'practice-cup' | 'practice-air',
  { readonly name: string; readonly text: string }
> = {
  'practice-pair': {
    name: 'A second sensor at the regulator',
    text: 'All is well: the mark of the regulator’s outlet stands beside the packer’s pressure.',
  },
  'practice-moved': {
    name: 'The regulator moves after the proof',
    text: 'Prove the supply first; four minutes after connecting the regulator begins to creep.',
  },
  'practice-differ': {
    name: 'The two sensors disagree',
    text: 'The second sensor reads far too low from soon after connecting: which of them is right?',
  },
  'practice-cup': {
    name: 'The cup shows a slow batch',
    text: 'A probe stands in a cup of the mix. Press Mixed at once; at 20 times the speed it takes two minutes to be told.',
  },
  'practice-air': {
    name: 'A repaired pipe between two plugs',
    text: 'No packer: go to the air test (More, Other stages). Without a fault it is tight; “Leak” makes one.',
  },
};

export const RIG_FAULT: Record<RigFaultCode, string> = {
  regulator: 'Regulator too high',
  creep: 'Regulator creeps',
  'stuck-open': 'Regulator stuck open',
  leak: 'Leak',
  'open-probe': 'Probe breaks',
  unplug: 'Pull the cable',
  replug: 'Put the cable back',
  reset: 'Device restarts',
  garbage: 'Noise on the cable',
  silence: 'Device falls silent',
  'supply-sag': 'Sensor power sags',
  kink: 'Hose kinks',
  burst: 'Packer bursts',
  'blown-hose': 'Hose flies off its coupling',
  relief: 'Relief valve lifts too soon',
  'first-lost': 'Pressure sensor breaks',
  'second-off': 'Second sensor reads off',
  'second-lost': 'Second sensor breaks',
  'sensors-swapped': 'Sensors swapped',
  'cup-in-air': 'Cup’s probe in the air',
  'cup-swapped': 'Probes of cup and sleeve swapped',
  'hose-leak': 'Hose leaks',
  'put-right': 'Sensors, probes, hose put right',
};
