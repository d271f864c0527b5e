import { createEffect, createSignal, on, onCleanup, onMount, Show } from 'solid-js';
import uPlot from 'uplot';
import 'uplot/dist/uPlot.min.css';
import type { TraceWindow } from '../engine/messages.ts';
import { scaleOf } from '../units/display.ts';
import { type DisplayUnits, fixed, pressure, stopwatch, temperature } from '../words/format.ts';
import { PLACE_TITLE } from '../words/terms.ts';
import { UI } from '../words/ui.ts';
import { dashOf } from './trace-dashes.ts';
import { type Pace, type PlotData, paceOf, stepDigits, toPlot, valueAt } from './trace-data.ts';
import { attachGestures } from './trace-gestures.ts';
import type { LineInk } from './trace-lines.ts';
import { type Decor, drawOver, drawUnder, drawUnits, inkOf } from './trace-paint.ts';
import { keyView, type View } from './trace-view.ts';

/** Steps of the time axis, s: whole minutes and hours where a window is long. */
const TIME_STEPS = [
  0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 10_800,
  21_600, 43_200, 86_400,
];
/** Numbers of an axis in the reader's decimal mark; the library's own follow the browser. */
const axisNumbers: uPlot.Axis.DynamicValues = (_plot, splits, _axis, _space, step) =>
  splits.map((v) => fixed(v, stepDigits(step)));

const AXIS_PX = { left: 52, right: 48, bottom: 30, top: 22 };

/**
 * The trace: pressure and temperatures over the seconds from the first sample. A thin wrapper round uPlot: data
 * come decimated, limits, bands, gaps and marks are painted by draw hooks, and the plot is destroyed with us.
 */
export function Trace(props: {
  window: TraceWindow | null;
  view: View;
  topBar: number;
  decor: Decor;
  units: DisplayUnits;
  pace?: Pace;
  /** Changes when the colours do. */
  theme: string;
  /** Given: wheel, touch and keys move the view inside `whole`. */
  whole?: View;
  onView?(view: View): void;
  /** Plot edges inside the element, px from its left and right. */
  onBox?(left: number, right: number): void;
  label: string;
}) {
  let host!: HTMLDivElement;
  let plot: uPlot | null = null;
  let kinds = '';
  const [readout, setReadout] = createSignal<string>('');

  const build = () => {
    plot?.destroy();
    const series = props.window?.series ?? [];
    const hasTemps = series.some((s) => s.name === 'temperature');
    kinds = key(props.window);
    const ink = inkOf(host);
    const lines = series.map(
      (s, i): LineInk =>
        s.name === 'bar'
          ? { scale: 'p', colour: ink.trace, width: 2, dash: dashOf(i) }
          : { scale: 'c', colour: ink.trace2, width: 1.5, dash: dashOf(i) },
    );
    const axis = {
      stroke: ink.ink2,
      font: '13px system-ui, sans-serif',
      ticks: { show: false },
      grid: { stroke: ink.line, width: 1 },
    };
    plot = new uPlot(
      {
        width: Math.max(80, host.clientWidth),
        height: Math.max(80, host.clientHeight),
        padding: [AXIS_PX.top, hasTemps ? 0 : 14, 0, 0],
        legend: { show: false },
        cursor: { drag: { x: false, y: false }, points: { show: false }, y: false },
        scales: {
          x: { time: false, range: () => [props.view.fromS, props.view.toS] },
          p: { range: () => [0, toUnit(props.topBar)] },
          c: { range: (_u, lo, hi) => [Math.floor((lo ?? 0) - 3), Math.ceil((hi ?? 20) + 3)] },
        },
        axes: [
          {
            ...axis,
            size: AXIS_PX.bottom,
            space: 80,
            incrs: TIME_STEPS,
            values: (_u, splits) => splits.map((s) => stopwatch(s, axisDigits(props.view))),
          },
          { ...axis, scale: 'p', size: AXIS_PX.left, values: axisNumbers },
          {
            ...axis,
            scale: 'c',
            values: axisNumbers,
            side: 1,
            size: AXIS_PX.right,
            show: hasTemps,
            grid: { show: false },
          },
        ],
        series: [
          {},
          ...lines.map(
            // Scales, axes and cursor are the plot's; the lines are painted with what lies over them.
            ({ scale }): uPlot.Series => ({ scale, paths: () => null, points: { show: false } }),
          ),
        ],
        hooks: {
          drawClear: [(u) => drawUnder(u, props.decor, ink, toUnit)],
          draw: [
            (u) => {
              drawOver(u, lines, props.decor, ink, toUnit);
              drawUnits(
                u,
                ink,
                scaleOf('pressure', props.units).unit,
                hasTemps ? scaleOf('temperature', props.units).unit : '',
              );
            },
          ],
          setCursor: [(u) => setReadout(readAt(u))],
          setSize: [() => tellBox()],
          ready: [() => queueMicrotask(tellBox)],
        },
      },
      [[], ...series.map(() => [])] as unknown as uPlot.AlignedData,
      host,
    );
    put();
  };

  const toUnit = (bar: number) => bar * scaleOf('pressure', props.units).factor;

  const data: PlotData = { x: [], y: [] };
  // What the plot's data were made of: a hand that moves the view changes none of it.
  let shown: readonly unknown[] = [];

  const put = () => {
    if (plot === null || props.window === null) return;
    const pace = props.pace ?? paceOf(null);
    const { window, units, decor } = props;
    const made = [plot, window, units, pace.bar, pace.temperature, decor.gaps];
    const same = made.every((v, i) => v === shown[i]);
    shown = made;
    const u = plot;
    u.batch(() => {
      if (!same) {
        toPlot(window, units, pace, decor.gaps, data);
        u.setData([data.x, ...data.y], false);
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
  // since the last. A view that follows the stream is paced by the engine already and is drawn at once.
  let frame = 0;
  const redraw = () => {
    if (props.whole === undefined) return show();
    if (frame !== 0) return;
    frame = requestAnimationFrame(() => {
      frame = 0;
      show();
    });
  };

  const tellBox = () => {
    if (plot === null) return;
    const left = plot.bbox.left / uPlot.pxRatio;
    props.onBox?.(left, host.clientWidth - left - plot.bbox.width / uPlot.pxRatio);
  };

  const readAt = (u: uPlot): string => {
    const left = u.cursor.left ?? -1;
    const w = props.window;
    if (left < 0 || w === null) return '';
    const at = u.posToVal(left, 'x');
    const parts = w.series.map((s, i) => {
      const v = valueAt(w, i, at);
      if (s.name === 'bar') return pressure(v, props.units);
      const place =
        s.place !== null && Object.hasOwn(PLACE_TITLE, s.place)
          ? PLACE_TITLE[s.place as keyof typeof PLACE_TITLE]
          : UI.temperature;
      return `${place} ${temperature(v, props.units)}`;
    });
    return `${stopwatch(at, Math.max(1, axisDigits(props.view)))}  ${parts.join('  ')}`;
  };

  onMount(() => {
    build();
    const observer = new ResizeObserver(() => {
      if (plot === null || host.clientWidth === 0) return;
      plot.setSize({ width: host.clientWidth, height: Math.max(80, host.clientHeight) });
    });
    observer.observe(host);
    const detach = attachGestures(
      host,
      () => (props.whole === undefined ? null : { view: props.view, whole: props.whole }),
      () => ({
        left: (plot?.bbox.left ?? 0) / uPlot.pxRatio,
        width: (plot?.bbox.width ?? 1) / uPlot.pxRatio,
      }),
      (view) => props.onView?.(view),
    );
    onCleanup(() => {
      observer.disconnect();
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
