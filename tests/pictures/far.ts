import { mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { asSeen, pixelsPerMm } from './eye.ts';

/**
 * npm run pictures:far: the pictures of Live as an eye sees them from three metres, for the question 'what would you do?'
 * Options: --from FOLDER  --to FOLDER  --metres 3  --blind (numbers for names, the answers in key.json)
 */

const { values } = parseArgs({
  options: {
    from: { type: 'string', default: 'docs/pictures' },
    to: { type: 'string' },
    metres: { type: 'string', default: '3' },
    blind: { type: 'boolean', default: false },
  },
});
const metres = Number(values.metres);
if (!(metres > 0)) throw new Error(`--metres ${values.metres} is no distance`);
const to = values.to ?? mkdtempSync(path.join(tmpdir(), 'steadybar-far-'));
mkdirSync(to, { recursive: true });

const key: Record<string, string> = {};
const names = readdirSync(values.from)
  .filter((name) => /^live-.*\.png$/.test(name))
  .sort();
// In an order that tells nothing, the same at each call.
const order = names.map((name, i) => ({ name, at: (i * 7919) % 104_729 })).sort((a, b) => a.at - b.at);
for (const [i, { name }] of order.entries()) {
  const size = /-(\d+)x(\d+)/.exec(name);
  if (size === null) continue;
  const shown = values.blind ? `${String(i + 1).padStart(3, '0')}.png` : name;
  key[shown] = name;
  const small = await asSeen(readFileSync(path.join(values.from, name)), {
    pixelsPerMm: pixelsPerMm({ width: Number(size[1]), height: Number(size[2]) }),
    metres,
  });
  writeFileSync(path.join(to, shown), small);
}
if (values.blind) writeFileSync(path.join(to, 'key.json'), `${JSON.stringify(key, null, 2)}\n`);
console.log(`${Object.keys(key).length} pictures as seen from ${metres} m in ${to}`);
