import type { Setup } from '../job/setup.ts';
import type { WatchEvent } from '../watch/events.ts';
import { ALARM_STATE, ALARM_TITLE, alarmText, PRIORITY } from './alarms.ts';
import { duration, fixed, METRIC, pressure, pressureNumber, temperature } from './format.ts';
import { leakText } from './hold.ts';
import { overrideText } from './overrides.ts';
import { GAP, PLACE, STAGE } from './terms.ts';

const ZERO: Record<Extract<WatchEvent, { e: 'zero' }>['reason'], string> = {
  ok: 'taken',
  'too-far': 'refused: too far from zero, the sensor may be damaged or under pressure',
  noisy: 'refused: the reading is not still yet. Wait a few seconds and press again',
  'in-run': 'refused: never during a run under way',
  'no-reading': 'refused: there is no reading',
};

const SEGMENT_WHY: Record<Extract<WatchEvent, { e: 'segment' }>['why'], string> = {
  still: 'still',
  'top-up': 'topped up',
  flow: 'air flows',
  gap: 'gap in the readings',
  stage: 'stage changed',
  end: 'end of the run',
};

const REBOUND: Record<Extract<WatchEvent, { e: 'rebound' }>['what'], string> = {
  started: 'Vent closed, waiting whether the pressure comes back',
  stayed: 'Reading stayed at zero with the vent closed. A kink or check valve can read the same',
  'came-back': 'Pressure came back with the vent closed: the packer is not empty',
  'broken-off': 'Rebound test broken off',
};

const DEVICE: Record<Extract<WatchEvent, { e: 'device' }>['what'], string> = {
  greeted: 'Device greeted',
  reset: 'Device restarted',
  other: 'Another device answered',
  button: 'Button on the device pressed',
  trip: 'The device’s own limit tripped',
  return: 'The device’s own limit returned',
  fault: 'Device reports a fault',
};

export function zeroText(reason: keyof typeof ZERO): string {
  return `Zero ${ZERO[reason]}`;
}

/** One line a record's event, for the list beside a trace. */
export function eventText(event: WatchEvent, units = METRIC): string {
  switch (event.e) {
    case 'stage':
      return `${STAGE[event.stage]}${event.attempt > 1 ? `, attempt ${event.attempt}` : ''}${event.by === 'data' ? ' (seen in the data)' : ''}`;
    case 'alarm':
      if (event.to === 'unacknowledged')
        return `${PRIORITY[event.priority]}: ${alarmText(event.alarm, event.values, units)}`;
      return `${ALARM_TITLE[event.alarm]}: ${ALARM_STATE[event.to]}`;
    case 'acknowledge-refused':
      return `${ALARM_TITLE[event.alarm]}: a press for an earlier alarm came late and acknowledged nothing`;
    case 'cue':
      return `Cue: close in ${duration(event.closeInS)}`;
    case 'gap':
      return `Gap of ${duration((event.toUs - event.fromUs) / 1e6)}: ${GAP[event.reason]}`;
    case 'limits':
      return event.ceilingBar === null
        ? 'No limit set: gauge only'
        : `Limits: ceiling ${pressure(event.ceilingBar, units)}, working ${pressure(event.workingBar, units)}, floor ${event.floorBar === null ? 'not known' : pressure(event.floorBar, units)}`;
    case 'setup-refused':
      return event.reason === 'ceiling-raised'
        ? 'Change of the job sheet refused: within a run the ceiling only falls'
        : 'Change of the job sheet refused: it is not newer';
    case 'zero':
      return event.taken
        ? `Zero taken, offset ${pressure(event.offsetBar, units, 1)}`
        : zeroText(event.reason);
    case 'gauge':
      return `Dial gauge ${pressure(event.gaugeBar, units)}, sensor ${pressure(event.readingBar, units)}: ${agreement(event.agrees)}`;
    case 'warm-check':
      return `Probe ${PLACE[event.place]} ${temperature(event.readingC, units)}, thermometer ${temperature(event.thermometerC, units)}: ${agreement(event.agrees)}`;
    case 'segment':
      return `Closed line ${event.what === 'opened' ? 'begins' : 'ends'} (${SEGMENT_WHY[event.why]})`;
    case 'leak':
      return leakText(event.leak, units);
    case 'hold':
      return `Hold: ${fixed(event.minutesInBand, 1)} min in the band, ${pressure(event.minBar, units)} to ${pressure(event.maxBar, units)}. ${leakText(event.leak, units)}`;
    case 'knee':
      return `Packer meets the wall at ${pressure(event.freeInflationBar, units)} (${pressureNumber(event.low, units)} to ${pressureNumber(event.high, units)})`;
    case 'lift':
      return `Warmth will lift the pressure to ${pressure(event.peakBar.value, units)} (${pressureNumber(event.peakBar.low, units)} to ${pressureNumber(event.peakBar.high, units)})`;
    case 'cure-start':
      return `Cure time counts from here (${event.from})`;
    case 'cure-met':
      return 'Cure time by the data sheet met at the coldest credible place (lower bound)';
    case 'question':
      if (event.answer === null) return 'Asked: let-down or loss?';
      if (event.answer === 'held') return 'Question taken back: the fall has ended and the pressure has held';
      return event.answer === 'let-down' ? 'Answered: letting down' : 'Answered: loss of pressure';
    case 'rebound':
      return REBOUND[event.what];
    case 'mixed':
      return 'Resin mixed';
    case 'witness':
      return `Witness sample ${event.hard ? 'hard' : 'not hard'}, ${event.atPipeTemperature ? 'kept at pipe temperature' : 'not kept at pipe temperature'}`;
    case 'override':
      return `Gone on against advice (${overrideText(event.what)}): ${event.reason}`;
    case 'note':
      return event.text;
    case 'device':
      return DEVICE[event.what];
    case 'store':
      return event.ok ? 'Recording works again' : `Recording fault (${event.code})`;
    case 'end':
      return 'End of the run';
  }
}

function agreement(agrees: boolean | null): string {
  if (agrees === null) return 'cannot be compared';
  return agrees ? 'agree within their uncertainty' : 'differ beyond their uncertainty';
}

/** What a run's limits say in one line. */
export function limitsText(setup: Setup | null, units = METRIC): string {
  const limits = setup?.limits ?? null;
  if (limits === null) return 'No limit set: gauge only';
  return `Rated ${pressure(limits.ratedBar, units)}, ceiling ${pressure(limits.ceilingBar, units)}, working ${pressure(limits.workingBar, units)}`;
}
