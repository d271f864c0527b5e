import { createUniqueId, For, type JSX, Show } from 'solid-js';
import type { Pen, Shape, Texture } from './shape.ts';
import { diagonals, dots, TILES, type Tile } from './texture.ts';

const colour = (tone: string) => `var(--${tone})`;
/** Tenths of a px are more than a screen shows. */
const n = (v: number) => Math.round(v * 10) / 10;

const penOf = (pen: Pen | undefined) =>
  pen === undefined
    ? {}
    : {
        stroke: colour(pen.tone),
        'stroke-width': n(pen.wide),
        ...(pen.dash === undefined ? {} : { 'stroke-dasharray': pen.dash.map(n).join(' ') }),
      };

function TilePattern(props: { id: string; tile: Tile }) {
  const { side, size, tone, alpha } = props.tile;
  return (
    <pattern id={props.id} width={side} height={side} patternUnits="userSpaceOnUse">
      <Show when={props.tile.ground}>
        {(tone) => <rect width={side} height={side} fill={colour(tone())} />}
      </Show>
      <g opacity={alpha}>
        <For each={props.tile.kind === 'diagonal' ? diagonals(side) : []}>
          {([x1, y1, x2, y2]) => (
            <path d={`M${x1} ${y1}L${x2} ${y2}`} stroke={colour(tone)} stroke-width={size} />
          )}
        </For>
        <For each={props.tile.kind === 'dots' ? dots(side) : []}>
          {([cx, cy]) => <circle cx={cx} cy={cy} r={size} fill={colour(tone)} />}
        </For>
      </g>
    </pattern>
  );
}

function drawn(shape: Shape, textureUrl: (t: Texture) => string): JSX.Element {
  switch (shape.k) {
    case 'rect':
      return (
        <rect
          x={n(shape.x)}
          y={n(shape.y)}
          width={n(shape.w)}
          height={n(shape.h)}
          rx={shape.round}
          fill={
            shape.texture !== undefined
              ? textureUrl(shape.texture)
              : shape.fill === undefined
                ? 'none'
                : colour(shape.fill)
          }
          fill-opacity={shape.alpha}
          {...penOf(shape.pen)}
        />
      );
    case 'path':
      return (
        <path
          d={`${shape.points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${n(x)} ${n(y)}`).join('')}${shape.closed === true ? 'Z' : ''}`}
          fill={shape.fill === undefined ? 'none' : colour(shape.fill)}
          stroke-linejoin="round"
          {...penOf(shape.pen)}
        />
      );
    case 'disc':
      return (
        <circle
          cx={n(shape.x)}
          cy={n(shape.y)}
          r={n(shape.r)}
          fill={shape.fill === undefined ? 'none' : colour(shape.fill)}
          {...penOf(shape.pen)}
        />
      );
    case 'text':
      return (
        <text
          x={n(shape.x)}
          y={n(shape.y)}
          font-size={`${n(shape.size)}px`}
          font-weight={shape.bold === true ? 700 : 400}
          text-anchor={shape.anchor}
          fill={colour(shape.tone)}
          fill-opacity={shape.alpha}
          {...(shape.halo === undefined
            ? {}
            : { stroke: colour(shape.halo), 'stroke-width': 4, 'paint-order': 'stroke' as const })}
        >
          {shape.text}
        </text>
      );
    default:
      return shape satisfies never;
  }
}

/** A scene as an SVG: for drawings that stand still, are printed, or are small. */
export function Shapes(props: {
  width: number;
  height: number;
  shapes: readonly Shape[];
  /** Read aloud for the picture; none: it only shows what stands beside it in words. */
  label?: string | undefined;
  class?: string;
}) {
  const id = createUniqueId();
  const textures = () => {
    const used = new Set(
      props.shapes.flatMap((s) => (s.k === 'rect' && s.texture !== undefined ? [s.texture] : [])),
    );
    return [...used];
  };
  return (
    <svg
      class={props.class}
      width={props.width}
      height={props.height}
      viewBox={`0 0 ${props.width} ${props.height}`}
      role={props.label === undefined ? undefined : 'img'}
      aria-label={props.label}
      aria-hidden={props.label === undefined ? 'true' : undefined}
    >
      <Show when={textures().length > 0}>
        <defs>
          <For each={textures()}>{(t) => <TilePattern id={`${id}-${t}`} tile={TILES[t]} />}</For>
        </defs>
      </Show>
      {/* By what a shape is, not by its object: of a scene made anew only what changed is put in. */}
      <For each={props.shapes.map((s) => JSON.stringify(s))}>
        {(s) => drawn(JSON.parse(s) as Shape, (t) => `url(#${id}-${t})`)}
      </For>
    </svg>
  );
}
