import { createSignal, For, Show } from 'solid-js';
import { ENTRIES, MOST_TEXT } from '../../job/entries.ts';
import type { WatchEvent } from '../../watch/events.ts';
import type { Command } from '../../watch/inputs.ts';
import { Confirm } from '../../widgets/Dialog.tsx';
import { TextField, Tick } from '../../widgets/Fields.tsx';
import { NumberField } from '../../widgets/NumberField.tsx';
import { duration, pressure, temperature } from '../../words/format.ts';
import { LIVE } from '../../words/live.ts';
import { PLACE } from '../../words/terms.ts';
import { useServices } from '../context.ts';
import { witnessOf } from './stage-doubts.ts';

/** Small tasks of the stages. Each is one command; the answer comes back as an event and is shown beside it. */

function useCommand() {
  const app = useServices();
  return (command: Command) => void app.ask({ q: 'command', command }).catch(app.fail);
}

/** The moment of mixing starts the pot life. */
export function Mixed() {
  const app = useServices();
  const send = useCommand();
  return (
    <Show when={app.live.setup()?.resin !== null}>
      <Show
        when={app.live.view()?.mixedUs == null}
        fallback={
          <p class="small muted">
            {app.live.view()?.potLifeLeftS == null
              ? LIVE.mixedAt
              : LIVE.mixedPotLife(duration(app.live.view()?.potLifeLeftS))}
          </p>
        }
      >
        <button type="button" class="button wide" data-testid="mixed" onClick={() => send({ c: 'mixed' })}>
          {LIVE.mixed}
        </button>
      </Show>
    </Show>
  );
}

/** Dial gauge against transducer at the seat pause: the second opinion on the one sensor. */
export function GaugeCheck() {
  const app = useServices();
  const send = useCommand();
  const [bar, setBar] = createSignal<number | null>(null);
  const last = () => app.live.events().findLast((e) => e.e === 'gauge');
  return (
    <fieldset class="task">
      <legend>{LIVE.gaugeTitle}</legend>
      <p class="small">{LIVE.gaugeText}</p>
      <div class="row task-row">
        <NumberField
          label={LIVE.gaugeValue}
          rules={ENTRIES.gaugeBar}
          units={app.units()}
          value={bar()}
          onValue={setBar}
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
        <p class="small">{LIVE.warmText}</p>
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

/** A fast fall in a hold asks one question. */
export function Question() {
  const app = useServices();
  const send = useCommand();
  const answer = (a: 'let-down' | 'loss') => send({ c: 'answer', question: 'let-down-or-loss', answer: a });
  return (
    <Show when={app.live.view()?.question === 'let-down-or-loss'}>
      <div class="question" role="alertdialog" aria-label={LIVE.question} data-testid="question">
        <p>{LIVE.question}</p>
        <div class="row">
          <button
            type="button"
            class="button grow"
            data-testid="answer-let-down"
            onClick={() => answer('let-down')}
          >
            {LIVE.answerLetDown}
          </button>
          <button type="button" class="button grow" data-testid="answer-loss" onClick={() => answer('loss')}>
            {LIVE.answerLoss}
          </button>
        </div>
      </div>
    </Show>
  );
}

/** The sample kept at pipe temperature, felt before let-down. What was noted is said; its contrary is asked. */
export function Witness() {
  const app = useServices();
  const send = useCommand();
  const [there, setThere] = createSignal(false);
  const [asking, setAsking] = createSignal<boolean | null>(null);
  const noted = () => witnessOf(app.live.events(), app.live.view()?.attempt ?? 1);
  const note = (hard: boolean) => {
    setAsking(null);
    send({ c: 'witness', hard, atPipeTemperature: there() });
  };
  const press = (hard: boolean) => {
    const before = noted();
    if (before !== null && before.hard !== hard) setAsking(hard);
    else note(hard);
  };
  return (
    <fieldset class="task">
      <legend>{LIVE.witnessTitle}</legend>
      <p class="small">{LIVE.witnessText}</p>
      <Tick label={LIVE.witnessPlace} checked={there()} onChecked={setThere} testId="witness-place" />
      <div class="row">
        <For each={[true, false]}>
          {(hard) => (
            <button
              type="button"
              class="button grow"
              data-testid={hard ? 'witness-hard' : 'witness-soft'}
              aria-pressed={noted()?.hard === hard}
              onClick={() => press(hard)}
            >
              {hard ? LIVE.witnessHard : LIVE.witnessSoft}
            </button>
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
      <Confirm
        open={asking() !== null}
        title={LIVE.witnessAgain}
        text={asking() === true ? LIVE.witnessWasSoft : LIVE.witnessWasHard}
        yes={asking() === true ? LIVE.witnessHard : LIVE.witnessSoft}
        onYes={() => note(asking() === true)}
        onNo={() => setAsking(null)}
      />
    </fieldset>
  );
}

/** What the last of the rebound test says; one that began is told by its count-down. */
const REBOUND_SAID: Readonly<Record<Extract<WatchEvent, { e: 'rebound' }>['what'], string>> = {
  started: '',
  stayed: LIVE.reboundStayed,
  'came-back': LIVE.reboundBack,
  'broken-off': LIVE.reboundBroken,
};

/** Vent, close, wait: a line at zero is not an empty packer. */
export function Vent() {
  const app = useServices();
  const send = useCommand();
  const rebound = () => app.live.view()?.rebound ?? null;
  const last = () => app.live.events().findLast((e) => e.e === 'rebound');
  // Of this stage only: what was said of the vent before it is over.
  const [opened, setOpened] = createSignal<number | null>(null);
  const saidOpen = () => opened() !== null && opened() === app.live.view()?.stageSinceUs;
  const open = () =>
    void app
      .ask({ q: 'command', command: { c: 'vent', open: true } })
      .then(() => setOpened(app.live.view()?.stageSinceUs ?? null), app.fail);
  const shut = () => {
    setOpened(null);
    send({ c: 'vent', open: false });
  };
  const left = () => {
    const r = rebound();
    const v = app.live.view();
    return r === null || v === null ? null : Math.max(0, r.needS - (v.tUs - r.sinceUs) / 1e6);
  };
  return (
    <fieldset class="task" data-testid="rebound">
      <legend>{LIVE.ventTitle}</legend>
      <p class="small">{LIVE.ventText}</p>
      <div class="row">
        <button
          type="button"
          class="button grow"
          data-testid="vent-open"
          aria-pressed={saidOpen()}
          onClick={open}
        >
          {LIVE.ventOpen}
        </button>
        <button
          type="button"
          class="button grow"
          data-testid="vent-close"
          aria-pressed={rebound() !== null}
          onClick={shut}
        >
          {LIVE.ventClosed}
        </button>
      </div>
      <Show
        when={rebound() !== null}
        fallback={
          <Show
            when={saidOpen()}
            fallback={
              <Show when={last()} keyed>
                {(e) =>
                  e.e === 'rebound' && (
                    <p class="note strong" role="status" data-testid="rebound-result" data-what={e.what}>
                      {REBOUND_SAID[e.what]}
                    </p>
                  )
                }
              </Show>
            }
          >
            <p class="note strong" role="status" data-testid="vent-noted">
              {LIVE.ventNoted}
            </p>
          </Show>
        }
      >
        <p class="note strong" role="status">
          {LIVE.reboundWait(duration(Math.ceil(left() ?? 0)))}
        </p>
      </Show>
    </fieldset>
  );
}
