import { createSignal, Show } from 'solid-js';
import { Confirm, Dialog } from '../../widgets/Dialog.tsx';
import { LIVE } from '../../words/live.ts';
import { UI } from '../../words/ui.ts';
import { useServices } from '../context.ts';
import { saveBlob } from '../save.ts';
import type { Start } from './start.ts';

/** Above this the line is not called empty when a run is ended, bar. */
const NOT_ZERO_BAR = 0.05;

/** The way out of a run: asked before, and refused while a part of the record is not at rest anywhere. */
export function EndRun(props: { start: Start }) {
  const { live } = useServices();
  const [asking, setAsking] = createSignal(false);
  const underPressure = () => {
    const bar = live.view()?.bar ?? null;
    return bar === null || bar > NOT_ZERO_BAR;
  };
  return (
    <>
      <button type="button" class="button" data-testid="end-run" onClick={() => setAsking(true)}>
        {LIVE.endRun}
      </button>
      <Confirm
        open={asking()}
        title={LIVE.endTitle}
        text={underPressure() ? `${LIVE.endUnderPressure} ${LIVE.endText}` : LIVE.endText}
        yes={LIVE.endRun}
        onYes={() => {
          setAsking(false);
          props.start.endRun();
        }}
        onNo={() => setAsking(false)}
      />
      <Unwritten start={props.start} />
    </>
  );
}

/** The store takes no pages: the run goes on until it does, or until the crew has them as a file. */
function Unwritten(props: { start: Start }) {
  const app = useServices();
  const [saved, setSaved] = createSignal<string | null>(null);
  const runId = () => app.live.run()?.runId ?? null;
  const save = () => {
    const id = runId();
    app.runs.openPages().then((pages) => {
      saveBlob(`${id}.pages`, pages);
      setSaved(id);
    }, app.fail);
  };
  return (
    <Show when={props.start.unwritten()}>
      {(why) => (
        <Dialog
          open
          title={LIVE.unwrittenTitle}
          testId="unwritten"
          onClose={() => props.start.goOn()}
          actions={
            <>
              <button type="button" class="button" autofocus onClick={() => props.start.goOn()}>
                {UI.back}
              </button>
              <button type="button" class="button" data-testid="save-pages" onClick={save}>
                {LIVE.savePages}
              </button>
              <button
                type="button"
                class="button"
                data-testid="end-without"
                disabled={saved() === null || saved() !== runId()}
                onClick={() => props.start.endRun(true)}
              >
                {LIVE.endWithout}
              </button>
            </>
          }
        >
          <p class="note strong">
            {why().title}. {why().todo}
          </p>
          <p>{LIVE.unwrittenText}</p>
        </Dialog>
      )}
    </Show>
  );
}
