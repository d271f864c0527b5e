import { createMemo, Show } from 'solid-js';
import type { Stage } from '../watch/codes.ts';
import type { Bounded } from '../watch/events.ts';
import type { CupView, CureView } from '../watch/view.ts';
import { cupShort, cupText } from '../words/cup.ts';
import { clockTime, type DisplayUnits, duration, percent, temperature } from '../words/format.ts';
import { CURE, coldestText } from '../words/hold.ts';
import { CURE_LINE } from '../words/lanes.ts';
import { type CureScene, type CureSize, cureScene } from './lanes/cure.ts';
import { createMeasure } from './lanes/measure.ts';
import { Shapes } from './lanes/Shapes.tsx';
import { createSize } from './size.ts';

/** Height where the page gives none, px. */
const HEIGHT_PX = 74;

/**
 * The cure line: black to the cautious count, grey to the upper one, a flag at the end of the data sheet's cure time, and the
 * clock time by which the cautious count is there. Forecasts are told from the hold on: while the line is still filled, a
 * sleeve may yet be moved, and a clock time beside 0 % only confuses.
 */
export function CureLine(props: {
  cure: CureView | null;
  /** The witness cup of the batch; null: there is none. */
  cup: CupView | null;
  hasResin: boolean;
  /** Light makes it hard: nothing is judged. */
  isLightCured: boolean;
  stage: Stage;
  /** The crew is asked to feel the sample now: one that was felt, or an alarm, is not to be talked over. */
  asksSample: boolean;
  nowUtcMs: number | null;
  units: DisplayUnits;
  /** Its element's own size where it is left out. */
  size?: CureSize;
}) {
  const own = createSize();
  const measure = createMeasure();
  const size = (): CureSize =>
    props.size ?? { w: Math.max(300, own.width()), h: HEIGHT_PX, small: own.width() < 520 };
  const clock = (seconds: number) => clockTime((props.nowUtcMs ?? 0) + seconds * 1000);
  const filling = () => props.stage === 'seat' || props.stage === 'inflate';
  const ends = (s: Bounded, show: (value: number) => string) => ({
    value: show(s.value),
    low: show(s.low),
    high: show(s.high),
  });
  const counted = () => (props.isLightCured ? null : props.cure);
  const met = () => {
    const cure = counted();
    return cure !== null && (cure.metAtS !== null || cure.low >= 1);
  };

  /** At the right end: a clock time is the late end of the range; in practice time runs faster than the clock. */
  const end = (): string => {
    if (props.isLightCured) return CURE_LINE.notJudged;
    if (props.cure === null) return props.hasResin ? CURE_LINE.notStarted : CURE_LINE.noResin;
    if (met()) return props.asksSample ? CURE_LINE.met : CURE_LINE.reached;
    if (filling()) return CURE_LINE.counting;
    const m = props.cure.metInS;
    if (m === null) return CURE_LINE.noEnd;
    return props.nowUtcMs === null ? CURE_LINE.inTime(duration(m.high)) : CURE_LINE.at(clock(m.high));
  };
  const sentence = (): string => {
    if (props.isLightCured) return CURE_LINE.light;
    const cure = props.cure;
    if (cure === null) return props.hasResin ? CURE_LINE.fromSeating : CURE_LINE.notFollowed;
    if (met()) return CURE_LINE.full;
    // A likely count over the end is no cure time met: then the cautious one alone is a number.
    if (Math.round(cure.high * 100) >= 100) return CURE_LINE.countsLow(percent(Math.min(0.99, cure.low)));
    const [low, high] = [percent(cure.low), percent(cure.high)];
    return low === high ? CURE_LINE.countsLow(low) : CURE_LINE.counts(low, high);
  };
  const under = (): string => {
    const cure = counted();
    if (cure === null) return '';
    return cure.coldest === null
      ? CURE_LINE.coldestNotKnown
      : CURE_LINE.coldest(temperature(cure.coldest.value, props.units));
  };
  const sceneNow = (): CureScene => {
    const cure = counted();
    return {
      counts: cure === null ? null : { low: cure.low, high: cure.high },
      name: CURE_LINE.name,
      under: under(),
      end: end(),
      sentence: sentence(),
      cup: props.cup === null ? null : { text: cupShort(props.cup), asks: asksOf(props.cup) },
    };
  };
  const scene = createMemo<CureScene>(sceneNow, sceneNow(), {
    equals: (a, b) => seenOf(a) === seenOf(b),
  });
  const shapes = createMemo(() => cureScene(size(), scene(), measure()));

  /** The same in whole sentences, read aloud. */
  const headline = () => {
    const cure = props.cure;
    if (props.isLightCured) return CURE.notJudged;
    if (cure === null) return props.hasResin ? CURE.notStarted : CURE.noResin;
    if (met()) return CURE.met;
    if (filling()) return CURE.notHeld;
    const m = cure.metInS;
    if (m === null) return cure.source === 'none' ? CURE.notKnown : CURE.notMet;
    return props.nowUtcMs === null
      ? CURE.willBeMetIn(ends(m, duration))
      : CURE.willBeMetAt(ends(m, clock), duration(m.value));
  };
  const exotherm = () => {
    const warmest = filling() ? null : (props.cure?.exotherm ?? null);
    if (warmest === null) return null;
    const { peakC, peakInS } = warmest;
    const peak = ends(peakC, (value) => temperature(value, props.units));
    return props.nowUtcMs === null
      ? CURE.exothermIn(ends(peakInS, duration), peak)
      : CURE.exothermAt(ends(peakInS, clock), duration(peakInS.value), peak);
  };
  const progress = (cure: CureView) =>
    !met() && Math.round(cure.progress * 100) >= 100
      ? CURE.progressOver(percent(Math.min(0.99, cure.low)))
      : CURE.progress({
          value: percent(cure.progress),
          low: percent(cure.low),
          high: percent(cure.high),
        });
  return (
    <section class="cure" aria-label={CURE.name} data-testid="cure-line" ref={own.ref}>
      <Shapes width={size().w} height={size().h} shapes={shapes()} class="cure-drawing" />
      <div class="visually-hidden">
        <p data-testid="cure-when" data-met={met()}>
          {headline()}
        </p>
        <Show when={counted()}>
          {(cure) => (
            <>
              <div
                role="progressbar"
                aria-label={CURE.name}
                aria-valuemin={0}
                aria-valuemax={100}
                aria-valuenow={Math.round(Math.min(1, cure().low) * 100)}
                aria-valuetext={CURE.between(percent(cure().low), percent(cure().high))}
              />
              <p>
                {progress(cure())} {coldestText(cure(), props.units)}
              </p>
              <Show when={props.cup}>{(said) => <p data-testid="cure-cup">{cupText(said())}</p>}</Show>
              <Show when={exotherm()}>{(text) => <p data-testid="cure-exotherm">{text()}</p>}</Show>
            </>
          )}
        </Show>
      </div>
    </section>
  );
}

/** Somebody is to look: at the cup, or at the sample. */
const asksOf = ({ verdict, doubt }: CupView): boolean =>
  verdict === 'slow' || verdict === 'no-reaction' || (doubt !== null && doubt !== 'little-heat');

/** What is seen of a scene: a thousandth of the line is under a px. */
const seenOf = ({ counts, ...words }: CureScene): string =>
  JSON.stringify([
    words,
    counts === null ? null : [counts.low, counts.high].map((v) => Math.round(v * 1000)),
  ]);
