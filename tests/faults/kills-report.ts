import type { Kill } from './kills.ts';

const sorted = (values: readonly (number | null)[]): number[] =>
  values.filter((v): v is number => v !== null).sort((a, b) => a - b);
const at = (values: readonly number[], share: number): number =>
  values[Math.min(values.length - 1, Math.floor(share * values.length))] ?? Number.NaN;

/** The kills of the browser, as a section of docs/faults.md. */
export function killsReport(kills: readonly Kill[]): string {
  const lost = sorted(kills.map((k) => k.lostS));
  const said = sorted(kills.map((k) => k.saidMs));
  const back = sorted(kills.map((k) => k.backMs));
  const of = (outcome: Kill['outcome']) => kills.filter((k) => k.outcome === outcome).length;
  const loads = kills.map((k) => k.load);
  const row = (what: string, values: readonly number[], unit: string, digits: number, scale: number) =>
    `| ${what} | ${[0.5, 0.9, 1].map((q) => (at(values, q) / scale).toFixed(digits)).join(` ${unit} | `)} ${unit} |`;
  const bad = kills.filter((k) => k.outcome === 'LOST' || k.outcome === 'failed');
  return [
    '## Kills of the browser',
    `${kills.length} times every process of the browser was ended by SIGKILL, 0.3 to 8 s into the work on a repair that went on over`,
    `the kills, and the browser was opened again. ${of('resumed')} times the run was offered and gone on with, ${of('none-yet')} times none had been`,
    `opened yet, ${of('ended')} times it was just being ended and is. Lost: ${of('LOST')}. Failed: ${of('failed')}. Load of the machine (1 min)`,
    `${Math.min(...loads).toFixed(1)} to ${Math.max(...loads).toFixed(1)}.`,
    '',
    '| | median | nine of ten | most |',
    '| --- | --- | --- | --- |',
    row('samples before the kill that are not in the record', lost, 's', 2, 1),
    row('from the start of the browser until it says that a packer may be full', said, 's', 1, 1000),
    row('from the start of the browser until the run goes on with a good reading', back, 's', 1, 1000),
    '',
    ...(bad.length === 0
      ? []
      : [...bad.map((k) => `- seed ${k.seed}, ${k.stage ?? 'start'}: ${k.outcome} ${k.detail}`), '']),
    `Seeds: ${kills.map((k) => k.seed).join(' ')}`,
  ].join('\n');
}
