import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { asSeen, pixelsPerMm } from './eye.ts';

/**
 * npm run pictures:far: the pictures of Live as an eye sees them from three metres, for the question 'what would you do?'
 * Options: --from FOLDER  --to FOLDER  --metres 3  --sizes 1180x820,360x740
 * --blind (numbers for names)  --key FILE (which number is which; key.txt in the folder unless told otherwise)
 */

const { values } = parseArgs({
  options: {
    from: { type: 'string', default: 'docs/pictures' },
    to: { type: 'string' },
    metres: { type: 'string', default: '3' },
    sizes: { type: 'string' },
    blind: { type: 'boolean', default: false },
    key: { type: 'string' },
  },
});
const metres = Number(values.metres);
if (!(metres > 0)) throw new Error(`--metres ${values.metres} is no distance`);
const to = values.to ?? mkdtempSync(path.join(tmpdir(), 'steadybar-far-'));
mkdirSync(to, { recursive: true });

const key: string[] = [];
const sizes = values.sizes?.split(',');
const names = readdirSync(values.from)
  .filter((name) => /^live-.*\.png$/.test(name))
  .filter((name) => sizes === undefined || sizes.some((size) => name.includes(`-${size}.`)));
// In an order that tells nothing, the same at each call.
const scrambled = (name: string) => createHash('sha256').update(name).digest('hex');
names.sort((a, b) => scrambled(a).localeCompare(scrambled(b)));
for (const [i, name] of names.entries()) {
  const size = /-(\d+)x(\d+)/.exec(name);
  if (size === null) continue;
  const shown = values.blind ? `${String(i + 1).padStart(3, '0')}.png` : name;
  key.push(`${shown} ${name}`);
  const small = await asSeen(readFileSync(path.join(values.from, name)), {
    pixelsPerMm: pixelsPerMm({ width: Number(size[1]), height: Number(size[2]) }),
    metres,
  });
  writeFileSync(path.join(to, shown), small);
}
if (values.blind) writeFileSync(values.key ?? path.join(to, 'key.txt'), `${key.join('\n')}\n`);
console.log(`${key.length} pictures as seen from ${metres} m in ${to}`);
