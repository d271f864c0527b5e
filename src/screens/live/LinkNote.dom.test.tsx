import { cleanup, render, screen } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, expect, it } from 'vitest';
import type { LinkView } from '../../engine/messages.ts';
import { LINK_ERROR } from '../../words/link.ts';
import { type Services, ServicesContext } from '../context.ts';
import { LinkNote } from './LinkNote.tsx';

afterEach(cleanup);

function show(part: Partial<LinkView>) {
  const [link] = createSignal({ channels: [], error: null, strayLine: null, ...part });
  const live = { link, setup: () => null };
  render(() => (
    <ServicesContext.Provider value={{ live } as unknown as Services}>
      <LinkNote />
    </ServicesContext.Provider>
  ));
}

it('says what came instead of frames, with the last line as text and never as a picture of it', () => {
  show({ error: 'line-ends', strayLine: '<img src=x>␍␊' });
  expect(screen.getByTestId('link-error').textContent).toContain(LINK_ERROR['line-ends'].title);
  expect(screen.getByTestId('stray-line').textContent).toBe('<img src=x>␍␊');
  expect(document.querySelector('img')).toBeNull();
});

it('shows no line where a line explains nothing', () => {
  for (const error of ['port-busy', 'no-hello', 'deaf', null] as const) {
    show({ error, strayLine: 'S,1' });
    expect(screen.queryByTestId('stray-line')).toBeNull();
    cleanup();
  }
});

it('says when the device claims more readings than its line carries', () => {
  show({ rateHz: 1000, mostHz: 24, baudRate: 9600 });
  expect(screen.getByTestId('link-error').textContent).toContain('claims 1000 readings a second');
  cleanup();
  show({ rateHz: 20, mostHz: 24, baudRate: 9600 });
  expect(screen.queryByTestId('link-error')).toBeNull();
});
