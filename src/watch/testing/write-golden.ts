/**
 * Writes the golden logs and fills: `npx tsx src/watch/testing/write-golden.ts [--same-engine]`. An existing log is only
 * replaced when ENGINE in codes.ts has a new number, or while that engine has not been released, on demand.
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { ENGINE } from '../codes.ts';
import { factsOf } from '../guard/testing/facts.ts';
import { FILLS, play, RATES } from '../guard/testing/fills.ts';
import { Digest } from './digest.ts';
import { STORIES } from './stories.ts';

const force = process.argv.includes('--same-engine');

function write(name: string, text: string): void {
  const file = new URL(`../../../fixtures/${name}.json`, import.meta.url);
  const old = existsSync(file) ? readFileSync(file, 'utf8') : null;
  if (old === text) return;
  if (old !== null && !force && (JSON.parse(old) as { engine: number }).engine === ENGINE) {
    console.error(`${name}: the events differ. Raise ENGINE, or pass --same-engine before its release.`);
    process.exitCode = 1;
    return;
  }
  writeFileSync(file, text);
  console.log(`${name}: written`);
}

for (const [name, story] of Object.entries(STORIES)) {
  const digest = new Digest();
  const events = story(digest.look).events.map((e) => `    ${JSON.stringify(e)}`);
  const states = Object.entries(digest.of).map(([of, hash]) => `    ${JSON.stringify(of)}: "${hash}"`);
  write(
    `golden/${name}`,
    `{\n  "engine": ${ENGINE},\n  "events": [\n${events.join(',\n')}\n  ],\n  "states": {\n${states.join(',\n')}\n  }\n}\n`,
  );
}

const fills = Object.entries(FILLS).flatMap(([name, fill]) =>
  RATES.map((hz) => {
    const facts = Object.entries(factsOf(play(fill, hz), hz));
    const lines = facts.map(([what, fact]) => `      ${JSON.stringify(what)}: ${JSON.stringify(fact)}`);
    return `    "${name} ${hz} Hz": {\n${lines.join(',\n')}\n    }`;
  }),
);
write('golden-fills', `{\n  "engine": ${ENGINE},\n  "fills": {\n${fills.join(',\n')}\n  }\n}\n`);
