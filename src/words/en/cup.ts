import type { CupDoubt, CupVerdict } from '../../watch/codes.ts';
import type { WatchEvent } from '../../watch/events.ts';
import type { Format } from '../create-format.ts';

type Said = Pick<Extract<WatchEvent, { e: 'cup' }>, 'verdict' | 'doubt' | 'times'>;

/** Why a witness cup cannot tell, and what is asked. */
const DOUBT: Record<CupDoubt, string> = {
  'little-heat': 'it warms too little to be read',
  lost: 'its probe was not read for too long',
  'not-of-pot':
    'it did not begin at the temperature of the mix. Is the probe in the cup, and the cup of this batch?',
  'too-early': 'no batch is so quick. Was it mixed earlier, or is it another resin?',
  'cooler-than-sleeve':
    'the sleeve was hotter than it. Does its probe hang in the air, or are the two probes swapped?',
};

const VERDICT: Record<CupVerdict, string> = {
  waits: 'nothing to tell yet',
  reacts: 'the resin reacts',
  usual: 'reacts as usual',
  quick: 'quicker than usual',
  slow: 'slow batch',
  'no-reaction': 'no reaction seen. Is the probe in it? Else the resin may be dead',
  'cannot-tell': 'cannot tell',
};

/** On the cure line, beside a mark. */
const SHORT: Record<CupVerdict, string> = {
  waits: 'cup waits',
  reacts: 'cup reacts',
  usual: 'cup as usual',
  quick: 'cup quick',
  slow: 'CUP SLOW',
  'no-reaction': 'CUP COLD',
  'cannot-tell': 'cup cannot tell',
};

export function cup(f: Format) {
  const times = (x: number): string => `${f.fixed(x, 1)} ×`;
  return {
    /** What the cup says, in one sentence. */
    cupText({ verdict, doubt, times: t }: Said): string {
      if (doubt !== null) return `Witness cup cannot tell: ${DOUBT[doubt]}`;
      const what = `Witness cup: ${VERDICT[verdict]}`;
      if (t === null) return what;
      return t.value === null || t.most === null
        ? `${what}, at least ${times(t.least)} the usual time`
        : `${what}, ${times(t.value)} the usual time (${f.fixed(t.least, 1)} to ${f.fixed(t.most, 1)})`;
    },

    /** The mark that a resin's document keeps of a batch. */
    cupMark: (heatAge: number, rise: string): string =>
      `Greatest heat at ${f.fixed(heatAge, 2)} of the data sheet’s time, warmed by ${rise}`,

    /** The same in two or three words, for the cure line. */
    cupShort({ verdict, times: t }: Said): string {
      const value = t?.value ?? null;
      return value === null ? SHORT[verdict] : `${SHORT[verdict]} ${times(value)}`;
    },
  };
}
