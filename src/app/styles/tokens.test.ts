import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

const THEMES = ['light', 'dark', 'sun'] as const;
type Theme = (typeof THEMES)[number];

const FILE = readFileSync(`${import.meta.dirname}/tokens.css`, 'utf8');

/** The custom properties that a theme sets, as six hexadecimal digits stand in the file. */
function tokensOf(theme: Theme): ReadonlyMap<string, string> {
  const block = FILE.split(`:root[data-theme='${theme}'] {`)[1]?.split('}')[0] ?? '';
  return new Map(
    [...block.matchAll(/--([a-z0-9-]+): (#[0-9a-f]{6});/g)].map((m) => [m[1] ?? '', m[2] ?? '']),
  );
}

/** Relative luminance of an sRGB colour (WCAG 2.2, definition of relative luminance). */
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const c = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** Contrast ratio of two colours (WCAG 2.2, definition of contrast ratio). */
function contrast(one: string, other: string): number {
  const [dark = 0, light = 0] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
}

/** What stands on what, and the least contrast in light, dark and sun. */
const PAIRS: readonly [on: string, ground: string, light: number, dark: number, sun: number][] = [
  ['ink', 'plate', 16.9, 16.3, 21],
  ['ink', 'ground', 14, 16, 21],
  ['ink', 'well', 17, 14, 21],
  ['ink2', 'plate', 7.9, 9.3, 21],
  ['ink2', 'ground', 6.5, 9, 21],
  ['ink2', 'well', 7.9, 8, 21],
  ['ink2', 'band', 6, 5, 14],
  ['ink3', 'plate', 5.2, 6.4, 15.9],
  ['ink3', 'well', 5.2, 5.5, 15.9],
  ['ink3', 'ground', 4.5, 6.4, 15.9],
  ['ink', 'band', 13, 10, 14],
  // The dark band is stronger than its first drawing, where it was not seen.
  ['ink', 'band2', 11.5, 7.4, 10.2],
  ['edge', 'plate', 3.7, 3.6, 21],
  ['edge', 'well', 3.7, 3.2, 21],
  ['edge', 'ground', 3.1, 3.6, 21],
  ['on-urgent', 'urgent', 7, 5.8, 8.2],
  ['on-high', 'high', 9.2, 10.4, 11.4],
  ['on-low', 'low', 7.5, 8.4, 11.2],
  ['urgent', 'plate', 6.5, 3.1, 8.2],
  ['urgent-thin', 'plate', 6.5, 7, 8.2],
  ['urgent-thin', 'well', 6.5, 7, 8.2],
  // Neighbours that are told apart as areas: the band from its well, the rungs from both.
  ['band2', 'well', 1.5, 1.9, 2],
  ['band', 'well', 1.3, 1.3, 1.4],
  ['hatch', 'well', 2.9, 4, 21],
];

for (const [index, theme] of THEMES.entries())
  it(`contrasts of the ${theme} theme`, () => {
    const tokens = tokensOf(theme);
    const of = (name: string) => {
      const found = tokens.get(name);
      if (found === undefined) throw new Error(`no --${name} in the ${theme} theme`);
      return found;
    };
    const low = PAIRS.flatMap(([on, ground, ...least]) => {
      const ratio = contrast(of(on), of(ground));
      return ratio < (least[index] ?? 0) - 0.05 ? [`${on} on ${ground}: ${ratio.toFixed(2)}`] : [];
    });
    expect(low).toEqual([]);
  });

it('each theme sets the same names', () => {
  const names = THEMES.map((theme) => [...tokensOf(theme).keys()]);
  expect(names[0]).toHaveLength(19);
  expect(names[1]).toEqual(names[0]);
  expect(names[2]).toEqual(names[0]);
});

it('every custom property that a style uses is set by one, or by the element itself', () => {
  const styles = readdirSync(import.meta.dirname)
    .filter((name) => name.endsWith('.css'))
    .map((name) => readFileSync(`${import.meta.dirname}/${name}`, 'utf8'))
    .join('\n');
  const set = new Set([...styles.matchAll(/(--[a-z0-9-]+):/g)].map((m) => m[1]));
  // Written by the program, with what is used until then beside them.
  const without = [...styles.matchAll(/var\((--[a-z0-9-]+)\)/g)].map((m) => m[1]).filter((n) => !set.has(n));
  expect([...new Set(without)]).toEqual([]);
});

it('the font is shipped with the program: both weights stand where the styles take them from', () => {
  const fonts = [...FILE.matchAll(/url\('(.+?)'\)/g)].map((m) => m[1] ?? '');
  expect(fonts).toHaveLength(2);
  // A WOFF2 file begins with these four letters (W3C WOFF 2.0, section 4.1).
  for (const font of fonts)
    expect(readFileSync(`node_modules/${font}`).subarray(0, 4).toString('latin1')).toBe('wOF2');
});

it('black on white is 21 to 1, and grey 767676 on white is the first that passes 4.5 (WCAG 2.2, technique G18)', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 9);
  expect(contrast('#767676', '#ffffff')).toBeGreaterThan(4.5);
  expect(contrast('#777777', '#ffffff')).toBeLessThan(4.5);
});
