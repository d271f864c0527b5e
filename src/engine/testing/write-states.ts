import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { statesOf } from './states.ts';

// Makes the states of the golden logs anew: `npx tsx src/engine/testing/write-states.ts`, with a new STATE_FORM (kept-state.ts).
const folder = new URL('../../../fixtures/logs/', import.meta.url);
const states = Object.fromEntries(
  readdirSync(folder)
    .filter((name) => name.endsWith('.pages'))
    .sort()
    .map((name) => [name, statesOf(new Uint8Array(readFileSync(new URL(name, folder))))]),
);
writeFileSync(new URL('states.json', folder), `${JSON.stringify(states, null, 2)}\n`);
