import type { Cell } from './cell.ts';
import { ANY, type Expected, isCalm } from './expect.ts';
import type { Fault } from './fault.ts';
import { GROUPS } from './table.ts';
import { WALK, type WalkStage } from './walk.ts';

/** docs/faults.md from the results: a table a fault, stages as columns. */

const STAGE_HEAD: Readonly<Record<WalkStage, string>> = {
  prepare: 'prepare',
  seat: 'seat',
  inflate: 'inflate',
  hold: 'hold',
  'let-down': 'let-down',
  done: 'done',
};

const seconds = (ms: number): string => `${(ms / 1000).toFixed(2)} s`;
const bare = (what: string): string => what.replace(/^alarm-/, '');
/** A cell of a table must not end it. */
const inCell = (text: string): string => text.replaceAll('|', '\\|').replaceAll('\n', ' ');

export function expectedText(e: Expected): string {
  if (isCalm(e)) {
    if (e.allows === ANY) return 'nothing is asked';
    return e.allows.length === 0 ? 'calm' : `calm, or ${e.allows.map(bare).join(', ')}`;
  }
  const what = e.shows.map(bare).join(' or ');
  const sound = e.priority === null ? '' : `, ${e.priority} heard`;
  const never = e.never === undefined ? '' : `, no ${e.never.shows.map(bare).join(', ')}`;
  return `${what} in ${seconds(e.withinMs)}${sound}${never}`;
}

function shownText({ shown }: Cell): string {
  if (shown.length === 0) return '-';
  return shown
    .map((s) => `${bare(s.what)}${s.priority === '' ? '' : ` (${s.priority})`} ${seconds(s.afterMs)}`)
    .join('; ');
}

const soundedText = ({ sounded }: Cell): string =>
  sounded.length === 0 ? '-' : sounded.map((s) => `${s.sound} ${seconds(s.afterMs)}`).join('; ');

function resultText({ complaints, first }: Cell): string {
  if (complaints.length > 0) return `**${complaints.join('; ')}**`;
  const before =
    first === undefined
      ? ''
      : ` at a second look (first, at load ${first.load.toFixed(1)}: ${first.complaints.join('; ')})`;
  return `met${before}`;
}

const ROWS: readonly (readonly [string, (c: Cell) => string])[] = [
  ['asked for', (c) => expectedText(c.expected)],
  ['shown', shownText],
  ['sounded', soundedText],
  ['bytes lost', (c) => (c.lostBytes === null ? 'not read' : String(c.lostBytes))],
  ['good again', (c) => (c.backMs === null ? 'not in 12 s' : seconds(c.backMs))],
  ['result', resultText],
];

function faultSection(fault: Fault, cells: readonly Cell[]): string {
  const at = new Map(cells.map((c) => [c.stage, c]));
  const stages = WALK.filter((s) => at.has(s));
  const row = (cellsOf: readonly string[]) => `| ${cellsOf.map(inCell).join(' | ')} |`;
  const lines = [
    `### ${fault.name}`,
    '',
    `${fault.title} (${fault.how}).`,
    '',
    row(['', ...stages.map((s) => STAGE_HEAD[s])]),
    row(['---', ...stages.map(() => '---')]),
    ...ROWS.map(([head, text]) => row([head, ...stages.map((s) => text(at.get(s)!))])),
  ];
  const texts = new Map<string, string>();
  for (const c of cells)
    for (const s of c.shown)
      if (!s.what.startsWith('reading-') && !texts.has(bare(s.what))) texts.set(bare(s.what), s.text);
  if (texts.size > 0) lines.push('');
  for (const [what, text] of texts) lines.push(`- ${what}: "${text}"`);
  return lines.join('\n');
}

/** The whole table, and before it what was not met. */
export function faultsReport(cells: readonly Cell[]): string {
  const failed = cells.filter((c) => c.complaints.length > 0);
  const loads = cells.map((c) => c.load);
  const head = [
    `${cells.length} cells, ${cells.length - failed.length} met, ${failed.length} not met. Load of the machine (1 min) while they were`,
    `looked at: ${Math.min(...loads).toFixed(1)} to ${Math.max(...loads).toFixed(1)}; times under load are longer than on a quiet machine.`,
  ].join('\n');
  const open =
    failed.length === 0
      ? []
      : [
          '### Not met',
          failed
            .map((c) => `- ${c.fault}, ${c.stage}: ${c.complaints.join('; ')} (load ${c.load.toFixed(1)})`)
            .join('\n'),
        ];
  const groups = GROUPS.flatMap(({ title, faults }) => {
    const own = faults.filter((f) => cells.some((c) => c.fault === f.name));
    if (own.length === 0) return [];
    return [
      `## ${title}`,
      ...own.map((f) =>
        faultSection(
          f,
          cells.filter((c) => c.fault === f.name),
        ),
      ),
    ];
  });
  return [head, ...open, ...groups].join('\n\n');
}
