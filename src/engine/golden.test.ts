import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { judge } from '../cli/judge.ts';
import type { LogEntry } from '../record/log.ts';
import { scanRun } from '../record/reader.ts';
import { ENGINE } from '../watch/codes.ts';
import { judgeAgain } from './judge-again.ts';
import { LIVE_RUNS, playLive } from './testing/live-runs.ts';

// Golden logs: a live run's file holds its input log and the events that the engine gave then. Another outcome
// needs a new engine number; `npx tsx src/engine/testing/write-logs.ts` then makes the logs anew.
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
