import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import type { NodeSoak, PageSoak } from '../soak/figures.ts';
import { soakReport } from '../soak/report.ts';
import type { Cell } from './cell.ts';
import type { Kill } from './kills.ts';
import { killsReport } from './kills-report.ts';
import { faultsReport } from './report.ts';
import { FAULTS } from './table.ts';
import { WALK } from './walk.ts';

/** What docs/faults.json holds: the newest of each cell, the newest kills, the newest soak. docs/faults.md is made of it. */
export interface Results {
  readonly cells: readonly Cell[];
  readonly kills: readonly Kill[];
  readonly soak: { readonly node: NodeSoak | null; readonly page: PageSoak | null };
}

const DATA = 'docs/faults.json';
const PAGE = 'docs/faults.md';
const NONE: Results = { cells: [], kills: [], soak: { node: null, page: null } };

const HEAD = `# Faults

What the built app shows and sounds under faults, on the real stack: Chromium, its own Web Serial, the C device of
firmware-protocol/host on a pseudo-terminal. \`npm run faults\` makes this page and the figures behind it
(docs/faults.json) again, \`npm run faults -- unplug silence\` some of it, \`npm run soak\` the last part.

A packer rated at 2.0 bar is read at the hose, 50 samples a second; the repair is walked through its stages at 0, 0.4, 1.0,
1.5, 0.6 and 0 bar, and in each the fault is made, looked at, and taken back. Times count from the fault to the
document's change and to the tone's start at the loudspeaker's queue; both are noted in the page itself. *Bytes lost* are those that the
device's line took and the record does not hold. *Good again*: from the end of the fault until the reading was good and
every alarm could be acknowledged. A name beginning with *reading-* is what the large digits are marked as.
`;

/** The faults of the table that still are, in its order. */
function inOrder(cells: readonly Cell[]): Cell[] {
  const place = (c: Cell) =>
    FAULTS.findIndex((f) => f.name === c.fault) * WALK.length + WALK.indexOf(c.stage);
  return cells
    .filter((c) => FAULTS.some((f) => f.name === c.fault && (f.stages ?? WALK).includes(c.stage)))
    .sort((a, b) => place(a) - place(b));
}

export function readResults(): Results {
  if (!existsSync(DATA)) return NONE;
  const read = JSON.parse(readFileSync(DATA, 'utf8')) as Results;
  return { ...read, cells: inOrder(read.cells) };
}

/** A line an item: a change of one is a change of one line. */
function write({ cells, kills, soak }: Results): void {
  const list = (items: readonly unknown[]) => items.map((x) => `\n${JSON.stringify(x)}`).join(',');
  const text = `{"cells":[${list(cells)}],\n"kills":[${list(kills)}],\n"soak":${JSON.stringify(soak)}}\n`;
  writeFileSync(`${DATA}.new`, text);
  renameSync(`${DATA}.new`, DATA);
}

/** Puts new cells in the place of older ones; what was complained of at a first look of the same run stays beside. */
export function keepCells(cells: readonly Cell[]): void {
  const results = readResults();
  const isNew = (c: Cell) => cells.some((n) => n.fault === c.fault && n.stage === c.stage);
  write({ ...results, cells: inOrder([...results.cells.filter((c) => !isNew(c)), ...cells]) });
}

/** @param first the first of a new series: the older one goes */
export function keepKill(kill: Kill, first: boolean): void {
  const results = readResults();
  write({ ...results, kills: [...(first ? [] : results.kills), kill] });
}

export function keepSoak(soak: Partial<Results['soak']>): void {
  const results = readResults();
  write({ ...results, soak: { ...results.soak, ...soak } });
}

/** Writes docs/faults.md. */
export function writePage(): void {
  const { cells, kills, soak } = readResults();
  const parts = [
    HEAD.trimEnd(),
    ...(cells.length === 0 ? [] : [faultsReport(cells)]),
    ...(kills.length === 0 ? [] : [killsReport(kills)]),
    ...(soak.node === null && soak.page === null ? [] : [soakReport(soak)]),
  ];
  writeFileSync(PAGE, `${parts.join('\n\n')}\n`);
}
