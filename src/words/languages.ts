/**
 * The languages that there are. Each is a folder with the same four parts: what the start says, what the live page says
 * besides, what the other pages say, and what is written outside the page. English is the measure: the compiler names
 * what another one lacks.
 */

type English = {
  start: typeof import('./en/start.ts').start;
  watch: typeof import('./en/watch.ts').watch;
  further: typeof import('./en/further.ts').further;
  outside: typeof import('./en/outside.ts').outside;
};

/** What the page says. */
export interface PageWords
  extends ReturnType<English['start']>,
    ReturnType<English['watch']>,
    ReturnType<English['further']> {}
/** What is written outside the page: certificate, CHECK.txt, pictures, commands. */
export type OutsideWords = ReturnType<English['outside']>;

export interface Language {
  /** Its name in itself. */
  readonly name: string;
  /** Sign of a byte; where none is told it is B. */
  readonly byte?: string;
  start(): Promise<Pick<English, 'start'>>;
  watch(): Promise<Pick<English, 'watch'>>;
  further(): Promise<Pick<English, 'further'>>;
  outside(): Promise<Pick<English, 'outside'>>;
}

/** By tag (RFC 5646). */
export type Languages = Readonly<Record<string, Language>>;

export const LANGUAGES: Languages = {
  en: {
    name: 'English',
    start: () => import('./en/start.ts'),
    watch: () => import('./en/watch.ts'),
    further: () => import('./en/further.ts'),
    outside: () => import('./en/outside.ts'),
  },
  de: {
    name: 'Deutsch',
    start: () => import('./de/start.ts'),
    watch: () => import('./de/watch.ts'),
    further: () => import('./de/further.ts'),
    outside: () => import('./de/outside.ts'),
  },
  es: {
    name: 'Español',
    start: () => import('./es/start.ts'),
    watch: () => import('./es/watch.ts'),
    further: () => import('./es/further.ts'),
    outside: () => import('./es/outside.ts'),
  },
  fr: {
    name: 'Français',
    byte: 'o',
    start: () => import('./fr/start.ts'),
    watch: () => import('./fr/watch.ts'),
    further: () => import('./fr/further.ts'),
    outside: () => import('./fr/outside.ts'),
  },
};
