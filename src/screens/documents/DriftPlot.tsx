import { For, Show } from 'solid-js';
import { createSize } from '../../widgets/size.ts';
import { day } from '../../words/format.ts';
import { HISTORY } from '../../words/history.ts';

export interface DriftPoint {
  readonly utcMs: number;
  readonly off: number;
  readonly agrees: boolean;
  /** Of another calibration: drawn hollow. */
  readonly faded: boolean;
}

const H = 132;
/** Width of a letter of the scale, px, and the room beside it. */
const LETTER = 6.8;
const BESIDE = 20;
const RIGHT = 12;
const TOP = 12;
const BOTTOM = 24;

/** Places points over their time, a value each, with the limits either way as lines. */
export function DriftPlot(props: {
  points: readonly DriftPoint[];
  limit: number | null;
  text: (off: number) => string;
  label: string;
}) {
  const size = createSize();
  // Drawn at the size it has, so that its letters are those of the page.
  const W = () => Math.max(260, size.width());
  const times = () => props.points.map((p) => p.utcMs);
  const from = () => Math.min(...times());
  const to = () => Math.max(...times());
  const top = () => 1.15 * Math.max(props.limit ?? 0, ...props.points.map((p) => Math.abs(p.off)), 1e-3);
  const x = (utcMs: number) =>
    to() === from()
      ? (left() + W() - RIGHT) / 2
      : left() + 8 + ((utcMs - from()) / (to() - from())) * (W() - left() - RIGHT - 16);
  const y = (off: number) => TOP + ((top() - off) / (2 * top())) * (H - TOP - BOTTOM);
  const left = () => BESIDE + LETTER * Math.max(...marks().map((m) => props.text(m).length));
  const marks = () => (props.limit === null ? [0] : [props.limit, 0, -props.limit]);
  return (
    <svg
      ref={size.ref}
      class="drift-plot"
      height={H}
      viewBox={`0 0 ${W()} ${H}`}
      role="img"
      aria-label={props.label}
    >
      <For each={marks()}>
        {(m) => (
          <>
            <line
              class={m === 0 ? 'drift-zero' : 'drift-limit'}
              x1={left()}
              x2={W() - RIGHT}
              y1={y(m)}
              y2={y(m)}
            />
            <text x={left() - 8} y={y(m) + 4} text-anchor="end">
              {props.text(m)}
            </text>
          </>
        )}
      </For>
      <For each={props.points}>
        {(p) =>
          p.agrees ? (
            <circle class={p.faded ? 'drift-faded' : 'drift-point'} cx={x(p.utcMs)} cy={y(p.off)} r="4.5">
              <title>{`${day(p.utcMs)}: ${props.text(p.off)}`}</title>
            </circle>
          ) : (
            <path
              class="drift-cross"
              d={`M${x(p.utcMs) - 5} ${y(p.off) - 5}l10 10m0-10l-10 10`}
              data-testid="drift-cross"
            >
              <title>{`${day(p.utcMs)}: ${props.text(p.off)}, ${HISTORY.differed}`}</title>
            </path>
          )
        }
      </For>
      <text
        x={to() === from() ? x(from()) : left()}
        y={H - 6}
        text-anchor={to() === from() ? 'middle' : 'start'}
      >
        {day(from())}
      </text>
      <Show when={to() !== from()}>
        <text x={W() - RIGHT} y={H - 6} text-anchor="end">
          {day(to())}
        </text>
      </Show>
    </svg>
  );
}
