import { createEffect, createSignal, on, onCleanup, onMount, Show } from 'solid-js';
import uPlot from 'uplot';
import 'uplot/dist/uPlot.min.css';
import type { TraceWindow } from '../engine/messages.ts';
import { type DisplayUnits, METRIC, pressure, stopwatch, temperature } from '../words/format.ts';
import { LANES } from '../words/lanes.ts';
import { UI } from '../words/ui.ts';
import type { Course } from './label-place.ts';
import { createPainter, inkOf, measureWith, type Painter } from './lanes/canvas.ts';
import {
  type Decor,
  type PlotBox,
  type PlotScene,
  plotBox,
  plotOver,
  plotUnder,
} from './lanes/review-plot.ts';
import type { Measure } from './lanes/shape.ts';
import { type TemperatureScale, temperatureScale, temperatureY } from './lanes/temperature-lane.ts';
import { ticksOf } from './lanes/time-axis.ts';
import { MARK_NAMES, pressureUnitOf, temperatureUnitOf } from './lanes/units.ts';
import { seriesDash, seriesNames } from './series-lines.ts';
import { type Pace, type PlotData, paceOf, toPlot, valueAt } from './trace-data.ts';
import { attachGestures } from './trace-gestures.ts';
import { drawLine, linePath, SECOND_WIDE } from './trace-lines.ts';
import { isAtEnd } from './trace-span.ts';
import { keyView, type View } from './trace-view.ts';

/** Names of the time axis stand as far apart as this, px. */
const TICK_PX = 92;

/**
 * The trace of a run that is looked into: pressure over temperatures, each on its own scale, over the seconds from the first
 * sample. uPlot keeps the view and the cursor; what is drawn comes from the scenes of lanes/.
 */
export function Trace(props: {
  window: TraceWindow | null;
  view: View;
  /** End of the pressure scale, bar. */
  topBar: number;
  decor: Decor;
  units: DisplayUnits;
  pace?: Pace;
  /** Changes when the colours do. */
  theme: string;
  /** Given: wheel, touch and keys move the view inside `whole`. */
  whole?: View;
  onView?(view: View): void;
  /** Plot edges inside the element, px from its left and right, and the plot's width. */
  onBox?(left: number, right: number, wide: number): void;
  label: string;
}) {
  let host!: HTMLDivElement;
  let plot: uPlot | null = null;
  let kinds = '';
  let painter: Painter | null = null;
  let measure: Measure = (text, size) => text.length * size * 0.55;
  let scale: TemperatureScale | null = null;
  const [readout, setReadout] = createSignal<string>('');

  const hasTemperatures = () => (props.window?.series ?? []).some((s) => s.name === 'temperature');
  const boxNow = (): PlotBox =>
    plotBox(Math.max(80, host.clientWidth), Math.max(80, host.clientHeight), hasTemperatures());

  const build = () => {
    plot?.destroy();
    kinds = key(props.window);
    const ink = inkOf(host);
    painter = createPainter(ink, uPlot.pxRatio);
    scale = null;
    const box = boxNow();
    const foot = box.temperature ?? box.pressure;
    const [w, h] = [Math.max(80, host.clientWidth), Math.max(80, host.clientHeight)];
    plot = new uPlot(
      {
        width: w,
        height: h,
        padding: [box.pressure.y, w - box.pressure.x - box.pressure.w, h - foot.y - foot.h, box.pressure.x],
        legend: { show: false },
        cursor: { drag: { x: false, y: false }, points: { show: false }, y: false },
        scales: {
          x: { time: false, range: () => [props.view.fromS, props.view.toS] },
          // Lanes and their scales are the scenes'.
          y: { range: () => [0, 1] },
        },
        axes: [{ show: false }, { show: false }],
        series: [{}, { scale: 'y', paths: () => null, points: { show: false } }],
        hooks: {
          drawClear: [(u) => inPx(u, () => painter?.paint(u.ctx, plotUnder(sceneOf(u), measure)))],
          draw: [drawLines],
          setCursor: [(u) => setReadout(readAt(u))],
          setSize: [() => tellBox()],
          ready: [() => queueMicrotask(tellBox)],
        },
      },
      [[], []] as unknown as uPlot.AlignedData,
      host,
    );
    measure = measureWith(plot.ctx, ink);
    put();
  };

  /** Scenes are drawn in CSS px. */
  const inPx = (u: uPlot, paint: () => void) => {
    u.ctx.save();
    u.ctx.setTransform(uPlot.pxRatio, 0, 0, uPlot.pxRatio, 0, 0);
    paint();
    u.ctx.restore();
  };

  const sceneOf = (u: uPlot): PlotScene => {
    const box = boxNow();
    const { fromS, toS } = viewOf(u);
    const { x: left, w } = box.pressure;
    const { ticks } = ticksOf(fromS, toS, box.pressure, box.small ? 64 : TICK_PX);
    const digits = axisDigits({ fromS, toS });
    const temperatureUnit = temperatureUnitOf(props.units);
    const ends = temperatureEnds(props.window);
    scale = ends === null ? null : temperatureScale(ends.low, ends.high, temperatureUnit, scale);
    return {
      box,
      endBar: props.topBar,
      scale,
      decor: props.decor,
      ticks: ticks.map((t) => ({ ...t, text: stopwatch(t.s, digits) })),
      x: (s) => left + (w * (s - fromS)) / (toS - fromS),
      pressureUnit: pressureUnitOf(props.units),
      temperatureUnit,
      words: { marks: MARK_NAMES, sensorEnd: LANES.sensorEnd, practice: UI.practiceWord },
    };
  };

  const viewOf = (u: uPlot): View => ({
    fromS: u.scales.x?.min ?? props.view.fromS,
    toS: u.scales.x?.max ?? props.view.toS,
  });

  function drawLines(u: uPlot): void {
    if (painter === null) return;
    const { ctx } = u;
    const ratio = uPlot.pxRatio;
    const scene = sceneOf(u);
    const { box, endBar } = scene;
    const series = props.window?.series ?? [];
    const { ink } = painter;
    const x = (s: number) => scene.x(s) * ratio;
    const [first, last] = indices(data.x, viewOf(u));
    const { y: top, h } = box.pressure;
    const bar = (v: number) => (top + h * (1 - v / endBar)) * ratio;
    const lane = (r: { x: number; y: number; w: number; h: number }) => {
      ctx.save();
      ctx.beginPath();
      ctx.rect(r.x * ratio, (r.y - 2) * ratio, r.w * ratio, (r.h + 4) * ratio);
      ctx.clip();
    };
    ctx.save();
    ctx.setTransform(1, 0, 0, 1, 0, 0);
    if (box.temperature !== null && scene.scale !== null) {
      const c = temperatureY(box.temperature, scene.scale);
      lane(box.temperature);
      for (const [i, ys] of data.y.entries()) {
        if (series[i]?.name !== 'temperature') continue;
        const dash = seriesDash(series, i);
        const shape = { wide: 1.5 * ratio, dash: dash.map((d) => d * ratio), origin: 0 };
        const path = linePath(data.x, ys, first, last, x, (v) => c(v) * ratio, shape);
        drawLine(ctx, path, dash.length === 0 ? ink.colour.ink : ink.colour.ink3, shape.wide);
      }
      ctx.restore();
    }
    lane(box.pressure);
    const second = series.findIndex((s) => s.name === 'second');
    if (second > 0) {
      const thin = { wide: SECOND_WIDE * ratio, dash: [], origin: 0 };
      // What is over the scale goes along its end: the supply may, and moves no scale.
      const at = (v: number) => bar(Math.min(v, endBar));
      const path = linePath(data.x, data.y[second] ?? [], first, last, x, at, thin);
      drawLine(ctx, path, ink.colour.ink2, thin.wide);
    }
    const shape = { wide: Math.min(3, ink.traceWide) * ratio, dash: [], origin: 0 };
    const path = linePath(data.x, data.y[0] ?? [], first, last, x, bar, shape);
    drawLine(ctx, path, ink.colour.ink, shape.wide);
    ctx.restore();
    ctx.restore();
    const courses: Course[] = [
      {
        n: data.x.length,
        x: (i) => scene.x(data.x[i]!),
        y: (i) => {
          const v = data.y[0]?.[i];
          return typeof v === 'number' ? top + h * (1 - v / endBar) : v;
        },
      },
    ];
    inPx(u, () => painter?.paint(ctx, plotOver(scene, courses, measure)));
  }

  const data: PlotData = { x: [], y: [] };
  // What the plot's data were made of: a hand that moves the view changes none of it.
  let shown: readonly unknown[] = [];

  const put = () => {
    if (plot === null || props.window === null) return;
    const pace = props.pace ?? paceOf(null);
    const { window, decor } = props;
    const made = [plot, window, pace.bar, pace.temperature, decor.gaps];
    const same = made.every((v, i) => v === shown[i]);
    shown = made;
    const u = plot;
    u.batch(() => {
      // In bar and °C, whatever is read: the scenes know the reader's units.
      if (!same) {
        toPlot(window, METRIC, pace, decor.gaps, data);
        u.setData([data.x, data.y[0] ?? []], false);
      }
      u.setScale('x', { min: props.view.fromS, max: props.view.toS });
    });
  };

  const show = () => {
    if (plot === null) return;
    if (key(props.window) !== kinds) build();
    else put();
  };

  // Under a hand that moves the view: one redraw a frame, however often the wheel turned and the engine answered
  // since the last.
  let frame = 0;
  const redraw = () => {
    if (frame !== 0) return;
    frame = requestAnimationFrame(() => {
      frame = 0;
      show();
    });
  };

  const tellBox = () => {
    if (plot === null) return;
    const { x, w } = boxNow().pressure;
    props.onBox?.(x, host.clientWidth - x - w, w);
  };

  const readAt = (u: uPlot): string => {
    const left = u.cursor.left ?? -1;
    const w = props.window;
    if (left < 0 || w === null) return '';
    const at = u.posToVal(left, 'x');
    const names = seriesNames(w.series);
    const parts = w.series.map((s, i) => {
      const v = valueAt(w, i, at);
      if (s.name === 'bar') {
        const text = pressure(v, props.units);
        return isAtEnd(v, props.decor.sensorEndBar) ? UI.overRange(text) : text;
      }
      if (s.name === 'temperature') return `${names[i]} ${temperature(v, props.units)}`;
      const text = pressure(v, props.units);
      return `${names[i]} ${isAtEnd(v, props.decor.secondEndBar) ? UI.overRange(text) : text}`;
    });
    return `${stopwatch(at, Math.max(1, axisDigits(props.view)))}  ${parts.join('  ')}`;
  };

  onMount(() => {
    build();
    // The plot's edges go with its size: it is built anew.
    const observer = new ResizeObserver(() => {
      if (plot === null || host.clientWidth === 0) return;
      if (plot.width !== host.clientWidth || plot.height !== Math.max(80, host.clientHeight)) build();
    });
    observer.observe(host);
    const fonts = document.fonts;
    const again = () => plot?.redraw(false);
    fonts?.addEventListener?.('loadingdone', again);
    const detach = attachGestures(
      host,
      () => (props.whole === undefined ? null : { view: props.view, whole: props.whole }),
      () => {
        const { x, w } = boxNow().pressure;
        return { left: x, width: w };
      },
      (view) => props.onView?.(view),
    );
    onCleanup(() => {
      observer.disconnect();
      fonts?.removeEventListener?.('loadingdone', again);
      detach();
      cancelAnimationFrame(frame);
      plot?.destroy();
      plot = null;
    });
  });

  createEffect(
    on(() => [props.window, props.view, props.topBar, props.decor, props.pace] as const, redraw, {
      defer: true,
    }),
  );
  createEffect(on([() => props.theme, () => props.units], () => plot !== null && build(), { defer: true }));

  const onKey = (event: KeyboardEvent) => {
    if (props.whole === undefined) return;
    const next = keyView(event.key, props.view, props.whole);
    if (next === null) return;
    event.preventDefault();
    props.onView?.(next);
  };

  return (
    <figure class="trace" aria-label={props.label}>
      <div
        class="trace-plot"
        ref={host}
        data-testid="trace"
        role="img"
        aria-label={props.label}
        tabIndex={props.whole === undefined ? -1 : 0}
        onKeyDown={onKey}
      />
      <Show when={readout() !== ''}>
        <figcaption class="trace-readout">{readout()}</figcaption>
      </Show>
    </figure>
  );
}

/** Digits of the seconds that a window of this width needs. */
function axisDigits(view: View): number {
  const span = view.toS - view.fromS;
  return span < 1.5 ? 2 : span < 15 ? 1 : 0;
}

/** Kinds of series: another set needs another plot. */
function key(window: TraceWindow | null): string {
  return window === null ? '' : window.series.map((s) => `${s.name}${s.channel}`).join();
}

/** First and last point inside a view. */
function indices(xs: readonly number[], view: View): readonly [number, number] {
  const firstOver = (at: number) => {
    let [low, high] = [0, xs.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (xs[middle]! < at) low = middle + 1;
      else high = middle;
    }
    return low;
  };
  return [firstOver(view.fromS), Math.max(0, firstOver(view.toS) - 1)];
}

/** Lowest and highest temperature of a window, °C; null: it holds none. */
function temperatureEnds(window: TraceWindow | null): { readonly low: number; readonly high: number } | null {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const series of window?.series ?? []) {
    if (series.name !== 'temperature') continue;
    for (const v of series.min) if (v < low) low = v;
    for (const v of series.max) if (v > high) high = v;
  }
  return low <= high ? { low, high } : null;
}
