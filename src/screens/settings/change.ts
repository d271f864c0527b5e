import { parseDocument } from '../../job/documents.ts';
import type { SettingsDocument } from '../../job/settings-document.ts';
import type { Services } from '../context.ts';

/** Changes some of the settings; what their schema refuses changes nothing. */
export function changeSettings(app: Services, part: Partial<SettingsDocument>): void {
  const parsed = parseDocument('settings', { ...app.settings(), ...part });
  if (parsed.ok) app.saveSettings(parsed.value).catch(app.fail);
}
