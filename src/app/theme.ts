import type { SettingsDocument } from '../job/settings-document.ts';

type ThemeChoice = SettingsDocument['theme'];

/** The theme that a choice means on this system. */
export function themeInForce(choice: ThemeChoice, systemDark: boolean): 'light' | 'dark' | 'sun' {
  if (choice !== 'auto') return choice;
  return systemDark ? 'dark' : 'light';
}

/** Kept beside the settings so that the index page can set the colours before the engine is up. */
export function rememberTheme(theme: ThemeChoice): void {
  try {
    localStorage.setItem('steadybar.preferences', JSON.stringify({ theme }));
  } catch {
    // Without storage the page begins in the system's colours and changes when the settings are read.
  }
}
