import { cleanup, render, screen } from '@solidjs/testing-library';
import { afterEach, expect, it } from 'vitest';
import type { WatchView } from '../watch/view.ts';
import { METRIC } from '../words/format.ts';
import { UI } from '../words/ui.ts';
import { Glance } from './Glance.tsx';

afterEach(cleanup);

function glance(part: Partial<Record<keyof WatchView, unknown>>, silent = false): string {
  cleanup();
  const view = { bar: 1.23, ageS: 0.02, stale: false, overBar: null, alarms: [], ...part };
  render(() => <Glance view={view as unknown as WatchView} silent={silent} units={METRIC} />);
  return screen.getByTestId('glance').textContent ?? '';
}

it('a reading that may be believed is a number', () => {
  expect(glance({})).toContain('1.23');
});

it('one that is lost, old or over the end of the span is never its number', () => {
  const lost = [{ alarm: 'pressure-lost', state: 'acknowledged' }];
  const doubtful = {
    lost: glance({ alarms: lost }),
    gone: glance({ bar: null, ageS: 4 }),
    old: glance({ stale: true, ageS: 4 }),
    over: glance({ overBar: 4 }),
    silent: glance({}, true),
  };
  for (const text of Object.values(doubtful)) expect(text).not.toContain('1.23');
  expect(doubtful.lost).toBe(UI.lostReading);
  expect(doubtful.gone).toBe(UI.lostReading);
  expect(doubtful.old).toContain('Old reading');
  expect(doubtful.over).toContain('OVER 4');
  expect(glance({ bar: null, ageS: null })).toBe(UI.noReading);
});
