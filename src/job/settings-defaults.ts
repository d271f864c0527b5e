import { DEFAULT_REACTION } from './reaction.ts';
import type { SettingsDocument } from './settings-document.ts';

/** What holds until somebody chooses. Apart from the schema: the page starts with these before a validator is there. */
export function defaultSettings(): SettingsDocument {
  return {
    version: 2,
    units: { pressure: 'bar', temperature: 'C', length: 'mm' },
    decimal: 'auto',
    language: 'auto',
    sound: { volume: 1, cue: true, speech: false, vibration: true },
    reaction: { ...DEFAULT_REACTION },
    firm: '',
    theme: 'auto',
  };
}
