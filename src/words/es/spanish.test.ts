import { expect, it } from 'vitest';
import { loadCatalogue } from '../catalogue.ts';

// What the Spanish texts hold beyond what the compiler sees: the typography of the language, and nobody addressed.

const { format, wording, ...spanish } = await loadCatalogue({ language: 'es', decimal: 'comma' });

/** Every text, those that functions make of the same plain value included; a function that wants more is left out. */
function texts(value: unknown, path: string): readonly (readonly [path: string, text: string])[] {
  if (typeof value === 'string') return [[path, value]];
  if (typeof value === 'function') {
    try {
      const made: unknown = value(...Array<number>(Math.max(1, value.length)).fill(3));
      return typeof made === 'string' || (typeof made === 'object' && made !== null) ? texts(made, path) : [];
    } catch {
      return [];
    }
  }
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, v]) => texts(v, `${path}.${key}`));
}

const ALL = texts(spanish, '').filter(([path]) => !path.includes('CAUTIONS_AT'));
/** Commands and the texts beside a record quote what is typed into a shell. */
const SHELL = /commands|checkText|packet/;
const found = (bad: RegExp, besides?: RegExp) =>
  ALL.filter(([path, text]) => !(besides?.test(path) ?? false) && bad.test(text)).map((t) => t.join(': '));

it('there are texts to be looked at', () => {
  expect(ALL.length).toBeGreaterThan(2500);
});

it('quotes are « », questions and calls are opened as they are closed', () => {
  expect(found(/["“”„]/, SHELL)).toEqual([]);
  expect(found(/(?<!\p{L})'|'(?!\p{L})/u, SHELL)).toEqual([]);
  for (const [path, text] of ALL) {
    const count = (sign: string) => text.split(sign).length;
    expect(count('¿'), `${path}: ${text}`).toBe(path.includes('commands') ? count('¿') : count('?'));
    expect(count('¡'), path).toBe(count('!'));
    expect(count('«'), path).toBe(count('»'));
  }
});

it('nobody is addressed: orders are infinitives', () => {
  expect(
    found(
      /(?<!\p{L})(tú|te|tu|tus|usted|ustedes|vosotros|pulse|pulsa|abra|abre la llave|cierre|conecte|elija|(?<!se )elige|espere|guarde|haga|mire|revise|vuelva|compruebe|asegúrese|puedes|debes)(?!\p{L})/iu,
    ),
  ).toEqual([]);
});

it('one word for one thing (docs/glossary.md)', () => {
  expect(found(/válvula de (aire|entrada|alimentación)|grifo|escape|venteo|desfogue/i)).toEqual([]);
  expect(found(/presión (máxima|nominal) del packer|sobre la máxima/i)).toEqual([]);
  expect(found(/dispositivo(?! de seguridad)|tableta|portátil/i)).toEqual([]);
  expect(found(/obturador hinchable|manguito|testigo del diario|mantenimiento/i)).toEqual([]);
  expect(found(/simulad/i)).toEqual([]);
});

it('no text has a doubled blank or a blank before its point', () => {
  expect(found(/\S {2}\S| [,;.:](?!\S)/, /commands|checkText|packet|numbered/)).toEqual([]);
});

it('lines beside a record are no longer than 100 columns, their numbers included', () => {
  const of = (part: RegExp) => ALL.filter(([path]) => part.test(path));
  expect(of(/^\.(checkText|packet)/).length).toBeGreaterThan(10);
  for (const [path, text] of of(/^\.(checkText|packet)/))
    for (const [i, line] of text.split('\n').entries()) {
      const numbered = i === 0 && /\n {3}/.test(text) ? '1. ' : '';
      expect(`${numbered}${line}`.length, `${path}: ${line}`).toBeLessThanOrEqual(100);
    }
});
