import { cleanup, fireEvent, render, screen } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, expect, it } from 'vitest';
import type { RunView } from '../../engine/messages.ts';
import { defaultSettings } from '../../job/settings-defaults.ts';
import type { SettingsDocument } from '../../job/settings-document.ts';
import { METRIC } from '../../units/display.ts';
import { LANGUAGES } from '../../words/languages.ts';
import { type Services, ServicesContext } from '../context.ts';
import { formOver } from '../documents/form.ts';
import { WordingPart } from './WordingPart.tsx';

afterEach(cleanup);

function show(first: Partial<SettingsDocument>, run: RunView | null = null) {
  const [settings, setSettings] = createSignal<SettingsDocument>({ ...defaultSettings(), ...first });
  const services = {
    settings,
    units: () => METRIC,
    wording: { language: 'en', decimal: 'point' },
    live: { run: () => run },
  };
  render(() => (
    <ServicesContext.Provider value={services as unknown as Services}>
      {(() => {
        const form = formOver('settings', settings, setSettings, () => METRIC);
        return <WordingPart form={form} />;
      })()}
    </ServicesContext.Provider>
  ));
  return settings;
}
const choose = (id: string, value: string) => fireEvent.change(screen.getByTestId(id), { target: { value } });

it('another decimal mark is kept at once, and says that it waits for the page to be loaded again', () => {
  const settings = show({ decimal: 'point' });
  expect(screen.queryByTestId('wording-waits')).toBeNull();
  choose('settings-decimal', 'comma');
  expect(settings().decimal).toBe('comma');
  expect(screen.getByTestId('wording-waits')).toBeTruthy();
  expect(screen.getByTestId('wording-now')).toBeTruthy();
  choose('settings-decimal', 'point');
  expect(screen.queryByTestId('wording-waits')).toBeNull();
});

it('a run is never ended by loading the page again for it', () => {
  show({ decimal: 'comma' }, {} as RunView);
  expect(screen.getByTestId('wording-waits')).toBeTruthy();
  expect(screen.queryByTestId('wording-now')).toBeNull();
});

it('offers the languages that there are, and says nothing of one that is not here any more', () => {
  const settings = show({ language: 'xx', decimal: 'point' });
  const offered = [...screen.getByTestId('settings-language').querySelectorAll('option')].map((o) => o.value);
  expect(offered).toEqual(['auto', ...Object.keys(LANGUAGES)]);
  expect(screen.queryByTestId('wording-waits')).toBeNull();
  choose('settings-language', 'en');
  expect(settings().language).toBe('en');
});
