import type { SettingsDocument } from '../job/settings-document.ts';

/** The theme that a choice means on this system. */
export function themeInForce(
  choice: SettingsDocument['theme'],
  systemDark: boolean,
): 'light' | 'dark' | 'sun' {
  if (choice !== 'auto') return choice;
  return systemDark ? 'dark' : 'light';
}
