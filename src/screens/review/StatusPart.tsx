import { createSignal, For, Show } from 'solid-js';
import type { RecordRef, ReviewStatus, StatusLine } from '../../evidence/messages.ts';
import { TextField } from '../../widgets/Fields.tsx';
import { EVIDENCE as E } from '../../words/evidence.ts';
import { dateTimeZone } from '../../words/format.ts';
import { useServices } from '../context.ts';

/** Accepted or rejected, by whom and when; beside the record, never in it. Both weigh the same. */
export function StatusPart(props: {
  source: RecordRef;
  /** Oldest first. */
  lines: readonly StatusLine[];
  /** Whoever accepts it says why. */
  asksReason: boolean;
  onChange(lines: readonly StatusLine[]): void;
}) {
  const app = useServices();
  const [reason, setReason] = createSignal('');
  const [by, setBy] = createSignal('');
  const [issue, setIssue] = createSignal<'rejection' | 'acceptance' | 'name' | null>(null);
  const now = () => props.lines.at(-1) ?? null;
  const set = (status: ReviewStatus) => {
    if (by().trim() === '') return setIssue('name');
    if (status === 'rejected' && reason().trim() === '') return setIssue('rejection');
    if (status === 'released' && reason().trim() === '' && props.asksReason) return setIssue('acceptance');
    setIssue(null);
    app.evidence({ q: 'set-status', ref: props.source, status, reason: reason(), by: by() }).then((lines) => {
      setReason('');
      props.onChange(lines);
    }, app.fail);
  };
  const line = (l: StatusLine) =>
    `${E.statuses[l.status]}, ${dateTimeZone(l.utcMs)}, ${l.by}${l.reason === '' ? '' : `: ${l.reason}`}`;
  return (
    <section class="decision" aria-label={E.reviewTitle}>
      <p data-testid="review-status">
        <strong>{now() === null ? E.statuses.open : line(now()!)}</strong>
      </p>
      <div class="decision-fields no-print">
        <TextField
          label={E.reviewer}
          testId="review-by"
          value={by()}
          offers={(app.settings().people ?? []).map((p) => p.name)}
          issue={issue() === 'name' ? E.nameNeeded : null}
          onValue={setBy}
        />
        <TextField
          label={E.reason}
          testId="review-reason"
          value={reason()}
          issue={
            issue() === 'rejection' ? E.reasonNeeded : issue() === 'acceptance' ? E.acceptReasonNeeded : null
          }
          onValue={setReason}
        />
      </div>
      <div class="decision-keys no-print">
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
      <p class="small">{E.statusNote}</p>
      <Show when={props.lines.length > 1}>
        <details class="small">
          <summary>{E.history}</summary>
          <ul class="dots">
            <For each={props.lines.slice(0, -1).reverse()}>{(l) => <li>{line(l)}</li>}</For>
          </ul>
        </details>
      </Show>
    </section>
  );
}
