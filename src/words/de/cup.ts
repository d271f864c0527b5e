import type { CupDoubt, CupVerdict } from '../../watch/codes.ts';
import type { WatchEvent } from '../../watch/events.ts';
import type { Format } from '../create-format.ts';

type Said = Pick<Extract<WatchEvent, { e: 'cup' }>, 'verdict' | 'doubt' | 'times'>;

/** Why a witness cup cannot tell, and what is asked. */
const DOUBT: Record<CupDoubt, string> = {
  'little-heat': 'er erwärmt sich zu wenig, um gelesen zu werden',
  lost: 'sein Fühler wurde zu lange nicht gelesen',
  'not-of-pot':
    'er begann nicht bei der Temperatur der Mischung. Ist der Fühler im Becher und der Becher von dieser Charge?',
  'too-early': 'so schnell ist keine Charge. Wurde früher gemischt, oder ist es ein anderes Harz?',
  'cooler-than-sleeve':
    'der Kurzliner war heißer als er. Hängt sein Fühler in der Luft, oder sind die beiden Fühler vertauscht?',
};

const VERDICT: Record<CupVerdict, string> = {
  waits: 'noch nichts zu sagen',
  reacts: 'das Harz reagiert',
  usual: 'reagiert wie üblich',
  quick: 'schneller als üblich',
  slow: 'langsame Charge',
  'no-reaction': 'keine Reaktion zu sehen. Ist der Fühler darin? Sonst ist das Harz vielleicht tot',
  'cannot-tell': 'nicht zu sagen',
};

/** On the cure line, beside a mark. */
const SHORT: Record<CupVerdict, string> = {
  waits: 'Becher wartet',
  reacts: 'Becher reagiert',
  usual: 'Becher wie üblich',
  quick: 'Becher schnell',
  slow: 'BECHER LANGSAM',
  'no-reaction': 'BECHER KALT',
  'cannot-tell': 'Becher unklar',
};

export function cup(f: Format) {
  const times = (x: number): string => `${f.fixed(x, 1)} ×`;
  return {
    /** What the cup says, in one sentence. */
    cupText({ verdict, doubt, times: t }: Said): string {
      if (doubt !== null) return `Probenbecher kann nichts sagen: ${DOUBT[doubt]}`;
      const what = `Probenbecher: ${VERDICT[verdict]}`;
      if (t === null) return what;
      return t.value === null || t.most === null
        ? `${what}, mindestens ${times(t.least)} die übliche Zeit`
        : `${what}, ${times(t.value)} die übliche Zeit (${f.fixed(t.least, 1)} bis ${f.fixed(t.most, 1)})`;
    },

    /** The mark that a resin's document keeps of a batch. */
    cupMark: (heatAge: number, rise: string): string =>
      `Größte Wärme bei ${f.fixed(heatAge, 2)} der Datenblattzeit, erwärmt um ${rise}`,

    /** The same in two or three words, for the cure line. */
    cupShort({ verdict, times: t }: Said): string {
      const value = t?.value ?? null;
      return value === null ? SHORT[verdict] : `${SHORT[verdict]} ${times(value)}`;
    },
  };
}
