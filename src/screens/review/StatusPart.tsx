import { createSignal, For, Show } from 'solid-js';
import type { RecordView, ReviewStatus } from '../../evidence/messages.ts';
import { Part, TextField } from '../../widgets/Fields.tsx';
import { EVIDENCE as E } from '../../words/evidence.ts';
import { dateTime } from '../../words/format.ts';
import { useServices } from '../context.ts';

/** Released or rejected, by whom and when; beside the record, never in it. */
export function StatusPart(props: { record: RecordView; onChange(): void }) {
  const app = useServices();
  const [reason, setReason] = createSignal('');
  const [by, setBy] = createSignal('');
  const [issue, setIssue] = createSignal<'reason' | 'name' | null>(null);
  const lines = () => props.record.statuses;
  const now = () => lines().at(-1) ?? null;
  const set = (status: ReviewStatus) => {
    if (by().trim() === '') return setIssue('name');
    if (status === 'rejected' && reason().trim() === '') return setIssue('reason');
    setIssue(null);
    app.evidence({ q: 'set-status', ref: props.record.ref, status, reason: reason(), by: by() }).then(() => {
      setReason('');
      props.onChange();
    }, app.fail);
  };
  const line = (l: NonNullable<ReturnType<typeof now>>) =>
    `${E.statuses[l.status]}, ${dateTime(l.utcMs)}, ${l.by}${l.reason === '' ? '' : `: ${l.reason}`}`;
  return (
    <Part title={E.reviewTitle} note={E.statusNote}>
      <p data-testid="review-status">
        <strong>{now() === null ? E.statuses.open : line(now()!)}</strong>
      </p>
      <Show when={lines().length > 1}>
        <p class="small muted">{E.history}</p>
        <ul class="dots small">
          <For each={lines().slice(0, -1).reverse()}>{(l) => <li>{line(l)}</li>}</For>
        </ul>
      </Show>
      <div class="fields no-print">
        <TextField
          label={E.reviewer}
          testId="review-by"
          value={by()}
          issue={issue() === 'name' ? E.nameNeeded : null}
          onValue={setBy}
        />
        <TextField
          label={E.reason}
          testId="review-reason"
          value={reason()}
          issue={issue() === 'reason' ? E.reasonNeeded : null}
          onValue={setReason}
        />
      </div>
      <div class="row no-print">
        <button type="button" class="button" data-testid="release" onClick={() => set('released')}>
          {E.release}
        </button>
        <button type="button" class="button" data-testid="reject" onClick={() => set('rejected')}>
          {E.reject}
        </button>
        <Show when={now() !== null && now()?.status !== 'open'}>
          <button type="button" class="button quiet" data-testid="reopen" onClick={() => set('open')}>
            {E.reopen}
          </button>
        </Show>
      </div>
    </Part>
  );
}
