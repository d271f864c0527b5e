import { createSignal, Show } from 'solid-js';
import type { KnownSigner } from '../../evidence/keys/messages.ts';
import { TextField } from '../../widgets/Fields.tsx';
import { EVIDENCE as E } from '../../words/evidence.ts';
import { dateTime } from '../../words/format.ts';
import { failed, useServices } from '../context.ts';
import { dayOf, startOf } from './days.ts';

/** For which times a known key counts, as it stands and to be changed. */
export function KeyTermForm(props: { of: KnownSigner; onChanged(list: readonly KnownSigner[]): void }) {
  const app = useServices();
  const term = () => props.of.term;
  const [open, setOpen] = createSignal(false);
  const [from, setFrom] = createSignal(dayOf(term().fromUtcMs, 0));
  const [until, setUntil] = createSignal(dayOf(term().untilUtcMs, -1));
  const [revoked, setRevoked] = createSignal(dayOf(term().revokedUtcMs, 0));
  const [by, setBy] = createSignal('');
  const wanted = () => ({
    fromUtcMs: startOf(from(), 0),
    untilUtcMs: startOf(until(), 1),
    revokedUtcMs: startOf(revoked(), 0),
  });
  const wrong = () => {
    const { fromUtcMs, untilUtcMs } = wanted();
    return fromUtcMs !== null && untilUtcMs !== null && untilUtcMs <= fromUtcMs;
  };
  const { fingerprint } = props.of;
  const ask = async (work: Promise<readonly KnownSigner[]>) => {
    const list = await work.catch(failed(app));
    if (list === null) return;
    setOpen(false);
    props.onChanged(list);
  };
  return (
    <div class="stack">
      <TermText of={props.of} />
      <Show
        when={open()}
        fallback={
          <button type="button" class="button quiet" data-testid="key-term" onClick={() => setOpen(true)}>
            {E.term.open}
          </button>
        }
      >
        <fieldset class="fields" aria-label={E.term.title(props.of.name)}>
          <TextField label={E.term.from} type="date" testId="term-from" value={from()} onValue={setFrom} />
          <TextField
            label={E.term.until}
            type="date"
            testId="term-until"
            value={until()}
            issue={wrong() ? E.term.wrong : null}
            onValue={setUntil}
          />
          <TextField
            label={E.term.revoked}
            type="date"
            testId="term-revoked"
            value={revoked()}
            onValue={setRevoked}
          />
        </fieldset>
        <p class="note">{E.term.what}</p>
        <div class="row">
          <button
            type="button"
            class="button"
            data-testid="term-save"
            disabled={wrong()}
            onClick={() => void ask(app.evidence({ q: 'signer-term', fingerprint, term: wanted() }))}
          >
            {E.term.save}
          </button>
        </div>
        <TextField label={E.term.replaceBy} testId="term-by" value={by()} onValue={setBy} />
        <div class="row">
          <button
            type="button"
            class="button quiet"
            data-testid="term-replace"
            disabled={by().trim() === ''}
            onClick={() =>
              void ask(app.evidence({ q: 'replace-signer', fingerprint, by: by(), utcMs: Date.now() }))
            }
          >
            {E.term.replace}
          </button>
        </div>
      </Show>
    </div>
  );
}

function TermText(props: { of: KnownSigner }) {
  const t = () => props.of.term;
  const lines = () => [
    ...(t().fromUtcMs === null ? [] : [E.term.fromThe(dateTime(t().fromUtcMs ?? 0))]),
    ...(t().untilUtcMs === null ? [] : [E.term.untilThe(dateTime(t().untilUtcMs ?? 0))]),
    ...(t().revokedUtcMs === null ? [] : [E.term.revokedThe(dateTime(t().revokedUtcMs ?? 0))]),
    ...(props.of.replacedBy === null ? [] : [E.term.replaced]),
  ];
  return (
    <Show when={lines().length > 0}>
      <p class="muted" data-testid="key-term-text">
        {lines().join(' ')}
      </p>
    </Show>
  );
}
