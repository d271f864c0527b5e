import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ALARMS, STAGES } from '../codes.ts';
import type { AlarmRow } from './table.ts';
import { ALARM_TABLE, rowOf } from './table.ts';

const DOC = readFileSync(new URL('../../../docs/alarms.md', import.meta.url), 'utf8');

/** Cells of the lines of a Markdown table whose first cell is one of `names`. */
function cells(section: string): string[][] {
  const from = DOC.indexOf(`## ${section}\n`);
  expect(from).toBeGreaterThan(0);
  const to = DOC.indexOf('\n## ', from + 4);
  return DOC.slice(from, to < 0 ? undefined : to)
    .split('\n')
    .filter((line) => line.startsWith('| '))
    .map((line) =>
      line
        .split('|')
        .slice(1, -1)
        .map((cell) => cell.trim()),
    )
    .slice(2);
}

function againCell({ afterS, share, stepBar }: AlarmRow['again']): string {
  const steps = stepBar === undefined ? [] : [`each ${stepBar} bar`];
  const level = share === null ? steps : [`each ${share * 100} %`];
  return [...(afterS === null ? [] : [`${afterS}`]), ...level].join(', ') || '-';
}

const codes = (section: string) => cells(section).map((row) => row[0]);

describe('alarm table', () => {
  it('has one row for each code, in order', () => {
    expect(ALARM_TABLE.map((r) => r.alarm)).toEqual([...ALARMS]);
    for (const alarm of ALARMS) expect(rowOf(alarm).alarm).toBe(alarm);
  });

  it('is what docs/alarms.md says', () => {
    const doc = cells('The table');
    const code = ALARM_TABLE.map((r) => [
      r.alarm,
      r.priority,
      r.parents.join(', ') || '-',
      r.stages.length === STAGES.length ? 'all' : r.stages.join(', '),
      String(r.onDelayS),
      String(r.offDelayS),
      String(r.deadband),
      againCell(r.again),
      r.shelvable ? 'yes' : 'no',
      r.consequence,
      r.action,
      String(r.actS),
    ]);
    expect(doc).toEqual(code);
  });

  it('every alarm has its cause in words there, every consequence and action its line', () => {
    for (const alarm of ALARMS) expect(DOC).toContain(`- **${alarm}**: `);
    expect(new Set(codes('Consequences'))).toEqual(new Set(ALARM_TABLE.map((r) => r.consequence)));
    expect(new Set(codes('Actions'))).toEqual(new Set(ALARM_TABLE.map((r) => r.action)));
  });

  it('a parent is shown in every stage in which it hides a child, and hides nothing that is more urgent', () => {
    const rank = { low: 0, high: 1, urgent: 2 };
    for (const row of ALARM_TABLE)
      for (const parent of row.parents.map(rowOf)) {
        for (const stage of row.stages) expect(parent.stages).toContain(stage);
        expect(rank[parent.priority]).toBeGreaterThanOrEqual(rank[row.priority]);
      }
  });

  it('has no circles of parents', () => {
    const depth = (alarm: (typeof ALARMS)[number], seen: readonly string[]): number => {
      expect(seen).not.toContain(alarm);
      return 1 + Math.max(0, ...rowOf(alarm).parents.map((p) => depth(p, [...seen, alarm])));
    };
    for (const alarm of ALARMS) depth(alarm, []);
  });

  it('what is urgent by the table is never shelved and never hidden by its stage', () => {
    const urgent = ALARM_TABLE.filter((r) => r.priority === 'urgent');
    expect(urgent.length).toBeGreaterThan(4);
    for (const r of urgent) expect(r).toMatchObject({ shelvable: false, stages: STAGES });
  });

  it('the pressure itself has no on-delay, and is hidden only by what says more of it', () => {
    const urgent = { onDelayS: 0, priority: 'urgent' };
    expect(rowOf('over-range')).toMatchObject({ ...urgent, parents: [] });
    expect(rowOf('over-rated')).toMatchObject({ ...urgent, parents: ['over-range'] });
    expect(rowOf('ceiling')).toMatchObject({ ...urgent, parents: ['over-range', 'over-rated'] });
  });

  // The device's own sounder sounds again after 120 s (firmware-protocol/SPEC.md, part 7).
  it('what is or may become urgent asks again two minutes after an acknowledgement, as the device does', () => {
    const spec = readFileSync(new URL('../../../firmware-protocol/SPEC.md', import.meta.url), 'utf8');
    const deviceS = Number(/after (\d+) s\s+if the pressure still stands over the limit/.exec(spec)?.[1]);
    for (const r of ALARM_TABLE)
      if (r.priority === 'urgent' || r.alarm === 'stuck' || r.alarm === 'reading-jump')
        expect(r.again.afterS).toBe(deviceS);
    expect(rowOf('over-rated').again.share).toBe(0.1);
  });
});
