import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ENGINE } from './codes.ts';
import type { WatchEvent } from './events.ts';
import { STORIES } from './testing/stories.ts';

interface Golden {
  readonly engine: number;
  readonly events: readonly WatchEvent[];
}

// One engine number gives the same events for the same input. Whoever changes events on purpose raises ENGINE
// in codes.ts and writes the logs anew (testing/write-golden.ts).
describe('golden logs', () => {
  for (const [name, story] of Object.entries(STORIES))
    it(`${name} gives exactly the events that this engine gave`, () => {
      const golden = JSON.parse(
        readFileSync(new URL(`../../fixtures/golden/${name}.json`, import.meta.url), 'utf8'),
      ) as Golden;
      expect(golden.engine).toBe(ENGINE);
      expect(golden.events.length).toBeGreaterThan(5);
      expect(story().events).toEqual(golden.events);
    });
});
