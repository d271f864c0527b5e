import { writeFileSync } from 'node:fs';
import { LIVE_RUNS, playLive } from './live-runs.ts';

// Makes the golden logs anew: after a change of what the engine says, together with a new engine number.
for (const name of Object.keys(LIVE_RUNS)) {
  const bytes = await playLive(name);
  writeFileSync(new URL(`../../../fixtures/logs/${name}.pages`, import.meta.url), bytes);
  console.log(`${name}: ${bytes.length} bytes`);
}
