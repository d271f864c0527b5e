import { cleanup, render, screen } from '@solidjs/testing-library';
import { afterEach, expect, it } from 'vitest';
import type { ArchiveEntry } from '../../evidence/messages.ts';
import { METRIC, NO_VALUE } from '../../words/format.ts';
import { RECORDS } from '../../words/records.ts';
import { type Services, ServicesContext } from '../context.ts';
import { Row } from './Row.tsx';

afterEach(cleanup);

const entry = (state: ArchiveEntry['state']): ArchiveEntry => ({
  ref: { kind: 'run', runId: 'run-7' },
  runId: 'run-7',
  title: 'Crack at 12.4 m',
  site: '',
  client: '',
  packer: '',
  crew: '',
  practice: false,
  state,
  openedUtcMs: Date.UTC(2026, 3, 14, 8),
  seconds: 60,
  peakBar: null,
  alarms: 0,
  gaps: 0,
  cure: null,
  ceiling: null,
  sealed: null,
  imported: null,
  status: null,
});

/** What the row says of alarms. */
function alarmsOf(state: ArchiveEntry['state']): string | undefined {
  cleanup();
  render(() => (
    <ServicesContext.Provider value={{ units: () => METRIC } as unknown as Services}>
      <Row entry={entry(state)} sketch={null} picked={false} pickLabel="" onPick={() => undefined} />
    </ServicesContext.Provider>
  ));
  return screen.getByText(RECORDS.alarms).nextElementSibling?.textContent ?? undefined;
}

it('a run that goes on is not said to have had no alarm: nothing has counted them yet', () => {
  expect(alarmsOf('open')).toBe(NO_VALUE);
  expect(alarmsOf('ended')).toBe(RECORDS.noAlarm);
});
