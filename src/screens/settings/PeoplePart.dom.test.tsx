import { fireEvent, render, screen } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { expect, it } from 'vitest';
import { defaultSettings } from '../../job/settings-defaults.ts';
import type { SettingsDocument } from '../../job/settings-document.ts';
import { FIRM } from '../../words/photos.ts';
import { UI } from '../../words/ui.ts';
import { type Services, ServicesContext } from '../context.ts';
import { PeoplePart } from './PeoplePart.tsx';

const DAY = new Date(2026, 3, 14, 7).getTime();

function show() {
  const [settings, setSettings] = createSignal<SettingsDocument>(defaultSettings());
  const undone: (() => void)[] = [];
  const services = {
    settings,
    saveSettings: async (next: SettingsDocument) => void setSettings(next),
    nowMs: () => DAY,
    say: (_: string, undo: () => void) => undone.push(undo),
    fail: () => {},
  };
  render(() => (
    <ServicesContext.Provider value={services as unknown as Services}>
      <PeoplePart />
    </ServicesContext.Provider>
  ));
  return { settings, undone };
}
const type = (id: string, value: string) => fireEvent.input(screen.getByTestId(id), { target: { value } });
const add = (initials: string, name: string) => {
  type('person-initials', initials);
  type('person-name', name);
  fireEvent.click(screen.getByTestId('add-person'));
};

it('people come by their initials, once each, and are here today by a tick', () => {
  const { settings, undone } = show();
  expect(screen.getByText(FIRM.nobody)).toBeTruthy();
  expect(screen.getByTestId<HTMLButtonElement>('add-person').disabled).toBe(true);
  add(' AB ', 'A. Brandt');
  add('CD', 'C. Dahl');
  expect(settings().people).toEqual([
    { initials: 'AB', name: 'A. Brandt' },
    { initials: 'CD', name: 'C. Dahl' },
  ]);
  // The same initials would sign for two.
  add('AB', 'A. Berg');
  expect(settings().people).toHaveLength(2);
  expect(screen.getByText(FIRM.initialsKnown)).toBeTruthy();
  const here = screen.getByTestId<HTMLInputElement>('here-AB');
  expect(here.checked).toBe(false);
  fireEvent.click(here);
  expect(settings().here).toEqual([{ day: '2026-04-14', initials: ['AB'] }]);
  fireEvent.click(screen.getAllByText(UI.remove)[0]!);
  expect(settings().people?.map((p) => p.initials)).toEqual(['CD']);
  undone[0]!();
  expect(settings().people?.map((p) => p.initials)).toEqual(['AB', 'CD']);
});
