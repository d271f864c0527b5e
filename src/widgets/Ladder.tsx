import { createMemo, For, Show } from 'solid-js';
import type { Limits } from '../job/setup.ts';
import { scaleOf } from '../units/display.ts';
import type { Bounded } from '../watch/events.ts';
import { type DisplayUnits, fixed, pressure, pressureNumber } from '../words/format.ts';
import { UI } from '../words/ui.ts';
import { forecastShown, scaleTop, spreadLabels, tickStep } from './ladder-layout.ts';
import { createSize } from './size.ts';
import type { Trust } from './trust.ts';

/** Under this the labels of four marks do not fit, px. */
const LEAST_HEIGHT_PX = 150;

/**
 * The ladder: a vertical pressure scale with the rated mark, the uncertainty hanging under it down to the
 * ceiling, the hold band, the pointer, and a ghost pointer with its interval where the line is going to settle.
 */
export function Ladder(props: {
  bar: number | null;
  trust: Trust;
  limits: Limits | null;
  settle: Bounded | null;
  units: DisplayUnits;
  alarmed: boolean;
}) {
  const size = createSize();
  const width = () => Math.max(120, size.width());
  const height = () => Math.max(LEAST_HEIGHT_PX, size.height());
  const edge = 18;
  const axis = () => 46;
  const column = () => Math.min(44, Math.max(26, width() * 0.16));

  const top = createMemo(() =>
    scaleTop(
      props.limits?.ratedBar ?? null,
      Math.max(
        props.bar ?? 0,
        props.settle === null ? 0 : forecastShown(props.limits?.ratedBar ?? null, props.settle.high),
      ),
    ),
  );
  const y = (bar: number) => {
    const span = height() - 2 * edge;
    return edge + span * (1 - Math.min(1, Math.max(0, bar / top())));
  };
  const ticks = createMemo(() => {
    const scale = scaleOf('pressure', props.units);
    const span = top() * scale.factor;
    const step = tickStep(span, height() - 2 * edge);
    const digits = Math.max(0, Math.min(scale.digits, -Math.floor(Math.log10(step) + 1e-9)));
    const out: { bar: number; text: string }[] = [];
    for (let i = 0; i * step <= span + 1e-9; i++)
      out.push({ bar: (i * step) / scale.factor, text: fixed(i * step, digits) });
    return out;
  });
  const marks = createMemo(() => {
    const l = props.limits;
    if (l === null) return [];
    const list: { key: string; bar: number; text: string; strong: boolean }[] = [
      { key: 'rated', bar: l.ratedBar, text: UI.rated, strong: true },
    ];
    if (l.ceilingBar < l.ratedBar - 1e-9)
      list.push({ key: 'ceiling', bar: l.ceilingBar, text: UI.ceiling, strong: true });
    if (l.cue) list.push({ key: 'working', bar: l.workingBar, text: UI.working, strong: false });
    if (l.floorBar !== null) list.push({ key: 'floor', bar: l.floorBar, text: UI.floor, strong: false });
    return list;
  });
  const labelY = createMemo(() =>
    spreadLabels(
      marks().map((m) => ({ key: m.key, y: y(m.bar) })),
      34,
      height() - 4,
    ),
  );
  const x0 = () => axis() + 6;
  const x1 = () => x0() + column();
  const labelX = () => x1() + 40;
  const summary = () => {
    const l = props.limits;
    const now =
      props.trust === 'good'
        ? pressure(props.bar, props.units)
        : props.trust === 'over'
          ? UI.overRange(pressure(props.bar, props.units))
          : UI.noReading;
    if (l === null) return UI.ladderNoLimit(now);
    return UI.ladder(now, pressure(l.ceilingBar, props.units), pressure(l.ratedBar, props.units));
  };
  const shownBar = () => (props.trust === 'lost' || props.trust === 'none' ? null : props.bar);

  return (
    <div
      class="ladder"
      ref={size.ref}
      data-testid="ladder"
      classList={{
        alarmed: props.alarmed,
        stale: props.trust === 'stale',
        tiny: size.height() > 0 && size.height() < LEAST_HEIGHT_PX,
      }}
    >
      <svg width={width()} height={height()} role="img" aria-label={summary()}>
        <defs>
          <pattern
            id="ladder-hatch"
            width="7"
            height="7"
            patternUnits="userSpaceOnUse"
            patternTransform="rotate(45)"
          >
            <rect width="7" height="7" class="hatch-ground" />
            <path d="M0 0v7" class="hatch-line" />
          </pattern>
        </defs>
        <rect x={x0()} y={edge} width={column()} height={height() - 2 * edge} class="ladder-column" />
        <Show when={props.limits}>
          {(l) => (
            <>
              <rect
                x={x0()}
                y={edge - 1}
                width={column()}
                height={Math.max(0, y(l().ratedBar) - edge + 1)}
                class="ladder-over"
              />
              <rect
                x={x0()}
                y={y(l().ratedBar)}
                width={column()}
                height={Math.max(0, y(l().ceilingBar) - y(l().ratedBar))}
                fill="url(#ladder-hatch)"
              />
              <Show when={l().floorBar !== null}>
                <rect
                  x={x0()}
                  y={y(l().ceilingBar)}
                  width={column()}
                  height={Math.max(0, y(l().floorBar ?? 0) - y(l().ceilingBar))}
                  class="ladder-band"
                />
              </Show>
            </>
          )}
        </Show>
        <Show when={shownBar() !== null}>
          <rect
            x={x0() + column() * 0.3}
            y={y(Math.max(0, shownBar() ?? 0))}
            width={column() * 0.4}
            height={Math.max(0, height() - edge - y(Math.max(0, shownBar() ?? 0)))}
            class="ladder-fill"
          />
        </Show>
        <For each={ticks()}>
          {(tick) => (
            <>
              <path d={`M${x0() - 8} ${y(tick.bar)}H${x0()}`} class="ladder-tick" />
              <text x={x0() - 12} y={y(tick.bar) + 5} text-anchor="end" class="ladder-number">
                {tick.text}
              </text>
            </>
          )}
        </For>
        <For each={marks()}>
          {(mark) => (
            <g classList={{ strong: mark.strong }} class={`ladder-mark ${mark.key}`}>
              <path d={`M${x0() - 4} ${y(mark.bar)}H${x1() + 6}`} />
              <path
                d={`M${x1() + 6} ${y(mark.bar)}L${labelX() - 6} ${labelY().get(mark.key) ?? y(mark.bar)}`}
                class="lead"
              />
              <text x={labelX()} y={(labelY().get(mark.key) ?? y(mark.bar)) - 3} class="ladder-name">
                {mark.text}
              </text>
              <text x={labelX()} y={(labelY().get(mark.key) ?? y(mark.bar)) + 13} class="ladder-at">
                {pressureNumber(mark.bar, props.units)}
              </text>
            </g>
          )}
        </For>
        <Show when={props.trust === 'good' ? props.settle : null}>
          {(settle) => (
            <g class="ladder-ghost" data-testid="settle-ghost">
              <path d={`M${x1() + 20} ${y(settle().low)}V${y(settle().high)}`} class="interval" />
              <path d={`M${x1() + 1} ${y(settle().value)}l17 -10v20z`} />
            </g>
          )}
        </Show>
        <Show when={shownBar() !== null}>
          <g class="ladder-pointer">
            <path d={`M${x1() - 3} ${y(shownBar() ?? 0)}l26 -15v30z`} />
            <path d={`M${x0()} ${y(shownBar() ?? 0)}H${x1()}`} class="edge" />
          </g>
        </Show>
      </svg>
    </div>
  );
}
