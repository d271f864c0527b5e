import type { SettingsDocument } from '../job/settings-document.ts';

type Preferences = Pick<SettingsDocument, 'theme' | 'language' | 'decimal'>;

const KEY = 'steadybar.preferences';

/** Kept beside the settings, which the engine reads: colours, language and decimal mark are wanted before it is up. */
export function rememberPreferences({ theme, language, decimal }: Preferences): void {
  try {
    localStorage.setItem(KEY, JSON.stringify({ theme, language, decimal }));
  } catch {
    // Without storage the page begins as the browser has it.
  }
}

/** Language and decimal mark as they were kept; 'auto' where nothing sound is. */
export function keptPreferences(): Pick<Preferences, 'language' | 'decimal'> {
  let kept: { language?: unknown; decimal?: unknown } = {};
  try {
    kept = Object(JSON.parse(localStorage.getItem(KEY) ?? '{}'));
  } catch {
    // As above.
  }
  const { language, decimal } = kept;
  return {
    language: typeof language === 'string' ? language : 'auto',
    decimal: decimal === 'point' || decimal === 'comma' ? decimal : 'auto',
  };
}
