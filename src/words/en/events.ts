import type { Setup } from '../../job/setup.ts';
import { DEVICE_FAULTS } from '../../link/frames.ts';
import type { GapReason } from '../../watch/codes.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { type Format, METRIC } from '../create-format.ts';
import { hasCase } from '../said/alarm-cases.ts';
import type { airTest } from './air-test.ts';
import { ALARM_STATE, ALARM_TITLE, alarmTitle, PRIORITY } from './alarm-titles.ts';
import type { alarms } from './alarms.ts';
import { itemName } from './checks.ts';
import type { cup } from './cup.ts';
import { deviceFault } from './device-faults.ts';
import type { hold } from './hold.ts';
import { STORE_CAUSE } from './link.ts';
import { overrideText } from './overrides.ts';
import type { supply } from './supply.ts';
import { PLACE, STAGE } from './terms.ts';
import { ZERO } from './zero.ts';

const GAP: Record<GapReason, string> = {
  silence: 'The device was silent',
  port: 'The cable or port was gone',
  reset: 'The device restarted',
  dropped: 'The cable was too slow, readings were dropped',
  clock: 'The computer was asleep',
  resumed: 'The run was interrupted and resumed',
  garbage: 'Noise instead of readings',
  'out-of-order': 'Readings came in another order than they were taken in; the late ones are not used',
  'device-clock': 'The device’s clock jumped',
};

const CURE_START: Record<Extract<WatchEvent, { e: 'cure-start' }>['from'], string> = {
  seat: 'Cure time counts from here (seated)',
  inflate: 'Cure time counts from here (inflated)',
  hold: 'Cure time counts from here (hold)',
};

/** What the sample contradicts, and what is asked; the age in per cent of the data sheet's time. */
const SAMPLE: Record<Extract<WatchEvent, { e: 'sample' }>['doubt'], (age: string) => string> = {
  'hard-early': (age) =>
    `Sample hard at ${age} % of the data sheet’s time: was it kept warmer than the pipe, or is it of another resin?`,
  'soft-late': (age) =>
    `Sample not hard at ${age} % of the data sheet’s time: a slow batch, or a sample kept colder? The count waits for it`,
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
  started: 'Vent shut, waiting whether the pressure comes back',
  stayed: 'Stayed at zero with the vent shut. A kink or check valve can hide air',
  'came-back': 'Pressure came back with the vent shut: the packer is not empty',
  'broken-off': 'Rebound test broken off',
};

const DEVICE: Record<Extract<WatchEvent, { e: 'device' }>['what'], string> = {
  greeted: 'Device connected',
  reset: 'Device restarted',
  other: 'Another device answered',
  rescaled: 'The device came back with another scale',
  taken: 'The other device was taken for the run; its zero is not taken yet',
  button: 'Button on the device pressed',
  trip: 'The device’s own limit tripped',
  return: 'The device’s own limit returned',
  fault: 'Device reports a fault',
  hostlost: 'The device hears nothing from this computer',
  hostback: 'The device hears this computer again',
};

function zeroTaken(
  offset: string,
  second: Extract<WatchEvent, { e: 'zero' }>['second'],
  pressure: (bar: number) => string,
): string {
  if (second === undefined) return `Zero taken, offset ${offset}`;
  const { reason } = second;
  switch (reason) {
    case 'ok':
      return `Zero taken of both sensors, offsets ${offset} and ${pressure(second.offsetBar)}`;
    case 'too-far':
      return `Zero taken, offset ${offset}; not of the second sensor, which read ${pressure(second.offsetBar)}`;
    case 'noisy':
      return `Zero taken, offset ${offset}; not of the second sensor, which was not still`;
    case 'no-reading':
      return `Zero taken, offset ${offset}; not of the second sensor, which gave no reading`;
    default:
      return reason satisfies never;
  }
}

/** @param time how long nothing had come */
const BESIDE: Record<Extract<WatchEvent, { e: 'beside' }>['what'], (time: string) => string> = {
  greeted: () => 'Second adapter connected: its temperatures are read beside the pressure',
  other: () => 'Another second adapter answered than the job sheet names; it is not read',
  rescaled: () => 'The second adapter came back with another scale; it is not read',
  port: () => 'Second adapter gone: its temperatures stand, the pressure goes on',
  closed: () => 'Second adapter disconnected: its temperatures stand, the pressure goes on',
  silent: (time) =>
    `Nothing from the second adapter for ${time}: its temperatures stand, the pressure goes on`,
  back: (time) => `Second adapter back, after ${time}`,
};

/** An item of the checklist, and what was said of it. */
function checkLine({ item, said, how, text, by }: Extract<WatchEvent, { e: 'check' }>): string {
  const who = by === '' ? '' : ` (${by})`;
  const name = itemName(item, said);
  switch (how) {
    case 'done':
      return text === '' ? `Checked: ${name}${who}` : `Checked: ${name}: ${text}${who}`;
    case 'passed':
      return `Gone on without: ${name}. Reason: ${text}${who}`;
    case 'taken-back':
      return `Answer taken back: ${name}${who}`;
    default:
      return how satisfies never;
  }
}

function storeFault(code: string): string {
  const known = hasCase(STORE_CAUSE, code) ? STORE_CAUSE[code] : code;
  return `Recording fault (${known})`;
}

function agreement(agrees: boolean | null): string {
  if (agrees === null) return 'cannot be compared';
  return agrees ? 'agree within their uncertainty' : 'differ beyond their uncertainty';
}

export function events(
  f: Format,
  { alarmWas }: ReturnType<typeof alarms>,
  { leakText }: ReturnType<typeof hold>,
  { supplyEvent }: ReturnType<typeof supply>,
  { airTestEvent }: ReturnType<typeof airTest>,
  { cupMark, cupText }: ReturnType<typeof cup>,
) {
  return {
    GAP,

    /** One line a record's event, for the list beside a trace. */
    eventText(event: WatchEvent, units = METRIC): string {
      switch (event.e) {
        case 'stage':
          return `${STAGE[event.stage]}${event.attempt > 1 ? `, attempt ${event.attempt}` : ''}${event.by === 'data' ? ' (seen in the data)' : ''}`;
        case 'alarm':
          if (event.to === 'unacknowledged')
            return `${PRIORITY[event.priority]}: ${alarmWas(event.alarm, event.values, units)}`;
          return `${alarmTitle(event)}: ${ALARM_STATE[event.to]}`;
        case 'acknowledge-refused':
          return `${ALARM_TITLE[event.alarm]}: a press for an earlier alarm came late and acknowledged nothing`;
        case 'cue':
          return `Cue: shut the valve in ${f.duration(event.closeInS)}`;
        case 'too-fast':
          return `Too fast: at ${f.pressureSlope(event.rateBarPerS, units)} a hand is late by ${f.pressure(event.lateBar, units)}, up to ${f.pressureSlope(event.mostBarPerS, units)} it is in time`;
        case 'gap':
          return `Gap of ${f.duration((event.toUs - event.fromUs) / 1e6)}: ${GAP[event.reason]}`;
        case 'limits':
          return event.ceilingBar === null
            ? 'No limit: no over-pressure warning'
            : `Limits: ceiling ${f.pressure(event.ceilingBar, units)}, working ${f.pressure(event.workingBar, units)}, hold floor ${event.floorBar === null ? 'not known' : f.pressure(event.floorBar, units)}`;
        case 'setup-refused':
          return event.reason === 'ceiling-raised'
            ? 'Change of the job sheet refused: during a run the ceiling can be lowered, never raised'
            : 'Change of the job sheet refused: it is not newer';
        case 'zero':
          return event.taken
            ? zeroTaken(f.pressure(event.offsetBar, units, 1), event.second, (bar) =>
                f.pressure(bar, units, 1),
              )
            : ZERO[event.reason];
        case 'gauge':
          return `Dial gauge ${f.pressure(event.gaugeBar, units)}, sensor ${f.pressure(event.readingBar, units)}: ${agreement(event.agrees)}`;
        case 'warm-check':
          return `Probe ${PLACE[event.place]} ${f.temperature(event.readingC, units)}, thermometer ${f.temperature(event.thermometerC, units)}: ${agreement(event.agrees)}`;
        case 'segment':
          return `Closed line ${event.what === 'opened' ? 'begins' : 'ends'} (${SEGMENT_WHY[event.why]})`;
        case 'leak':
          return leakText(event.leak, units);
        case 'hold':
          return `Hold: ${f.fixed(event.minutesInBand, 1)} min in the hold band, ${f.pressure(event.minBar, units)} to ${f.pressure(event.maxBar, units)}. ${leakText(event.leak, units)}`;
        case 'knee':
          return `Packer meets the wall at ${f.pressure(event.freeInflationBar, units)} (${f.pressureNumber(event.low, units)} to ${f.pressureNumber(event.high, units)})`;
        case 'lift':
          return `Cure heat will raise the pressure to ${f.pressure(event.peakBar.value, units)} (${f.pressureNumber(event.peakBar.low, units)} to ${f.pressureNumber(event.peakBar.high, units)})`;
        case 'cure-start':
          return event.before === undefined
            ? CURE_START[event.from]
            : `${CURE_START[event.from]}, with ${f.fixed(event.before.minutes, 1)} min since mixing at ${f.temperature(event.before.coldestC, units)} or warmer`;
        case 'cure-met':
          return 'Data-sheet cure time reached at the coldest likely spot (cautious count)';
        case 'question':
          if (event.answer === null) return 'Asked: let-down or loss?';
          if (event.answer === 'held')
            return 'Question taken back: the fall has ended and the pressure has held';
          return event.answer === 'let-down' ? 'Answered: letting down' : 'Answered: loss of pressure';
        case 'rebound':
          return REBOUND[event.what];
        case 'supply':
          return supplyEvent(event, units);
        case 'air-test':
          return airTestEvent(event, units);
        case 'outlet-stood':
          return `Regulator’s outlet stands at ${f.pressure(event.bar, units)}`;
        case 'cup':
          return event.heatAge === null
            ? cupText(event)
            : `${cupText(event)}. ${cupMark(event.heatAge, f.quantity('temperatureDifference', event.riseK, units))}`;
        case 'mixed':
          return 'Resin mixed';
        case 'witness':
          return `Witness sample ${event.hard ? 'hard' : 'not hard'}, ${event.atPipeTemperature ? 'kept at pipe temperature' : 'not kept at pipe temperature'}`;
        case 'sample':
          return SAMPLE[event.doubt](f.fixed(event.age * 100, 0));
        case 'override':
          return `Gone on against advice (${overrideText(event.what)}): ${event.reason}`;
        case 'check':
          return checkLine(event);
        case 'operator':
          return event.by === '' ? 'At the computer: nobody named' : `At the computer: ${event.by}`;
        case 'note':
          return event.text;
        case 'device':
          return event.what === 'fault'
            ? `${DEVICE.fault}: ${deviceFault(DEVICE_FAULTS[(event.value ?? 0) - 1]).was}`
            : DEVICE[event.what];
        case 'beside':
          return BESIDE[event.what](f.duration(event.seconds ?? 0));
        case 'store':
          return event.ok ? 'Recording works again' : storeFault(event.code);
        case 'end':
          return 'End of the run';
      }
    },

    /** What a run's limits say in one line. */
    limitsText(setup: Setup | null, units = METRIC): string {
      const limits = setup?.limits ?? null;
      if (limits === null) return 'No limit: no over-pressure warning';
      return `Rated ${f.pressure(limits.ratedBar, units)}, ceiling ${f.pressure(limits.ceilingBar, units)}, working ${f.pressure(limits.workingBar, units)}`;
    },
  };
}
