import { For, lazy, Show, Suspense } from 'solid-js';
import { REACTION_LIMITS } from '../../job/reaction.ts';
import type { SettingsDocument } from '../../job/settings-document.ts';
import { Choice, optionsOf, Part, TextField, Tick } from '../../widgets/Fields.tsx';
import { NumberField } from '../../widgets/NumberField.tsx';
import { PRIORITY } from '../../words/alarms.ts';
import { BACKUP } from '../../words/backup.ts';
import { SETTINGS } from '../../words/jobs.ts';
import { OFFICE } from '../../words/office.ts';
import { useServices } from '../context.ts';
import { changeSettings } from './change.ts';
import { DialGaugePart } from './DialGaugePart.tsx';

const Keys = lazy(async () => ({ default: (await import('../verify/Keys.tsx')).Keys }));

/** How the program looks, sounds and counts for this tablet; and the way to packers, resins and sensors. */
export function Settings() {
  const app = useServices();
  const s = app.settings;
  const change = (part: Partial<SettingsDocument>) => changeSettings(app, part);
  return (
    <div class="page">
      <h1>{SETTINGS.title}</h1>
      <Part title={SETTINGS.documents}>
        <div class="row">
          <a class="button grow" href="#/packer" data-testid="packers">
            {SETTINGS.packers}
          </a>
          <a class="button grow" href="#/resin" data-testid="resins">
            {SETTINGS.resins}
          </a>
          <a class="button grow" href="#/sensor" data-testid="sensors">
            {SETTINGS.sensors}
          </a>
        </div>
      </Part>
      <Part title={SETTINGS.look}>
        <div class="fields">
          <Choice
            label={SETTINGS.theme}
            testId="theme"
            value={s().theme}
            options={optionsOf(SETTINGS.themes)}
            onValue={(theme) => change({ theme })}
          />
          <Choice
            label={SETTINGS.unitPressure}
            testId="unit-pressure"
            value={s().units.pressure}
            options={optionsOf({ bar: 'bar', kPa: 'kPa', psi: 'psi' })}
            onValue={(pressure) => change({ units: { ...s().units, pressure } })}
          />
          <Choice
            label={SETTINGS.unitTemperature}
            testId="unit-temperature"
            value={s().units.temperature}
            options={optionsOf({ C: '°C', F: '°F' })}
            onValue={(temperature) => change({ units: { ...s().units, temperature } })}
          />
          <Choice
            label={SETTINGS.unitLength}
            value={s().units.length}
            options={optionsOf({ mm: 'mm, m', in: 'in, ft' })}
            onValue={(length) => change({ units: { ...s().units, length } })}
          />
        </div>
      </Part>
      <Part title={SETTINGS.sound} note={SETTINGS.soundText}>
        <Show when={app.soundBlocked()}>
          <p class="note strong">{SETTINGS.soundBlocked}</p>
        </Show>
        <div class="row">
          <For each={['urgent', 'high', 'low'] as const}>
            {(p) => (
              <button
                type="button"
                class="button grow"
                data-testid={`sound-${p}`}
                onClick={() => app.testSound(p)}
              >
                {PRIORITY[p]}
              </button>
            )}
          </For>
        </div>
        <div class="field">
          <label for="volume">
            {SETTINGS.volume} <span class="field-unit">{Math.round(s().sound.volume * 100)} %</span>
          </label>
          <input
            id="volume"
            type="range"
            min="0.3"
            max="1"
            step="0.05"
            value={s().sound.volume}
            onChange={(e) => change({ sound: { ...s().sound, volume: Number(e.currentTarget.value) } })}
          />
        </div>
        <Tick
          label={SETTINGS.cueSound}
          checked={s().sound.cue}
          onChecked={(cue) => change({ sound: { ...s().sound, cue } })}
        />
      </Part>
      <Part title={SETTINGS.reaction} note={SETTINGS.reactionText}>
        <div class="fields">
          <NumberField
            label={SETTINGS.handS}
            unit="s"
            testId="hand-s"
            value={s().reaction.handS}
            rules={REACTION_LIMITS.handS}
            onValue={(v) => v !== null && change({ reaction: { ...s().reaction, handS: v } })}
          />
          <NumberField
            label={SETTINGS.closeS}
            unit="s"
            testId="close-s"
            value={s().reaction.closeS}
            rules={REACTION_LIMITS.closeS}
            onValue={(v) => v !== null && change({ reaction: { ...s().reaction, closeS: v } })}
          />
        </div>
      </Part>
      <DialGaugePart />
      <Part title={SETTINGS.firm}>
        <TextField
          label={SETTINGS.firm}
          value={s().firm}
          onValue={(firm) => change({ firm: firm.slice(0, 120) })}
        />
      </Part>
      <Part title={BACKUP.title}>
        <div class="row">
          <a class="button grow" href="#/backup" data-testid="to-backup">
            {BACKUP.link}
          </a>
          <a class="button grow" href="#/office" data-testid="to-office">
            {OFFICE.link}
          </a>
        </div>
      </Part>
      <Suspense>
        <Keys />
      </Suspense>
    </div>
  );
}
