import { LANGUAGES } from '../../src/words/languages.ts';
import { THEMES, type Theme } from '../stand/stand.ts';
import { LIVE_STATES, type LiveState, STORIES, type StoryName } from '../stand/states.ts';

/** Which pictures are made: of Live by state, size and theme; of the other pages by size and theme. */

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** The windows that the face is drawn for: phone upright and lying, tablet both ways, small and large laptops. */
export const SIZES: readonly Size[] = [
  { width: 360, height: 740 },
  { width: 740, height: 360 },
  { width: 820, height: 1180 },
  { width: 1180, height: 820 },
  { width: 1024, height: 600 },
  { width: 1366, height: 768 },
  { width: 1600, height: 1000 },
];

export const sizeName = ({ width, height }: Size): string => `${width}x${height}`;

/** @throws Error for what is no size like 1180x820 */
export function parseSize(text: string): Size {
  const m = /^(\d{3,4})x(\d{3,4})$/.exec(text);
  if (m === null) throw new Error(`${text} is no size like 1180x820`);
  return { width: Number(m[1]), height: Number(m[2]) };
}

export interface Look {
  readonly size: Size;
  readonly theme: Theme;
}

const light = (...names: string[]): Look[] => names.map((n) => ({ size: parseSize(n), theme: 'light' }));
const inTheme = (theme: Theme, ...names: string[]): Look[] =>
  names.map((n) => ({ size: parseSize(n), theme }));

/** Every state on the tablet and on the phone. */
const EVERY: readonly Look[] = light('1180x820', '360x740');

/** The few that are shown at all sizes and in all themes: before a run, what is calm, what is near, and the gravest. */
const CHOSEN: readonly LiveState[] = [
  'not-connected',
  'hold',
  'cue',
  'cure-met',
  'ceiling',
  'over-rated',
  'lost-filling',
];

/** Of the chosen few what is kept beside the code, and what else the face is drawn for. */
const CHOSEN_KEPT: readonly Look[] = [
  ...light('740x360', '820x1180', '1600x1000'),
  ...inTheme('dark', '1180x820'),
  ...inTheme('sun', '360x740'),
];
const CHOSEN_MORE: readonly Look[] = [
  ...light('1024x600', '1366x768'),
  ...inTheme('dark', '360x740'),
  ...inTheme('sun', '1180x820'),
];

/** @param whole with the looks that are not kept */
export const looksOf = (state: LiveState, whole: boolean): readonly Look[] =>
  CHOSEN.includes(state) ? [...EVERY, ...CHOSEN_KEPT, ...(whole ? CHOSEN_MORE : [])] : EVERY;

export const liveName = (state: LiveState, { size, theme }: Look): string =>
  `live-${state}-${sizeName(size)}${theme === 'light' ? '' : `-${theme}`}`;

/** Looks of the pages other than Live, theme by theme. */
export const pageLooks = (whole: boolean): readonly Look[] => [
  ...light(...(whole ? ['360x740', '820x1180', '1600x1000'] : ['820x1180'])),
  ...(whole ? inTheme('dark', '360x740', '820x1180', '1600x1000') : []),
];

export const pageName = (page: string, { size, theme }: Look): string =>
  `${page}-${sizeName(size)}${theme === 'light' ? '' : `-${theme}`}`;

export interface Wanted {
  readonly states: readonly LiveState[];
  /** null: what the plan says. */
  readonly sizes: readonly Size[] | null;
  readonly themes: readonly Theme[] | null;
  readonly pages: boolean;
  /** With the looks that are not kept. */
  readonly whole: boolean;
}

const list = (text: string): string[] => text.split(',').filter((part) => part !== '');

function known<T extends string>(what: string, all: readonly T[], text: string): T[] {
  return list(text).map((part) => {
    const found = all.find((one) => one === part);
    if (found === undefined) throw new Error(`no ${what} ${part}; there are: ${all.join(' ')}`);
    return found;
  });
}

const STORY_NAMES = Object.keys(STORIES) as StoryName[];

/** What stands on the command line. @throws Error naming what it does not know */
export function wantedOf(values: {
  readonly states?: string | undefined;
  readonly stories?: string | undefined;
  readonly sizes?: string | undefined;
  readonly themes?: string | undefined;
  readonly pages?: boolean | undefined;
  readonly whole?: boolean | undefined;
}): Wanted {
  const { states, stories, sizes, themes, pages, whole = false } = values;
  const named = [
    ...(states === undefined ? [] : states === 'all' ? LIVE_STATES : known('state', LIVE_STATES, states)),
    ...(stories === undefined ? [] : known('story', STORY_NAMES, stories).flatMap((name) => STORIES[name])),
  ];
  const chosen = states !== undefined || stories !== undefined || pages === true;
  return {
    states: chosen ? named : LIVE_STATES,
    sizes: sizes === undefined ? null : sizes === 'all' ? SIZES : list(sizes).map(parseSize),
    themes: themes === undefined ? null : themes === 'all' ? THEMES : known('theme', THEMES, themes),
    pages: pages ?? !chosen,
    whole,
  };
}

/** @throws Error naming a language that there is none of */
export const languagesOf = (text: string): string[] => {
  const all = Object.keys(LANGUAGES);
  return text === 'all' ? all : known('language', all, text);
};

/** The plan's looks, or every wanted size in every wanted theme. */
export function looksWanted(planned: readonly Look[], { sizes, themes }: Wanted): readonly Look[] {
  if (sizes === null && themes === null) return planned;
  return (themes ?? ['light' as const]).flatMap((theme) =>
    (sizes ?? [parseSize('1180x820')]).map((size) => ({ size, theme })),
  );
}
