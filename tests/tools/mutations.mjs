// Small faults that could stand in a source file of ours: one operator, number, constant or statement is another.

/** What is looked for and what it becomes; biome's spacing tells an operator from a type parameter or an arrow. */
const RULES = [
  [/ < /g, () => ' <= '],
  [/ <= /g, () => ' < '],
  [/ > /g, () => ' >= '],
  [/ >= /g, () => ' > '],
  [/ \+ /g, () => ' - '],
  [/ - /g, () => ' + '],
  [/ \* /g, () => ' / '],
  [/ \/ /g, () => ' * '],
  [/ && /g, () => ' || '],
  [/ \|\| /g, () => ' && '],
  [/ === /g, () => ' !== '],
  [/ !== /g, () => ' === '],
  [/\bMath\.max\b/g, () => 'Math.min'],
  [/\bMath\.min\b/g, () => 'Math.max'],
  [/\btrue\b/g, () => 'false'],
  [/\bfalse\b/g, () => 'true'],
  [/(?<![\w.$'"`[])\d[\d_]*(?:\.\d+)?(?:e-?\d+)?(?![\w.'"`])/g, (number) => other(number)],
];
/** A statement that does something and gives nothing back: without it. */
const STATEMENT = /^\s*(?:(?:[\w.]+|[\w.]+\[[^\]]+\]) (?:[-+*]?=) .*;|[\w.]+\(.*\);|[\w.]+(?:\+\+|--);)$/;

/** Half as much again: a limit or factor that is wrong, as it is mistyped or misread. */
function other(number) {
  const value = Number(number.replaceAll('_', ''));
  return value === 0 ? '1' : Number.isInteger(value) && value < 4 ? String(value + 1) : String(value * 1.5);
}

/** Blanks what is no code (comments, texts, types), with every letter kept in its place. */
function code(source) {
  const blank = (text) => text.replace(/[^\n]/g, ' ');
  return source
    .replace(/\/\*[\s\S]*?\*\//g, blank)
    .replace(/(?<=^|[\s;{}(])\/\/.*$/gm, blank)
    .replace(/'(?:[^'\\\n]|\\.)*'/g, blank)
    .replace(/^import [\s\S]*?;$/gm, blank)
    .replace(/^(?:export )?interface [\s\S]*?^}$/gm, blank)
    .replace(/^(?:export )?(?:declare )?type [\s\S]*?;$/gm, blank)
    .replace(/: \d+(?: \| \d+)+(?=[,;)\s])/g, blank);
}

/** All faults of a source, in the order of their places. */
export function faultsIn(source) {
  const bare = code(source);
  const faults = [];
  const put = (at, length, text) => {
    const whole = source.slice(0, at) + text + source.slice(at + length);
    const line = source.slice(0, at).split('\n').length;
    const [was, is] = [source, whole].map((t) => t.split('\n')[line - 1].trim());
    faults.push({ at, line, was, is, text: whole });
  };
  for (const [pattern, becomes] of RULES)
    for (const match of bare.matchAll(pattern)) put(match.index, match[0].length, becomes(match[0]));
  let at = 0;
  for (const line of bare.split('\n')) {
    if (STATEMENT.test(line)) put(at, line.length, line.replace(/\S.*$/, ';'));
    at += line.length + 1;
  }
  return faults.sort((a, b) => a.at - b.at).map(({ at: _, ...fault }) => fault);
}

/** Draws without repetition; one seed draws the same of the same list. */
export function sample(list, count, seed) {
  let state = seed >>> 0;
  // Mulberry32, written by Tommy Ettinger into the public domain; from memory.
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t = (t + Math.imul(t ^ (t >>> 7), t | 61)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  const rest = [...list];
  const drawn = [];
  while (drawn.length < count && rest.length > 0)
    drawn.push(...rest.splice(Math.floor(next() * rest.length), 1));
  return drawn;
}
