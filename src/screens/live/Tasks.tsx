import { createSignal, For, Show } from 'solid-js';
import { ENTRIES, MOST_TEXT } from '../../job/entries.ts';
import type { Command } from '../../watch/inputs.ts';
import { TextField, Tick } from '../../widgets/Fields.tsx';
import { Key } from '../../widgets/Key.tsx';
import { NumberField } from '../../widgets/NumberField.tsx';
import { FACE } from '../../words/face.ts';
import { pressure, temperature } from '../../words/format.ts';
import { LIVE } from '../../words/live.ts';
import { PLACE } from '../../words/terms.ts';
import { useServices } from '../context.ts';
import { Help } from '../help/Help.tsx';
import type { More } from './more/state.ts';
import { sampleDoubtOf, witnessOf } from './stage-doubts.ts';

/** Small tasks of the stages. Each is one command; the answer comes back as an event and is shown beside it. */

function useCommand() {
  const app = useServices();
  return (command: Command) => void app.ask({ q: 'command', command }).catch(app.fail);
}

/** Dial gauge against transducer at the seat pause: the second opinion on the one sensor. */
export function GaugeCheck(props: { more: Pick<More, 'gaugeBar' | 'typeGauge'> }) {
  const app = useServices();
  const send = useCommand();
  const bar = () => props.more.gaugeBar();
  const last = () => app.live.events().findLast((e) => e.e === 'gauge');
  return (
    <fieldset class="task">
      <legend>{LIVE.gaugeTitle}</legend>
      <div class="with-help">
        <p class="small">{LIVE.gaugeText}</p>
        <Help about="gauge" of={LIVE.gaugeTitle} />
      </div>
      <div class="row task-row">
        <NumberField
          label={LIVE.gaugeValue}
          rules={ENTRIES.gaugeBar}
          units={app.units()}
          value={bar()}
          onValue={(value) => props.more.typeGauge(value)}
          testId="gauge-value"
        />
        <button
          type="button"
          class="button"
          data-testid="gauge-send"
          disabled={bar() === null}
          onClick={() => {
            const value = bar();
            if (value !== null) send({ c: 'gauge', bar: value });
          }}
        >
          {LIVE.gaugeSend}
        </button>
      </div>
      <Show when={last()} keyed>
        {(e) =>
          e.e === 'gauge' && (
            <p class="small" role="status" data-testid="gauge-result">
              {LIVE.gaugeResult(pressure(e.gaugeBar, app.units()), pressure(e.readingBar, app.units()))}{' '}
              {e.agrees === true ? LIVE.agrees : e.agrees === false ? <strong>{LIVE.differs}</strong> : ''}
            </p>
          )
        }
      </Show>
    </fieldset>
  );
}

/** Probe and thermometer together in the hand: finds shorted, reversed and mistaken thermocouples. */
export function WarmCheck() {
  const app = useServices();
  const send = useCommand();
  const [values, setValues] = createSignal<Readonly<Record<string, number | null>>>({});
  const places = () => [
    ...new Set((app.live.view()?.temps ?? []).flatMap((t) => (t.place === null ? [] : [t.place]))),
  ];
  const last = (place: string) =>
    app.live.events().findLast((e) => e.e === 'warm-check' && e.place === place);
  return (
    <Show when={places().length > 0}>
      <details class="task">
        <summary>{LIVE.warmTitle}</summary>
        <div class="with-help">
          <p class="small">{LIVE.warmText}</p>
          <Help about="probe" of={LIVE.warmTitle} />
        </div>
        <For each={places()}>
          {(place) => (
            <div class="row task-row">
              <NumberField
                label={LIVE.warmValue(PLACE[place])}
                rules={ENTRIES.thermometerC}
                units={app.units()}
                value={values()[place] ?? null}
                onValue={(v) => setValues({ ...values(), [place]: v })}
                testId={`warm-${place}`}
              />
              <button
                type="button"
                class="button"
                data-testid={`warm-send-${place}`}
                disabled={(values()[place] ?? null) === null}
                onClick={() => {
                  const c = values()[place] ?? null;
                  if (c !== null) send({ c: 'warm-check', place, thermometerC: c });
                }}
              >
                {LIVE.warmSend}
              </button>
              <Show when={last(place)} keyed>
                {(e) =>
                  e.e === 'warm-check' && (
                    <span class="small" role="status">
                      {temperature(e.readingC, app.units())}.{' '}
                      {e.agrees === true ? (
                        LIVE.agrees
                      ) : e.agrees === false ? (
                        <strong>{LIVE.differs}</strong>
                      ) : (
                        ''
                      )}
                    </span>
                  )
                }
              </Show>
            </div>
          )}
        </For>
      </details>
    </Show>
  );
}

/** A line in the operator's own words, into the record. */
export function Note() {
  const send = useCommand();
  const [text, setText] = createSignal('');
  return (
    <div class="row task-row">
      <div class="grow">
        <TextField label={LIVE.note} value={text()} onValue={setText} testId="note-text" />
      </div>
      <button
        type="button"
        class="button"
        data-testid="note-add"
        disabled={text().trim() === ''}
        onClick={() => {
          send({ c: 'note', text: text().trim().slice(0, MOST_TEXT) });
          setText('');
        }}
      >
        {LIVE.noteAdd}
      </button>
    </div>
  );
}

/** The sample kept at pipe temperature, felt before let-down. What was noted is said; its contrary is held. */
export function Witness() {
  const app = useServices();
  const send = useCommand();
  const [there, setThere] = createSignal(false);
  const noted = () => witnessOf(app.live.events(), app.live.view()?.attempt ?? 1);
  const doubt = () => sampleDoubtOf(app.live.events(), app.live.view()?.attempt ?? 1);
  const isContrary = (hard: boolean) => {
    const before = noted();
    return before !== null && before.hard !== hard;
  };
  return (
    <fieldset class="task">
      <legend>{LIVE.witnessTitle}</legend>
      <div class="with-help">
        <p class="small">{LIVE.witnessText}</p>
        <Help about="sample" of={LIVE.witnessTitle} />
      </div>
      <Tick label={LIVE.witnessPlace} checked={there()} onChecked={setThere} testId="witness-place" />
      <div class="row">
        <For each={[true, false]}>
          {(hard) => (
            <Key
              class="grow"
              means={String(hard)}
              hold={isContrary(hard)}
              data-testid={hard ? 'witness-hard' : 'witness-soft'}
              aria-pressed={noted()?.hard === hard}
              onPress={() => send({ c: 'witness', hard, atPipeTemperature: there() })}
            >
              <span>{hard ? LIVE.witnessHard : LIVE.witnessSoft}</span>
              <Show when={isContrary(hard)}>
                <small>{FACE.hold}</small>
              </Show>
            </Key>
          )}
        </For>
      </div>
      <Show when={noted()} keyed>
        {(e) => (
          <p class="note strong" role="status" data-testid="witness-noted">
            {!e.hard ? LIVE.notedSoft : e.atPipeTemperature ? LIVE.notedHard : LIVE.notedWarm}
          </p>
        )}
      </Show>
      <Show when={doubt()}>
        {(d) => (
          <p class="field-note wrong-note" role="status" data-testid="witness-doubt">
            {LIVE.sampleDoubt[d()]}
          </p>
        )}
      </Show>
    </fieldset>
  );
}
