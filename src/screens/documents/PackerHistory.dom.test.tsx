import { cleanup, render, screen } from '@solidjs/testing-library';
import { afterEach, expect, it } from 'vitest';
import { blankPacker, type ConditionEntry } from '../../job/packer-document.ts';
import { METRIC } from '../../units/display.ts';
import { type Services, ServicesContext } from '../context.ts';
import { PackerHistory } from './PackerHistory.tsx';

afterEach(cleanup);

const cycle = (day: number, leakMbarPerMin: number | null): ConditionEntry => ({
  date: `2026-04-${String(day).padStart(2, '0')}`,
  what: 'cycle',
  peakBar: 1.5,
  leakMbarPerMin,
  minutes: 90,
  by: 'A.B.',
  note: '',
});

it('a line that rose in its hold shows no leak, in the rows and in the sentence', () => {
  const packer = { ...blankPacker('P 100-150'), conditions: [cycle(1, 0.4), cycle(2, null), cycle(3, -0.2)] };
  render(() => (
    <ServicesContext.Provider value={{ units: () => METRIC } as unknown as Services}>
      <PackerHistory packer={packer} />
    </ServicesContext.Provider>
  ));
  const leaks = [...screen.getByTestId('packer-history').querySelectorAll('tbody tr td:nth-child(3)')];
  expect(leaks.map((cell) => cell.textContent)).toEqual(['none seen', '–', '0.4\u00a0mbar/min']);
  expect(screen.getByTestId('drift-leak').textContent).toMatch(/^none seen now, moved by −0\.6/);
});
