import { For, lazy, Show, Suspense } from 'solid-js';
import { numberAt, textAt } from '../../job/documents.ts';
import { Part, TextField } from '../../widgets/Fields.tsx';
import { BACKUP } from '../../words/backup.ts';
import { LENGTH_UNIT, PRESSURE_UNIT, TEMPERATURE_UNIT } from '../../words/fields.ts';
import { percent } from '../../words/format.ts';
import { OFFICE } from '../../words/office.ts';
import { FIRM } from '../../words/photos.ts';
import { SETTINGS } from '../../words/settings.ts';
import { NO_SOUND, SOUND_NAME, type SoundCode } from '../../words/sound.ts';
import { UI } from '../../words/ui.ts';
import { WITNESS } from '../../words/witness.ts';
import { useServices } from '../context.ts';
import { FormChoice, FormNumber, FormTick } from '../documents/FormFields.tsx';
import { formOver } from '../documents/form.ts';
import { changeSettings } from './change.ts';
import { DialGaugePart } from './DialGaugePart.tsx';
import { MarkPart } from './MarkPart.tsx';
import { PeoplePart } from './PeoplePart.tsx';
import { WordingPart } from './WordingPart.tsx';

const Keys = lazy(async () => ({ default: (await import('../verify/Keys.tsx')).Keys }));

const SOUNDS = Object.keys(SOUND_NAME) as readonly SoundCode[];

/** The urgent alarm is never silent: its share of full volume has a floor. */
const VOLUME = numberAt('settings', 'sound.volume');

/** How the program looks, sounds and counts for this tablet; and the way to packers, resins and sensors. */
export function Settings() {
  const app = useServices();
  const s = app.settings;
  const form = formOver('settings', s, (next) => changeSettings(app, next), app.units);
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
        <div class="row">
          <a class="button grow" href="#/registers" data-testid="registers">
            {SETTINGS.registers}
          </a>
          <a class="button grow" href="#/columns" data-testid="columns">
            {SETTINGS.columns}
          </a>
          <a class="button grow" href="#/checklist" data-testid="checklists">
            {SETTINGS.checklists}
          </a>
        </div>
        <div class="row">
          <a class="button grow" href="#/card" data-testid="to-card">
            {UI.card}
          </a>
        </div>
      </Part>
      <Part title={SETTINGS.look}>
        <div class="fields">
          <FormChoice form={form} at="theme" label={SETTINGS.theme} words={SETTINGS.themes} />
          <FormChoice form={form} at="units.pressure" label={SETTINGS.unitPressure} words={PRESSURE_UNIT} />
          <FormChoice
            form={form}
            at="units.temperature"
            label={SETTINGS.unitTemperature}
            words={TEMPERATURE_UNIT}
          />
          <FormChoice form={form} at="units.length" label={SETTINGS.unitLength} words={LENGTH_UNIT} />
        </div>
        <WordingPart form={form} />
      </Part>
      <Part title={SETTINGS.sound} note={SETTINGS.soundText}>
        <Show when={app.sound.state()}>{(why) => <p class="note strong">{NO_SOUND[why()]}</p>}</Show>
        <div class="row">
          <For each={SOUNDS}>
            {(p) => (
              <button
                type="button"
                class="button"
                data-testid={`sound-${p}`}
                onClick={() => app.sound.play(p)}
              >
                {SOUND_NAME[p]}
              </button>
            )}
          </For>
        </div>
        <div class="field">
          <label for="volume">
            {SETTINGS.volume} <span class="field-unit">{percent(s().sound.volume)}</span>
          </label>
          <input
            id="volume"
            type="range"
            min={VOLUME.lo}
            max={VOLUME.hi}
            step="0.05"
            value={s().sound.volume}
            onChange={(e) => form.write('sound.volume', Number(e.currentTarget.value))}
          />
        </div>
        <FormTick form={form} at="sound.cue" label={SETTINGS.cueSound} />
        <FormTick form={form} at="sound.speech" label={SETTINGS.speech} />
        <Show when={app.sound.speech() === 'no-voice'}>
          <p class="note strong" role="status" data-testid="no-voice">
            {SETTINGS.noVoice}
          </p>
        </Show>
        <FormTick form={form} at="sound.vibration" label={SETTINGS.vibration} />
        <Show when={!app.sound.vibrates}>
          <p class="small muted">{SETTINGS.noVibration}</p>
        </Show>
      </Part>
      <Part title={SETTINGS.reaction} note={SETTINGS.reactionText}>
        <div class="fields">
          <FormNumber form={form} at="reaction.handS" label={SETTINGS.handS} />
          <FormNumber form={form} at="reaction.closeS" label={SETTINGS.closeS} />
        </div>
      </Part>
      <DialGaugePart />
      <Part title={FIRM.far} note={FIRM.farText}>
        <div class="row">
          {/* A window of its own, to be moved to the other display. */}
          <a class="button grow" href="#/far" target="_blank" rel="noopener" data-testid="to-far">
            {FIRM.farOpen}
          </a>
        </div>
      </Part>
      <PeoplePart />
      <Part title={SETTINGS.firm}>
        <TextField
          label={SETTINGS.firm}
          value={s().firm}
          onValue={(firm) => form.write('firm', firm.slice(0, textAt('settings', 'firm').most))}
        />
        <MarkPart />
      </Part>
      <Part title={BACKUP.title}>
        <div class="row">
          <a class="button grow" href="#/backup" data-testid="to-backup">
            {BACKUP.link}
          </a>
          <a class="button grow" href="#/office" data-testid="to-office">
            {OFFICE.link}
          </a>
          <a class="button grow" href="#/log" data-testid="to-log">
            {WITNESS.link}
          </a>
        </div>
      </Part>
      <Suspense>
        <Keys />
      </Suspense>
    </div>
  );
}
