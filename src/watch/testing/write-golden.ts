/**
 * Writes the golden logs: `npx tsx src/watch/testing/write-golden.ts [--same-engine]`. An existing log is only
 * replaced when ENGINE in codes.ts has a new number, or while that engine has not been released, on demand.
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { ENGINE } from '../codes.ts';
import { STORIES } from './stories.ts';

const force = process.argv.includes('--same-engine');
for (const [name, story] of Object.entries(STORIES)) {
  const file = new URL(`../../../fixtures/golden/${name}.json`, import.meta.url);
  const events = story().events.map((e) => `    ${JSON.stringify(e)}`);
  const text = `{\n  "engine": ${ENGINE},\n  "events": [\n${events.join(',\n')}\n  ]\n}\n`;
  const old = existsSync(file) ? readFileSync(file, 'utf8') : null;
  if (old === text) continue;
  if (old !== null && !force && (JSON.parse(old) as { engine: number }).engine === ENGINE) {
    console.error(`${name}: the events differ. Raise ENGINE, or pass --same-engine before its release.`);
    process.exitCode = 1;
    continue;
  }
  writeFileSync(file, text);
  console.log(`${name}: ${events.length} events written`);
}
