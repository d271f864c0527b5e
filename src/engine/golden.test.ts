import { readdirSync, readFileSync } from 'node:fs';
import { sha256 } from '@noble/hashes/sha2.js';
import { describe, expect, it } from 'vitest';
import { judge } from '../cli/judge.ts';
import { toHex } from '../record/hex.ts';
import type { LogEntry } from '../record/log.ts';
import { scanRun } from '../record/reader.ts';
import { ENGINE } from '../watch/codes.ts';
import { createRun, type Run, stepRun } from './core.ts';
import { judgeAgain } from './judge-again.ts';
import { STATE_FORM } from './kept-state.ts';
import { LIVE_RUNS, playLive } from './testing/live-runs.ts';
import { statesOf } from './testing/states.ts';

// Golden logs: a live run's file holds its input log and the events that the engine gave then. Another outcome
// needs a new engine number; `npx tsx src/engine/testing/write-logs.ts` then makes the logs anew. Other states with the same outcome
// need a new STATE_FORM once between two releases; write-states.ts then makes states.json anew.
const folder = new URL('../../fixtures/logs/', import.meta.url);
const names = readdirSync(folder).filter((n) => n.endsWith('.pages'));

describe.each(names)('golden log %s', (name) => {
  const bytes = new Uint8Array(readFileSync(new URL(name, folder)));
  const entries: LogEntry[] = [];
  const scan = scanRun(bytes, { entry: (e) => entries.push(e) });

  it('is whole and of this engine', () => {
    expect(scan.damage).toEqual([]);
    expect(scan.end).toBe('ended');
    expect(scan.head?.engine).toBe(ENGINE);
  });

  it('gives the events that the live engine gave, judged again and on the command line', () => {
    const { recorded, again } = judgeAgain(bytes);
    expect(recorded.length).toBeGreaterThan(8);
    expect(again).toEqual(recorded);
    expect(judge(scan.head!, entries, false).events).toEqual(recorded);
  });

  it('comes to the same states on its way', () => {
    const states = JSON.parse(readFileSync(new URL('states.json', folder), 'utf8')) as Record<
      string,
      unknown
    >;
    expect(statesOf(bytes)).toEqual(states[name]);
  });
});

it('every live run has its golden log', () => {
  expect(names.map((n) => n.replace('.pages', '')).sort()).toEqual(Object.keys(LIVE_RUNS).sort());
});

it('a live run through the whole engine is judged again to the same events', async () => {
  const { recorded, again, damage } = judgeAgain(await playLive('bad-cable'));
  expect(damage).toEqual([]);
  expect(again).toEqual(recorded);
  const told = recorded.flatMap((e) => (e.e === 'alarm' ? [e.alarm] : e.e === 'device' ? [e.what] : []));
  expect(told).toEqual(expect.arrayContaining(['pressure-lost', 'reset', 'greeted']));
});

/** Names of the members, at any depth, without what stands in them. */
function membersOf(value: unknown, path: string, into: Set<string>): void {
  if (Array.isArray(value)) for (const v of value) membersOf(v, `${path}[]`, into);
  else if (typeof value === 'object' && value !== null)
    for (const [key, v] of Object.entries(value)) {
      into.add(`${path}.${key}`);
      membersOf(v, `${path}.${key}`, into);
    }
}

it('the state that records keep has the members of its form', () => {
  const members = new Set<string>();
  for (const name of names) {
    const run: Run[] = [];
    const file = new Uint8Array(readFileSync(new URL(name, folder)));
    scanRun(file, {
      page: ({ head }) => void (head !== null && run.push(createRun(head))),
      entry: (e) => stepRun(run[0]!, e, { event: () => undefined }),
    });
    membersOf(JSON.parse(JSON.stringify(run[0])), '', members);
  }
  // Another list: raise STATE_FORM and note the new hash. A record whose states have other members would be called changed.
  const hash = toHex(sha256(new TextEncoder().encode([...members].sort().join('\n'))));
  expect([STATE_FORM, hash.slice(0, 16)]).toEqual([2, '82c1b5cd322aeaba']);
});
