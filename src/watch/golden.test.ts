import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ENGINE } from './codes.ts';
import type { WatchEvent } from './events.ts';
import { Digest } from './testing/digest.ts';
import { STORIES } from './testing/stories.ts';

interface Golden {
  readonly engine: number;
  readonly events: readonly WatchEvent[];
  readonly states: Readonly<Record<string, string>>;
}

// One engine number gives the same events for the same input. Whoever changes events on purpose raises ENGINE
// in codes.ts and writes the logs anew (testing/write-golden.ts).
// The states on the way are held to the same: records keep some. Whoever changes how something is judged, though the events stay,
// raises STATE_FORM (engine/kept-state.ts) once between two releases, and writes them anew, too.
describe('golden logs', () => {
  for (const [name, story] of Object.entries(STORIES))
    it(`${name} gives exactly the events that this engine gave, by the same states`, () => {
      const golden = JSON.parse(
        readFileSync(new URL(`../../fixtures/golden/${name}.json`, import.meta.url), 'utf8'),
      ) as Golden;
      expect(golden.engine).toBe(ENGINE);
      expect(golden.events.length).toBeGreaterThan(5);
      const digest = new Digest();
      expect(story(digest.look).events).toEqual(golden.events);
      expect(digest.of).toEqual(golden.states);
    });
});
