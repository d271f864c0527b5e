import { describe, expect, it } from 'vitest';
import { ALARMS, type AlarmCode, STAGES } from '../../../watch/codes.ts';
import type { AlarmValues } from '../../../watch/events.ts';
import { CAP_EM, widthEm } from '../../../widgets/fit.ts';
import { loadCatalogue } from '../../../words/catalogue.ts';
import { LANGUAGES } from '../../../words/languages.ts';
import { layoutOf } from '../layout.ts';
import { apart, WINDOWS } from '../testing/windows.ts';
import { blockLayout } from './sizes.ts';

const PARTS = {
  practice: null,
  verb: ['AIR OFF', 'OPEN VENT'],
  figures: [
    ['Over rated by', '1.20'],
    ['Rated', '1.80'],
  ] as const,
  sentence: [{ text: 'Urgent. Everyone clear: shut the supply valve, open the vent.', weight: 400 }] as const,
};
describe.each([...WINDOWS, [1280, 800]] as const)('an acknowledged alarm at %d x %d', (width, height) => {
  it.each(['urgent', 'high', 'was'] as const)('%s: nothing that is read lies under the key More', (form) => {
    const l = layoutOf(width, height, false);
    const at = blockLayout(l, form, { ...PARTS, more: true });
    for (const part of [at.verb, ...at.figures, at.sentence].filter((r) => r.w > 0 && r.h > 0))
      expect(apart(part, l.more), JSON.stringify({ part, more: l.more })).toBe(true);
  });
});

it.each(WINDOWS)(
  'at %d x %d the lines of one that is over stand apart: letters reach below theirs',
  (...size) => {
    const verb = ['Ended: acknowledge it.', 'Was: Pressure reading lost'];
    const at = blockLayout(layoutOf(...size, false), 'was', { ...PARTS, verb, figures: [], more: false });
    expect(at.lines).toEqual(verb);
    // Of the face in use a line with all its letters is this high (B612, hhea table: ascender and descender), em.
    expect(at.verbLineEm).toBeGreaterThan(1.1);
    expect(at.lines.length * at.verbLineEm * at.verbPx).toBeLessThanOrEqual(at.verb.h + 1);
  },
);

describe('figures of an alarm that waits, on an upright tablet', () => {
  const l = layoutOf(820, 1180, false);
  const long = [
    ['Leak', '7.2 mbar/min'],
    ['Hold floor', '0.77'],
  ] as const;

  it('stand together: nothing is read between them', () => {
    const { figures, sentence } = blockLayout(l, 'urgent', { ...PARTS, more: false });
    const [first, second] = [figures[0]!, figures[1]!];
    expect(second.x).toBe(first.x);
    expect(second.y - first.y - first.h).toBeLessThanOrEqual(12);
    for (const figure of figures) expect(apart(figure, sentence)).toBe(true);
  });

  it('are as large as their longest value leaves them: none lies under a key', () => {
    const at = blockLayout(l, 'high', { ...PARTS, figures: long, more: false });
    const widest = Math.max(...long.map(([, value]) => widthEm(value) * at.figurePx));
    expect(widest).toBeLessThanOrEqual(at.figures[0]!.w);
    for (const figure of at.figures) for (const key of [l.ack, l.key]) expect(apart(figure, key)).toBe(true);
  });
});

/** Everything that an order may show a figure of. */
const FULL: AlarmValues = {
  bar: 1.76,
  ratedBar: 1.8,
  overBar: 1.2,
  spanBar: 4,
  ceilingBar: 1.74,
  floorBar: 0.9,
  gaugeBar: 1.6,
  settleBar: 1.93,
  adviceHighBar: 1.35,
  adviceLowBar: 0.9,
  seconds: 26,
  inS: 6.8,
  secondBar: 1.64,
  lockUpBar: 1.65,
  jumpBar: 0.31,
  times: 2.3,
  c: 4.6,
};
/** Alarms of the highest priority (docs/alarms.md): they take the form that is read from three metres. */
const URGENT = ALARMS.filter((code) =>
  ['over-range', 'over-rated', 'over-test', 'ceiling', 'rising', 'supply-over', 'pressure-lost'].includes(
    code,
  ),
);
/** CSS px a millimetre of a 10-inch tablet, as in the browser's own test of the page. */
const PX_PER_MM = 5.2;

describe.each(Object.keys(LANGUAGES))('orders in %s', async (language) => {
  const words = await loadCatalogue({ language, decimal: 'comma' });
  const orders = (codes: readonly AlarmCode[]) =>
    codes.flatMap((code) =>
      STAGES.flatMap((stage) =>
        [FULL, { ...FULL, cause: 'over' }, { ...FULL, cause: 'fast-fall' }].map((values) =>
          words.orders.VERBS[code]({ state: 'unacknowledged', values }, { stage }),
        ),
      ),
    );
  const smallest = (
    size: readonly [number, number],
    form: 'urgent' | 'high',
    codes: readonly AlarmCode[],
  ) => {
    const l = layoutOf(...size, false);
    return Math.min(
      ...orders(codes).map(({ verb, figures, sentence }) => {
        const parts = {
          practice: null,
          verb,
          figures,
          sentence: [{ text: sentence, weight: 400 }],
          more: false,
        } as const;
        return blockLayout(l, form, parts).verbPx * CAP_EM;
      }),
    );
  };

  it('are as large as three metres ask for: an urgent one 15 mm on an upright 10-inch tablet', () => {
    // Widths are guessed here, and wide: the browser measures a little more (tests/e2e/live-face.test.ts).
    expect(smallest([820, 1180], 'urgent', URGENT) / PX_PER_MM).toBeGreaterThanOrEqual(15);
    expect(smallest([820, 1180], 'high', ALARMS) / PX_PER_MM).toBeGreaterThanOrEqual(7);
  });

  it('are capitals in one or two lines, ten letters long and a voice says them in a breath', () => {
    for (const { verb, spoken, figures } of orders(ALARMS)) {
      expect(verb.length).toBeGreaterThanOrEqual(1);
      expect(verb.length).toBeLessThanOrEqual(2);
      for (const line of verb) {
        expect(line.length, line).toBeLessThanOrEqual(11);
        expect(line).toBe(line.toLocaleUpperCase(language));
      }
      expect(spoken.length, spoken).toBeLessThanOrEqual(64);
      for (const [label] of figures) expect(label.length, label).toBeLessThanOrEqual(20);
    }
  });
});
