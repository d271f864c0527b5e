import { createEffect, createMemo, createSignal, Index, type JSX, on, onCleanup, onMount } from 'solid-js';
import { LANES } from '../../words/lanes.ts';
import { StageRibbon } from '../StageRibbon.tsx';
import { inkOf } from './canvas.ts';
import { type LanesSize, lanesBox } from './geometry.ts';
import { ladderRect } from './ladder-painter.ts';
import { createLanesPainter, type LanesPainter, type LanesPicture, linesRect } from './painter.ts';
import type { StageSpan } from './ribbon.ts';
import type { Rect } from './shape.ts';

/** Pointer and fill reach a new reading in this time, at an even pace, ms. */
const FOLLOW_MS = 120;
/** Less than this is not moved, but set, px of the screen. */
const LEAST_MOVE_PX = 0.75;

const place = (r: Rect): JSX.CSSProperties => ({
  left: `${r.x}px`,
  top: `${r.y}px`,
  width: `${r.w}px`,
  height: `${r.h}px`,
});

/** Whether the reader wants things to move. Asked once: the answer follows the reader's own setting. */
const still = typeof matchMedia === 'function' ? matchMedia('(prefers-reduced-motion: reduce)') : null;
const isStill = (): boolean => still?.matches === true;

/** A part of the drawing as a screen reader finds it. */
function Zone(props: { testId: string; at: Rect; label: string }) {
  const at = createMemo(() => place(props.at));
  return (
    <div class="lanes-zone" data-testid={props.testId} style={at()} role="img" aria-label={props.label} />
  );
}

/**
 * The lanes of the live page: stage ribbon, pressure over time, the ladder on the same scale, temperatures on their own, time.
 * All data come in; the drawing is done by the painter, outside the reactive graph, once a frame at most.
 */
export function Lanes(props: {
  size: LanesSize;
  /** Without its size: that is worked out here. */
  picture: Omit<LanesPicture, 'size' | 'box'>;
  stages: readonly StageSpan[];
  /** Running time of the stage. */
  stageClock: string;
  /** Changes when the colours do. */
  theme: string;
  label: string;
  ladderLabel: string;
  /** The temperatures, read aloud. */
  spoken: readonly string[];
  /** Given: the trace is one large key for it. */
  onOpen?: (() => void) | undefined;
  openLabel?: string | undefined;
  /** Something lies over the trace. */
  covered: boolean;
}) {
  let ground!: HTMLCanvasElement;
  let lines!: HTMLDivElement;
  let over!: HTMLCanvasElement;
  let ladder!: HTMLCanvasElement;
  const box = createMemo(() => lanesBox(props.size));
  const picture = createMemo<LanesPicture>(() => ({ ...props.picture, size: props.size, box: box() }));
  const [fonts, setFonts] = createSignal(0);

  let painter: LanesPainter | null = null;
  let frame = 0;
  /** The move that is under way: from and to, bar, and when it began, ms. */
  let move: { from: number; to: number; since: number } | null = null;
  let shown: number | null = null;

  /** Px of the screen a px of the drawing; a page may enlarge the drawing as a whole. */
  const fineness = () => {
    const wide = ground.getBoundingClientRect().width / Math.max(1, props.size.w);
    return Math.max(1, globalThis.devicePixelRatio || 1) * (wide > 0.1 ? wide : 1);
  };

  const target = () => picture().ladder.bar;
  /** Sets where the pointer goes; a reading that comes back from nowhere is not moved to. */
  const aim = (now: number) => {
    const to = target();
    if (to === null || shown === null || painter === null || isStill()) {
      shown = to;
      move = null;
    } else if (move?.to !== to) {
      if (painter.movedPx(picture(), shown, to) < LEAST_MOVE_PX) {
        shown = to;
        move = null;
      } else move = { from: shown, to, since: now };
    }
    if (move === null) return;
    const share = Math.min(1, (now - move.since) / FOLLOW_MS);
    shown = move.from + (move.to - move.from) * share;
    if (share === 1) move = null;
  };
  const draw = (now: number) => {
    frame = 0;
    if (painter === null) return;
    aim(now);
    painter.draw(picture(), shown);
    if (move !== null) ask();
  };
  /** Is all of the picture there already, but for a reading that is no further than the pointer's own place? */
  const isSeenIn = (next: LanesPicture, before: LanesPicture): boolean => {
    const to = next.ladder.bar;
    const { trust, limits } = next.ladder;
    if (painter === null || to === null || shown === null || (trust !== 'good' && trust !== 'stale'))
      return false;
    // At a limit the colour turns on the reading itself, however little it moves.
    const side = (bar: number) => limits !== null && [bar >= limits.ceilingBar, bar > limits.ratedBar].join();
    const same = <T extends object>(a: T, b: T, besides: keyof T) =>
      (Object.keys(a) as (keyof T)[]).every((k) => k === besides || Object.is(a[k], b[k]));
    return (
      same(next, before, 'ladder') &&
      same(next.ladder, before.ladder, 'bar') &&
      side(to) === side(shown) &&
      painter.movedPx(next, shown, to) < LEAST_MOVE_PX
    );
  };
  const ask = () => {
    if (frame === 0) frame = requestAnimationFrame(draw);
  };

  onMount(() => {
    const again = () => setFonts((n) => n + 1);
    // Letters that come after the first picture are drawn as soon as they are there.
    document.fonts?.addEventListener?.('loadingdone', again);
    onCleanup(() => {
      cancelAnimationFrame(frame);
      document.fonts?.removeEventListener?.('loadingdone', again);
    });
  });
  createEffect(
    on([() => props.theme, fonts, () => JSON.stringify(props.size)], () => {
      const ratio = fineness();
      painter = createLanesPainter({ ground, lines, over, ladder }, inkOf(ground), ratio);
      ask();
    }),
  );
  createEffect(
    on(
      picture,
      (next, before) => {
        // A reading that moves nothing is no picture.
        if (before === undefined || move !== null || !isSeenIn(next, before)) ask();
      },
      { defer: true },
    ),
  );

  return (
    <div class="lanes" data-testid="lanes">
      <div aria-hidden="true">
        <canvas
          ref={ground}
          class="lanes-layer"
          style={place({ x: 0, y: 0, w: props.size.w, h: props.size.h })}
        />
        <div ref={lines} class="lanes-layer" style={place(linesRect(box()))} />
        <canvas
          ref={over}
          class="lanes-layer"
          style={place({ x: 0, y: 0, w: props.size.w, h: props.size.h })}
        />
        <canvas ref={ladder} class="lanes-layer" style={place(ladderRect(box()))} />
      </div>
      <StageRibbon
        spans={props.stages}
        fromS={props.picture.lines.nowS - props.picture.lines.spanS}
        toS={props.picture.lines.nowS}
        left={box().ribbon.x}
        plotRight={box().pressure.x + box().pressure.w}
        right={props.size.w}
        height={props.size.ribbonH}
        small={props.size.small}
        clock={props.stageClock}
      />
      <Zone testId="zone-trace" at={box().zones.trace} label={props.label} />
      {props.onOpen === undefined ? null : (
        <button
          type="button"
          class="lanes-zone lanes-open"
          style={place(box().zones.trace)}
          aria-label={props.openLabel}
          hidden={props.covered}
          onClick={() => props.onOpen?.()}
        />
      )}
      <Zone testId="zone-ladder" at={box().zones.ladder} label={props.ladderLabel} />
      <ul
        class="lanes-zone"
        data-testid="zone-temperature"
        style={place(box().zones.temperature)}
        aria-label={LANES.temperatures}
      >
        <Index each={props.spoken}>{(t) => <li class="visually-hidden">{t()}</li>}</Index>
      </ul>
    </div>
  );
}
