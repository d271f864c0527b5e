import { cleanup, render, screen } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, expect, it } from 'vitest';
import type { LinkView } from '../../engine/messages.ts';
import { busMap, lineMap } from '../../job/testing/maps.ts';
import { LACK } from '../../words/sources.ts';
import { type Services, ServicesContext } from '../context.ts';
import { SourceNote } from './SourceNote.tsx';

afterEach(cleanup);

function show(part: Partial<LinkView>) {
  const [link] = createSignal({ map: null, doubts: [], rateHz: null, ...part });
  render(() => (
    <ServicesContext.Provider value={{ live: { link } } as unknown as Services}>
      <SourceNote />
    </ServicesContext.Provider>
  ));
}

it('of a device of the protocol nothing is said', () => {
  show({});
  expect(screen.queryByTestId('source-note')).toBeNull();
});

it('says what a bus lacks, and how often it is asked', () => {
  show({ map: busMap(), rateHz: 20 });
  const note = screen.getByTestId('source-note').textContent;
  for (const lack of ['clock', 'guard', 'button'] as const) expect(note).toContain(LACK[lack]);
  expect(note).not.toContain(LACK.check);
  expect(note).toContain('20 readings a second');
});

it('calls a plain line unchecked, and says that first', () => {
  show({ map: lineMap() });
  const note = screen.getByTestId('source-note');
  expect(note.querySelector('summary')?.textContent).toMatch(/^Unchecked line/);
  for (const lack of Object.values(LACK)) expect(note.textContent).toContain(lack);
});

it('says of each value what speaks against it, an exception by its words', () => {
  show({
    map: busMap(),
    doubts: [
      { code: 'exception', channel: 0, value: 2 },
      { code: 'outside', channel: 1, value: 900 },
    ],
  });
  const said = screen.getAllByTestId('source-doubt').map((e) => e.textContent);
  expect(said[0]).toBe(
    'Row 1 of the map: the unit refuses: it has no such registers, which count from 0 (exception 2).',
  );
  expect(said[1]).toMatch(/^Row 2 of the map: 900 is far outside/);
});
