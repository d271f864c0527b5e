import { type Accessor, createSignal } from 'solid-js';
import type { EngineClient } from '../engine/client.ts';
import { defaultSettings } from '../job/settings-defaults.ts';
import type { SettingsDocument } from '../job/settings-document.ts';
import { rememberPreferences } from './preferences.ts';

const ID = 'tablet';

/** The settings of this tablet: what the engine keeps of them, the defaults until it has answered. */
export function createSettings(
  engine: Pick<EngineClient, 'ask'>,
  fail: (error: unknown) => void,
): {
  readonly settings: Accessor<SettingsDocument>;
  /** @param next settings that their schema accepted */
  save(next: SettingsDocument): Promise<void>;
} {
  const [settings, setSettings] = createSignal<SettingsDocument>(defaultSettings());
  let revision = 0;
  let saving: Promise<unknown> = Promise.resolve();

  const show = (next: SettingsDocument) => {
    setSettings(next);
    rememberPreferences(next);
  };
  const read = async () => {
    const [stored, { parseDocument }] = await Promise.all([
      engine.ask({ q: 'document', kind: 'settings', id: ID }),
      import('../job/documents.ts'),
    ]);
    if (stored === null) return;
    revision = stored.revision;
    const parsed = parseDocument('settings', stored.body);
    if (parsed.ok) show(parsed.value);
  };
  read().catch(fail);

  return {
    settings,
    save: (next) => {
      show(next);
      // One after the other: each carries the revision that the one before it made.
      const write = saving.then(async () => {
        const stored = await engine.ask({
          q: 'put-document',
          document: { kind: 'settings', id: ID, revision, savedUtcMs: Date.now(), body: next },
        });
        revision = stored.revision;
      });
      saving = write.catch(() => undefined);
      return write;
    },
  };
}
