import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

/**
 * How the three alarm colours look to eyes that lack one kind of cone, and whether they can still be told from each other
 * and from paper and ink. Simulation: Machado, Oliveira and Fernandes, A Physiologically-based Model for Simulation of
 * Color Vision Deficiency, IEEE TVCG 15(6), 2009, matrices of severity 1.0, applied to linear light.
 */

type Rgb = readonly [number, number, number];

const KINDS = {
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
} as const satisfies Readonly<Record<string, readonly [Rgb, Rgb, Rgb]>>;

const FILE = readFileSync(`${import.meta.dirname}/tokens.css`, 'utf8');

function token(theme: string, name: string): Rgb {
  const block = FILE.split(`:root[data-theme='${theme}'] {`)[1]?.split('}')[0] ?? '';
  const hex = new RegExp(`--${name}: #([0-9a-f]{6});`).exec(block)?.[1];
  if (hex === undefined) throw new Error(`no --${name} in the ${theme} theme`);
  return [0, 2, 4].map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255) as unknown as Rgb;
}

const linear = (c: number): number => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
const clamp = (c: number): number => Math.min(1, Math.max(0, c));

/** Linear light as those eyes have it. */
function seen(colour: Rgb, kind: keyof typeof KINDS): Rgb {
  const light = colour.map(linear);
  return KINDS[kind].map((row) =>
    clamp(row.reduce((sum, k, i) => sum + k * (light[i] ?? 0), 0)),
  ) as unknown as Rgb;
}

/** CIE 1976 L*a*b* of linear sRGB light under D65 (IEC 61966-2-1, CIE 15). */
function lab([r, g, b]: Rgb): Rgb {
  const f = (t: number) => (t > (6 / 29) ** 3 ? Math.cbrt(t) : t / (3 * (6 / 29) ** 2) + 4 / 29);
  const x = f((0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.9505);
  const y = f(0.2126 * r + 0.7152 * g + 0.0722 * b);
  const z = f((0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.089);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

/** Distance of two colours, ΔE*ab (CIE 1976): 2.3 is just noticed side by side (Mahy and others, 1994). */
const distance = (a: Rgb, b: Rgb): number => Math.hypot(...lab(a).map((v, i) => v - (lab(b)[i] ?? 0)));

/** Ten times what is just noticed: told apart at a glance and apart from each other (common practice, no source). */
const AT_A_GLANCE = 23;

const PAIRS = [
  ['urgent', 'high'],
  ['urgent', 'low'],
  ['high', 'low'],
  ['urgent', 'plate'],
  ['high', 'plate'],
  ['low', 'plate'],
  ['urgent', 'ink'],
  ['high', 'ink'],
  ['low', 'ink'],
] as const;

for (const theme of ['light', 'dark', 'sun'])
  for (const kind of Object.keys(KINDS) as (keyof typeof KINDS)[])
    it(`${theme}: alarm colours are told apart with ${kind}`, () => {
      const near = PAIRS.flatMap(([one, other]) => {
        const apart = distance(seen(token(theme, one), kind), seen(token(theme, other), kind));
        return apart < AT_A_GLANCE ? [`${one} and ${other}: ${apart.toFixed(1)}`] : [];
      });
      expect(near).toEqual([]);
    });

it('the simulation leaves grey grey, and makes red and green of one lightness alike without red cones', () => {
  for (const kind of Object.keys(KINDS) as (keyof typeof KINDS)[])
    expect(distance(seen([0.5, 0.5, 0.5], kind), [0.5, 0.5, 0.5].map(linear) as unknown as Rgb)).toBeLessThan(
      0.5,
    );
  // Two colours that a normal eye tells apart by hue alone.
  const [red, green]: [Rgb, Rgb] = [
    [0.7, 0.35, 0.3],
    [0.45, 0.5, 0.3],
  ];
  const normal = distance(red.map(linear) as unknown as Rgb, green.map(linear) as unknown as Rgb);
  expect(distance(seen(red, 'deuteranopia'), seen(green, 'deuteranopia'))).toBeLessThan(normal / 2);
});
