import { LANGUAGES, type Language, type Languages } from '../languages.ts';

/**
 * A language in which every text stands between brackets: what reaches a reader without them does not come from the
 * catalogue. Its tag is of those that RFC 5646 leaves to private use.
 */
export const PSEUDO = 'qps';

const [OPEN, CLOSE] = ['\u27e6', '\u27e7'];

/** A value of the catalogue with its texts set between brackets, those that its functions make included. */
function bracketed(value: unknown): unknown {
  if (typeof value === 'string') return value === '' ? '' : `${OPEN}${value}${CLOSE}`;
  if (typeof value === 'function')
    return (...given: readonly unknown[]) =>
      bracketed((value as (...g: readonly unknown[]) => unknown)(...given));
  if (Array.isArray(value)) return value.map(bracketed);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, v]) => [key, bracketed(v)]));
}

/** Lists of codes are no texts. */
const CODES = new Set(['CAUTIONS_AT']);

function section(words: object): object {
  return Object.fromEntries(
    Object.entries(words).map(([name, value]) => [name, CODES.has(name) ? value : bracketed(value)]),
  );
}

/** A part of the catalogue; numbers are the same in every language. */
function part<T extends object>(words: T): T {
  return Object.fromEntries(
    Object.entries(words).map(([name, value]) => [name, name === 'format' ? value : section(value)]),
  ) as T;
}

const english = LANGUAGES.en as Language;

export const WITH_PSEUDO: Languages = {
  ...LANGUAGES,
  [PSEUDO]: {
    name: 'Pseudo',
    start: async () => {
      const { start } = await english.start();
      return { start: (format) => part(start(format)) };
    },
    watch: async () => {
      const { watch } = await english.watch();
      return { watch: (format) => part(watch(format)) };
    },
    further: async () => {
      const { further } = await english.further();
      return { further: (format, seen) => part(further(format, seen)) };
    },
    outside: async () => {
      const { outside } = await english.outside();
      return { outside: (format) => part(outside(format)) };
    },
  },
};

/** Units and signs that stand so in every language, and names that are nobody's words. */
const EVERYWHERE =
  /(?<!\p{L})(?:bar|mbar|kPa|psi|Pa|MPa|min|s|h|mm|cm|m|in|ft|L|g|kg|kN|N|kJ|J|kB|MB|GB|B|K|C|F|DN|UTC|Hz|µA|µV|ppm|g\/m²|kg\/m³|SVG|PNG|CSV|EN|ASTM|LA|LB|LC|LD)(?!\p{L})/gu;

/** What is left of a text outside the brackets but for data, units, numbers and signs: words that nobody translated. */
export function untranslated(text: string, data: readonly string[] = []): string {
  let rest = '';
  let depth = 0;
  for (const letter of text) {
    if (letter === OPEN) depth++;
    // A phrase may be told in parts, its value set off between them: what ends here began before.
    else if (letter === CLOSE && depth === 0) rest = '';
    else if (letter === CLOSE) depth--;
    else if (depth === 0) rest += letter;
  }
  for (const known of [...data].sort((a, b) => b.length - a.length)) rest = rest.replaceAll(known, ' ');
  return rest
    .replace(EVERYWHERE, ' ')
    .replace(/[^\p{L}]+/gu, ' ')
    .trim();
}
