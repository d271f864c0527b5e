// The vectors as plain lines, for runners without a JSON reader: `node to-text.mjs` writes vectors.txt.
//   v direction file: note      x hex of the input (or -)
//   f letter fields in the order of the line, ~ for an empty one      s reason hex

import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';

const here = import.meta.dirname;

/** A frame's fields in the order of the line. */
export function frameAsText(frame) {
  const list = [];
  for (const [name, value] of Object.entries(frame)) {
    if (name === 'command' && typeof value === 'object') list.push(...Object.values(value));
    else if (Array.isArray(value)) list.push(...value);
    else list.push(value);
  }
  return list.map((v) => (v === null ? '~' : String(v))).join(' ');
}

/** @returns {string} */
export function vectorsAsText() {
  const out = [];
  for (const file of readdirSync(here).sort()) {
    if (!file.endsWith('.json')) continue;
    for (const v of JSON.parse(readFileSync(path.join(here, file), 'utf8')).vectors) {
      out.push(`v ${v.direction} ${file}: ${v.note}`, `x ${v.hex || '-'}`);
      for (const e of v.expect) out.push('frame' in e ? `f ${frameAsText(e.frame)}` : `s ${e.stray} ${e.hex}`);
    }
  }
  return `${out.join('\n')}\n`;
}

if (import.meta.url === `file://${process.argv[1]}`)
  writeFileSync(path.join(here, 'vectors.txt'), vectorsAsText());
