import { expect, it } from 'vitest';
import type { Cell } from './cell.ts';
import { ANY } from './expect.ts';
import type { Kill } from './kills.ts';
import { killsReport } from './kills-report.ts';
import { expectedText, faultsReport } from './report.ts';

const CELL: Cell = {
  fault: 'unplug',
  stage: 'seat',
  expected: { shows: ['alarm-pressure-lost'], priority: 'urgent', withinMs: 1200 },
  shown: [{ what: 'alarm-pressure-lost', priority: 'urgent', afterMs: 93, text: 'lost | keep clear' }],
  sounded: [{ sound: 'urgent', afterMs: 97 }],
  backMs: 2400,
  lostBytes: 32,
  complaints: [],
  load: 1.5,
};

it('a table a fault, its stages as columns, each row as wide', () => {
  const late: Cell = { ...CELL, stage: 'hold', complaints: ['late: 1900 ms of 1200'], lostBytes: null };
  const text = faultsReport([CELL, late]);
  expect(text).toContain('2 cells, 1 met, 1 not met');
  expect(text).toContain('- unplug, hold: late: 1900 ms of 1200 (load 1.5)');
  const rows = text.split('\n').filter((l) => l.startsWith('|'));
  expect(rows[0]).toBe('|  | seat | hold |');
  expect(rows.every((r) => r.split('|').length === 5)).toBe(true);
  expect(rows.find((r) => r.startsWith('| shown'))).toContain('pressure-lost (urgent) 0.09 s');
  expect(rows.find((r) => r.startsWith('| bytes lost'))).toBe('| bytes lost | 32 | not read |');
  expect(text).toContain('- pressure-lost: "lost | keep clear"');
});

it('what was met only at a second look says so', () => {
  const first = { complaints: ['no sound'], load: 14.2 };
  expect(faultsReport([{ ...CELL, first }])).toContain(
    'met at a second look (first, at load 14.2: no sound)',
  );
});

it('says what was asked for', () => {
  expect(expectedText(CELL.expected)).toBe('pressure-lost in 1.20 s, urgent heard');
  expect(expectedText({ allows: [], forMs: 1 })).toBe('calm');
  expect(expectedText({ allows: ['alarm-clock-jump'], forMs: 1 })).toBe('calm, or clock-jump');
  expect(expectedText({ allows: ANY, forMs: 1 })).toBe('nothing is asked');
});

it('kills are counted by what became of the run, and the worst is told', () => {
  const kill = (seed: number, more: Partial<Kill>): Kill => ({
    seed,
    stage: 'hold',
    outcome: 'resumed',
    lostS: 0.3,
    saidMs: 900,
    backMs: 3000,
    detail: '',
    load: 2,
    ...more,
  });
  const text = killsReport([
    kill(1, {}),
    kill(2, { lostS: 0.9 }),
    kill(3, { stage: null, outcome: 'none-yet', lostS: null, saidMs: null, backMs: null }),
    kill(4, { outcome: 'LOST', lostS: null, saidMs: null, backMs: null }),
  ]);
  expect(text).toContain('2 times the run was offered');
  expect(text).toContain('Lost: 1.');
  expect(text).toMatch(/not in the record \| 0\.90 s \| 0\.90 s \| 0\.90 s \|/);
  expect(text).toContain('- seed 4, hold: LOST');
  expect(text).toContain('Seeds: 1 2 3 4');
});
