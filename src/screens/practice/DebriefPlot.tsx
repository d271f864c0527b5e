import { createMemo, For, Show } from 'solid-js';
import type { TraceWindow } from '../../engine/messages.ts';
import type { Debrief } from '../../evidence/messages.ts';
import { type DisplayUnits, pressure, stopwatch } from '../../words/format.ts';
import { DEBRIEF as D } from '../../words/practice.ts';
import type { Line } from './timeline.ts';

const WIDE = 720;
const HIGH = 280;
const LEFT = 58;
const RIGHT = 12;
const TOP = 26;
const BOTTOM = 26;
const TICKS = 6;

/** A path through points that are there; a gap lifts the pen. */
function pathOf(points: readonly (readonly [number, number])[]): string {
  let path = '';
  let down = false;
  for (const [x, y] of points) {
    if (!Number.isFinite(y)) down = false;
    else {
      path += `${down ? 'L' : 'M'}${x.toFixed(1)} ${y.toFixed(1)}`;
      down = true;
    }
  }
  return path;
}

/** What the sensor read and what truly was in the packer, with the numbers of the list. Drawn, so that it prints as it is seen. */
export function DebriefPlot(props: {
  told: Debrief;
  window: TraceWindow | null;
  lines: readonly Line[];
  span: { readonly fromS: number; readonly toS: number };
  units: DisplayUnits;
}) {
  const x = (s: number) =>
    LEFT + ((s - props.span.fromS) / (props.span.toS - props.span.fromS)) * (WIDE - LEFT - RIGHT);
  const topBar = createMemo(() => {
    const most = Math.max(props.told.peakBar, props.told.ratedBar ?? 0, 0.5);
    return most * 1.12;
  });
  const y = (bar: number) => HIGH - BOTTOM - (bar / topBar()) * (HIGH - TOP - BOTTOM);
  const inside = (s: number) => s >= props.span.fromS && s <= props.span.toS;
  const truth = createMemo(() => {
    const { packer } = props.told;
    const before = packer.findLast((p) => p.s < props.span.fromS);
    const all = [
      ...(before === undefined ? [] : [{ ...before, s: props.span.fromS }]),
      ...packer.filter((p) => inside(p.s)),
    ];
    const last = all.at(-1);
    return pathOf([
      ...all.map((p) => [x(p.s), y(p.bar)] as const),
      ...(last === undefined ? [] : [[x(Math.min(props.span.toS, props.told.lastS)), y(last.bar)] as const]),
    ]);
  });
  const read = createMemo(() => {
    const bar = props.window?.series.find((s) => s.name === 'bar');
    const at = props.window?.s;
    if (bar === undefined || at === undefined) return '';
    return pathOf(
      [...at].map(
        (s, i) => [x(s), y(((bar.min[i] ?? Number.NaN) + (bar.max[i] ?? Number.NaN)) / 2)] as const,
      ),
    );
  });
  const grid = createMemo(() => {
    const step = topBar() > 3 ? 1 : 0.5;
    return Array.from({ length: Math.floor(topBar() / step) + 1 }, (_, i) => i * step);
  });
  const times = createMemo(() =>
    Array.from(
      { length: TICKS },
      (_, i) => props.span.fromS + ((props.span.toS - props.span.fromS) * i) / (TICKS - 1),
    ),
  );
  /** Numbers that fall together stand under each other. */
  const marks = createMemo(() => {
    const rows: number[] = [];
    return props.lines.map((line, i) => {
      const at = x(line.s);
      let row = rows.findIndex((end) => at - end > 16);
      if (row < 0) row = rows.length;
      rows[row] = at;
      return { number: i + 1, at, row: Math.min(row, 9), who: line.who };
    });
  });
  return (
    <figure class="debrief-plot" data-testid="debrief-plot">
      <svg viewBox={`0 0 ${WIDE} ${HIGH}`} role="img" aria-label={D.plotLabel}>
        <For each={grid()}>
          {(bar) => (
            <>
              <line class="grid" x1={LEFT} x2={WIDE - RIGHT} y1={y(bar)} y2={y(bar)} />
              <text class="tick" x={LEFT - 6} y={y(bar) + 4} text-anchor="end">
                {pressure(bar, props.units)}
              </text>
            </>
          )}
        </For>
        <For each={times()}>
          {(s, i) => (
            <text
              class="tick"
              x={x(s)}
              y={HIGH - 6}
              text-anchor={i() === 0 ? 'start' : i() === TICKS - 1 ? 'end' : 'middle'}
            >
              {stopwatch(s)}
            </text>
          )}
        </For>
        <Show when={props.told.ratedBar}>
          {(rated) => <line class="rated" x1={LEFT} x2={WIDE - RIGHT} y1={y(rated())} y2={y(rated())} />}
        </Show>
        <For each={marks()}>
          {(m) => (
            <line
              class={`mark by-${m.who}`}
              x1={m.at}
              x2={m.at}
              y1={TOP - 12 + m.row * 14}
              y2={HIGH - BOTTOM}
            />
          )}
        </For>
        <path class="truth" d={truth()} />
        <path class="read" d={read()} />
        <For each={marks()}>
          {(m) => (
            <g class={`mark-number by-${m.who}`}>
              <circle cx={m.at} cy={TOP - 12 + m.row * 14} r="8" />
              <text x={m.at} y={TOP - 8 + m.row * 14} text-anchor="middle">
                {m.number}
              </text>
            </g>
          )}
        </For>
      </svg>
      <figcaption class="small">
        <span class="plot-key of-read">{D.keyRead}</span> <span class="plot-key of-truth">{D.keyTruth}</span>{' '}
        <span class="plot-key of-rated">{D.keyRated}</span>
      </figcaption>
    </figure>
  );
}
