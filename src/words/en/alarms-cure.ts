import type { AlarmValues } from '../../watch/events.ts';
import type { ProbeDoubt } from '../../watch/signal/probe-doubt.ts';
import type { Format } from '../create-format.ts';
import { hasCase, type Texts } from '../said/alarm-cases.ts';
import { PLACE } from './terms.ts';

/** Sentences of the alarms of the cure: its temperatures, pot life and the batch. The others: alarms.ts. */

type CureAlarm = 'temperature-lost' | 'cold' | 'pot-life' | 'batch-slow';

/** What the witness cup shows; a slow batch with its time against the usual one where that is known. */
const CUP = {
  'no-reaction': {
    is: 'No reaction is seen in the witness cup: is its probe in the mix? Else the resin may be dead or wrongly mixed: let down only when the witness sample is hard',
    was: 'no reaction was seen in the witness cup',
  },
  'cooler-than-sleeve': {
    is: 'The sleeve was hotter than the witness cup: does the cup’s probe hang in the air, or are the two swapped? Until that is known the colder one counts',
    was: 'the sleeve was hotter than the witness cup: its probe in the air, or the two swapped',
  },
} as const;

const LOST = {
  now: 'is lost, cure time is counted as at the coldest likely temperature: check the probe and its plug',
  was: 'was lost, cure time was counted as at the coldest likely temperature',
};
/** A probe that gives a number which is not believed, by its cause. */
const DOUBTED: Readonly<Record<ProbeDoubt, { readonly now: string; readonly was: string }>> = {
  'stands-still': {
    now: 'has not moved at all for minutes, cure time is counted as at the coldest likely temperature: check the probe and its plug',
    was: 'did not move at all for minutes, cure time was counted as at the coldest likely temperature',
  },
  leapt: {
    now: 'has jumped as no pipe does, cure time is counted as at the coldest likely temperature: check probe and plug, then compare it in the warm hand',
    was: 'had jumped as no pipe does, cure time was counted as at the coldest likely temperature',
  },
  'over-ground': {
    now: 'is far over the job sheet’s ground temperature, cure time is counted by the job sheet’s: see where the probe lies, or correct the job sheet',
    was: 'was far over the job sheet’s ground temperature, cure time was counted by the job sheet’s',
  },
};

/** What is wrong with a probe's number. */
const doubted = ({ cause }: AlarmValues) => (hasCase(DOUBTED, cause) ? DOUBTED[cause] : LOST);

export function cureAlarms(f: Format): Record<CureAlarm, Texts> {
  const usual = (times: number | undefined): string =>
    times === undefined ? '' : `, ${f.fixed(times, 1)} times the usual time`;

  return {
    'temperature-lost': {
      now: (v) =>
        v.place === 'cup'
          ? 'The witness cup’s probe is lost, what it says of the batch stands as it is: check the probe and its plug'
          : `Temperature${v.place === undefined ? '' : ` (${PLACE[v.place]})`} ${doubted(v).now}`,
      was: (v) =>
        v.place === 'cup'
          ? 'the witness cup’s probe was lost'
          : `temperature${v.place === undefined ? '' : ` (${PLACE[v.place]})`} ${doubted(v).was}`,
    },
    cold: {
      now: (v, u) =>
        v.c === undefined
          ? 'The coldest likely spot is under the lowest temperature of the data sheet, no cure time is counted: warm the pipe or wait'
          : `${f.temperature(v.c, u)} is under the lowest temperature of the data sheet, no cure time is counted: warm the pipe or wait`,
      was: (v, u) =>
        v.c === undefined
          ? 'the coldest likely spot was under the lowest temperature of the data sheet, no cure time was counted'
          : `${f.temperature(v.c, u)} was under the lowest temperature of the data sheet, no cure time was counted`,
    },
    'pot-life': {
      now: (v) => {
        const act = 'seat the sleeve, or let down and take it out before it hardens';
        if (v.seconds === undefined) return `Pot life ends soon: ${act}`;
        return v.seconds <= 0
          ? `Pot life is over: ${act}`
          : `Pot life ends in ${f.duration(v.seconds)}: ${act}`;
      },
      was: (v) =>
        v.seconds !== undefined && v.seconds > 0
          ? `pot life was running out, ${f.duration(v.seconds)} were left`
          : 'pot life was running out or over',
    },
    'batch-slow': {
      now: (v) => {
        if (hasCase(CUP, v.cause)) return CUP[v.cause].is;
        return `Witness cup: slow batch${usual(v.times)}. Wrong ratio, old or cold hardener? Let down only when the witness sample is hard`;
      },
      was: (v) =>
        hasCase(CUP, v.cause) ? CUP[v.cause].was : `the witness cup showed a slow batch${usual(v.times)}`,
    },
  };
}
