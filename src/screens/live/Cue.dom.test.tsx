import { cleanup, render, screen } from '@solidjs/testing-library';
import { afterEach, expect, it } from 'vitest';
import { METRIC } from '../../units/display.ts';
import type { GuardView } from '../../watch/view.ts';
import { type Services, ServicesContext } from '../context.ts';
import { Cue } from './Cue.tsx';

afterEach(cleanup);

const QUIET = {
  restBar: null,
  rateBarPerS: null,
  settleBar: null,
  ceilingInS: null,
  closeInS: null,
  tooFast: null,
};
const in_ = (value: number) => ({ value, low: value, high: value });

/** What the cue's place says; null where it is empty. */
function said(guard: Partial<GuardView>, silent = false): string | null {
  const live = { silent: () => silent, view: () => ({ guard: { ...QUIET, ...guard } }) };
  render(() => (
    <ServicesContext.Provider value={{ live, units: () => METRIC } as unknown as Services}>
      <Cue />
    </ServicesContext.Provider>
  ));
  const text = screen.queryByTestId('cue')?.textContent ?? null;
  cleanup();
  return text;
}
const FAST = { lateBar: 0.25, rateBarPerS: 0.7, mostBarPerS: 0.38 };

it('counts down, and says when it is now', () => {
  expect(said({})).toBeNull();
  expect(said({ closeInS: in_(7.6) })).toBe('In 8\u00a0s: shut the valve');
  expect(said({ closeInS: in_(0.4) })).toBe('Shut the valve now');
});

it('advises to throttle where a hand would be late, with or without the count', () => {
  const advice = 'Too fast: at this rate a hand is late by 0.25\u00a0bar. Throttle the valve.';
  expect(said({ tooFast: FAST })).toBe(advice);
  expect(said({ tooFast: FAST, closeInS: in_(2.1) })).toBe(advice);
});

it('says nothing while the engine is silent: an old count-down is none', () => {
  expect(said({ tooFast: FAST, closeInS: in_(2) }, true)).toBeNull();
});
