import { createSignal, For, Show } from 'solid-js';
import { Key } from '../../widgets/Key.tsx';
import { FACE } from '../../words/face.ts';
import { LIVE } from '../../words/live.ts';
import { UI } from '../../words/ui.ts';
import { useServices } from '../context.ts';
import { AgainstReading } from '../runs/AgainstReading.tsx';
import { pressedText } from '../runs/pressed-text.ts';
import { saveBlob } from '../save.ts';
import { endsUnseen } from './pressed.ts';
import type { Start } from './start.ts';

/** Above this the line is not called empty when a run is ended, bar. */
const NOT_ZERO_BAR = 0.05;

/** The way out of a run: held, and refused while a part of the record is not at rest anywhere. */
export function EndRun(props: { start: Start }) {
  const { live, units } = useServices();
  const [asked, setAsked] = createSignal(false);
  /** What the line reads, where that is no empty packer. */
  const contradicts = () => pressedText(live.view(), units());
  const endBy = (i: number) => {
    if (i !== LIVE.endedEmpty) props.start.endRun(LIVE.endReasons[i] ?? null);
    else if (contradicts() !== null) setAsked(true);
    else props.start.endRun(LIVE.endReasons[i] ?? null, false, true);
  };
  const underPressure = () => {
    const bar = live.view()?.bar ?? null;
    return bar === null || bar > NOT_ZERO_BAR;
  };
  return (
    <Show
      when={props.start.unwritten()}
      fallback={
        <div class="stack">
          <Show when={underPressure()}>
            <p class="note strong">{LIVE.endUnderPressure}</p>
          </Show>
          <p class="small muted">{LIVE.endText}</p>
          <Show
            when={endsUnseen(live.view())}
            fallback={
              <Key
                class="wide"
                means="end"
                hold
                data-testid="end-run"
                onPress={() => props.start.endRun(null)}
              >
                <span>{FACE.endHold}</span>
              </Key>
            }
          >
            <Show
              when={asked() && contradicts()}
              fallback={
                <>
                  <p class="note strong">{LIVE.endWhy}</p>
                  <For each={LIVE.endReasons}>
                    {(reason, i) => (
                      <Key
                        class="wide"
                        means={`end ${reason}`}
                        hold
                        data-testid={i() === 0 ? 'end-run' : `end-reason-${i()}`}
                        onPress={() => endBy(i())}
                      >
                        <span>{reason}</span>
                        <small>{FACE.hold}</small>
                      </Key>
                    )}
                  </For>
                </>
              }
            >
              {(reads) => (
                <AgainstReading
                  reads={reads()}
                  means="end"
                  onBack={() => setAsked(false)}
                  onSay={() => props.start.endRun(LIVE.endedAgainst(reads()), false, true)}
                />
              )}
            </Show>
          </Show>
        </div>
      }
    >
      <Unwritten start={props.start} />
    </Show>
  );
}

/** The store takes no pages: the run goes on until it does, or until the crew has them as a file. */
function Unwritten(props: { start: Start }) {
  const app = useServices();
  const [saved, setSaved] = createSignal<string | null>(null);
  const runId = () => app.live.run()?.runId ?? null;
  const save = () => {
    const id = runId();
    if (id === null) return;
    app.runs.openPages(id).then((pages) => {
      saveBlob(`${id}.pages`, pages);
      setSaved(id);
    }, app.fail);
  };
  return (
    <Show when={props.start.unwritten()}>
      {(why) => (
        <section class="stack" role="alert" data-testid="unwritten">
          <h2>{LIVE.unwrittenTitle}</h2>
          <p class="note strong">
            {why().title}. {why().todo}
          </p>
          <p>{LIVE.unwrittenText}</p>
          <button type="button" class="button wide" data-testid="go-on" onClick={() => props.start.goOn()}>
            {UI.back}
          </button>
          <button type="button" class="button wide" data-testid="save-pages" onClick={save}>
            {LIVE.savePages}
          </button>
          <button
            type="button"
            class="button wide"
            data-testid="end-without"
            disabled={saved() === null || saved() !== runId()}
            onClick={() => props.start.endRun(null, true)}
          >
            {LIVE.endWithout}
          </button>
        </section>
      )}
    </Show>
  );
}
