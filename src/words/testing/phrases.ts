import { readdirSync, readFileSync } from 'node:fs';

/**
 * Every phrase of a language's folder, read from its source: what is inside quotes, with a mark for what is filled in when it is
 * shown. The catalogue itself cannot be asked, since most of its entries are functions of what they say.
 */

/** Stands in a phrase for what is filled in. */
const FILLED = '\u0000';
const ESCAPED: Readonly<Record<string, string>> = { n: '\n', t: '\t' };

function phrasesIn(code: string): string[] {
  const found: string[] = [];
  let at = 0;

  const unescaped = (): string => {
    const unit = /^u([0-9a-f]{4})/i.exec(code.slice(at + 1, at + 6));
    if (unit !== null) {
      at += 6;
      return String.fromCharCode(Number.parseInt(unit[1]!, 16));
    }
    const sign = code[at + 1] ?? '';
    at += 2;
    return ESCAPED[sign] ?? sign;
  };
  const quoted = (quote: string): void => {
    let text = '';
    at++;
    while (at < code.length && code[at] !== quote) {
      if (code[at] === '\\') text += unescaped();
      else if (quote === '`' && code.startsWith('${', at)) {
        at += 2;
        plain('}');
        text += FILLED;
      } else text += code[at++];
    }
    at++;
    found.push(text.replaceAll('\u00a0', ' '));
  };
  /** Code up to that brace, its own pairs of braces left out. */
  const plain = (end: string): void => {
    let open = 0;
    while (at < code.length) {
      const sign = code[at]!;
      if (sign === end && open === 0) {
        at++;
        return;
      }
      if (code.startsWith('//', at)) at = (code.indexOf('\n', at) + 1 || code.length + 1) - 1;
      else if (code.startsWith('/*', at)) at = code.indexOf('*/', at) + 2;
      else if (sign === "'" || sign === '"' || sign === '`') quoted(sign);
      else {
        if (sign === '{') open++;
        if (sign === '}') open--;
        at++;
      }
    }
  };
  plain('');
  return found;
}

export function phrasesOf(folder: string): string[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.ts') && !name.includes('.test.'))
    .flatMap((name) => phrasesIn(readFileSync(`${folder}/${name}`, 'utf8')));
}

/** Around what is filled in. */
const LEAST_LETTERS = 3;

const letters = (text: string): number => text.replace(/[^\p{L}]/gu, '').length;
const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** A sentence with or without its end. */
const bare = (text: string): string => text.replace(/[.:]$/, '');

/**
 * Whether a text is one of these phrases or whole sentences of one, what is filled in being whatever it is. At least half of its
 * letters are the phrase's own: what is all filled in would be any text.
 */
export function spoken(phrases: readonly string[]): (text: string) => boolean {
  const whole = new Set<string>();
  const filled: { readonly form: RegExp; readonly own: number }[] = [];
  for (const phrase of phrases) {
    const sentences = phrase.split(/(?<=[.?!])\s+/);
    for (let from = 0; from < sentences.length; from++)
      for (let to = from + 1; to <= sentences.length; to++) {
        const text = bare(sentences.slice(from, to).join(' '));
        if (letters(text) === 0) continue;
        if (!text.includes(FILLED)) whole.add(text);
        else if (letters(text) >= LEAST_LETTERS)
          filled.push({
            form: new RegExp(`^${escaped(text).replaceAll(FILLED, '.*')}$`, 'u'),
            own: letters(text),
          });
      }
  }
  return (text) => {
    const asked = bare(text);
    return whole.has(asked) || filled.some(({ form, own }) => 2 * own >= letters(asked) && form.test(asked));
  };
}
