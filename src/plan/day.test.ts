import { describe, expect, it } from 'vitest';
import { blankJob } from '../job/job-document.ts';
import { type DayNow, type DayRun, dayOf, moved } from './day.ts';

const NOW: DayNow = { today: '2026-11-28', sinceUtcMs: 1000, running: null, cureReached: false };
const sheet = (id: string, date: string | null, chainageM: number | null = null) => {
  const blank = blankJob(id);
  return { id, document: { ...blank, date, defect: { ...blank.defect, chainageM } } };
};
const run = (jobId: string | null, openedUtcMs: number, more: Partial<DayRun> = {}): DayRun => ({
  runId: `run-${jobId}-${openedUtcMs}`,
  jobId,
  title: '',
  practice: false,
  state: 'ended',
  openedUtcMs,
  ...more,
});
const ids = (list: readonly { sheet: { id: string } }[]) => list.map((r) => r.sheet.id);

describe('the day', () => {
  it('holds what is dated today, was run today, or runs now; the rest is told apart, what comes first', () => {
    const sheets = [
      sheet('old', '2026-11-20'),
      sheet('today', '2026-11-28'),
      sheet('run-today', null),
      sheet('tomorrow', '2026-11-29'),
      sheet('runs-on', '2026-11-27'),
    ];
    const now = { ...NOW, running: { runId: 'r', jobId: 'runs-on' } };
    const day = dayOf(sheets, [run('run-today', 2000), run('old', 10), run('runs-on', 20)], now, []);
    expect(ids(day.repairs)).toEqual(['runs-on', 'run-today', 'today']);
    expect(ids(day.others)).toEqual(['tomorrow', 'old']);
  });

  it('tells how far each has come by its newest run, and a practice is none', () => {
    const states = (runs: readonly DayRun[], now: DayNow = NOW) =>
      dayOf([sheet('a', NOW.today)], runs, now, []).repairs[0]?.state;
    expect(states([])).toBe('planned');
    expect(states([run('a', 5, { practice: true })])).toBe('planned');
    expect(states([run('a', 5, { state: 'open' })])).toBe('left-open');
    expect(states([run('a', 5, { state: 'interrupted' })])).toBe('ended');
    expect(states([run('a', 5, { sealedUtcMs: 9 })])).toBe('sealed');
    expect(states([run('a', 5, { sealedUtcMs: 9, sentUtcMs: 10 })])).toBe('sent');
    // Tried again after a run that was sent: the newest counts.
    expect(states([run('a', 5, { sealedUtcMs: 9, sentUtcMs: 10 }), run('a', 20)])).toBe('ended');
    const running = { ...NOW, running: { runId: 'run-a-5', jobId: 'a' } };
    expect(states([run('a', 5, { state: 'open' })], running)).toBe('running');
    expect(states([run('a', 5, { state: 'open' })], { ...running, cureReached: true })).toBe('cure-reached');
  });

  it('keeps the crew’s order, then what was begun, then the position along the line', () => {
    const at = (id: string, m: number | null) => sheet(id, NOW.today, m);
    const sheets = [at('far', 30), at('near', 4), at('nowhere', null), at('begun', 50), at('put', 99)];
    const day = dayOf(sheets, [run('begun', 2000)], NOW, ['put', 'gone']);
    expect(ids(day.repairs)).toEqual(['put', 'begun', 'near', 'far', 'nowhere']);
  });

  it('moves one up or down, and never past an end', () => {
    expect(moved(['a', 'b', 'c'], 'b', -1)).toEqual(['b', 'a', 'c']);
    expect(moved(['a', 'b', 'c'], 'b', 1)).toEqual(['a', 'c', 'b']);
    expect(moved(['a', 'b'], 'a', -1)).toBeNull();
    expect(moved(['a', 'b'], 'b', 1)).toBeNull();
    expect(moved(['a', 'b'], 'x', 1)).toBeNull();
  });
});
