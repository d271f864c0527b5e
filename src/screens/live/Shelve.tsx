import { createEffect, createSignal, on } from 'solid-js';
import type { AlarmCode } from '../../watch/codes.ts';
import { Dialog } from '../../widgets/Dialog.tsx';
import { TextField } from '../../widgets/Fields.tsx';
import { ALARM_TITLE } from '../../words/alarm-titles.ts';
import { UI } from '../../words/ui.ts';
import { useServices } from '../context.ts';

const SHELVE_S = 600;

/** Puts an alarm aside for ten minutes, with a reason that is recorded. */
export function Shelve(props: { alarm: AlarmCode | null; onDone(): void }) {
  const app = useServices();
  const [reason, setReason] = createSignal('');
  createEffect(
    on(
      () => props.alarm,
      () => setReason(''),
    ),
  );
  const shelve = () => {
    const alarm = props.alarm;
    if (alarm === null) return;
    void app
      .ask({ q: 'command', command: { c: 'shelve', alarm, seconds: SHELVE_S, reason: reason().trim() } })
      .catch(app.fail);
    props.onDone();
  };
  return (
    <Dialog
      open={props.alarm !== null}
      title={UI.shelveTitle}
      onClose={() => props.onDone()}
      actions={
        <>
          <button type="button" class="button" onClick={() => props.onDone()}>
            {UI.cancel}
          </button>
          <button type="button" class="button primary" disabled={reason().trim() === ''} onClick={shelve}>
            {UI.shelve}
          </button>
        </>
      }
    >
      <p>
        <strong>{props.alarm === null ? '' : ALARM_TITLE[props.alarm]}</strong>. {UI.shelveText}
      </p>
      <TextField label={UI.shelveReason} value={reason()} onValue={setReason} />
    </Dialog>
  );
}
