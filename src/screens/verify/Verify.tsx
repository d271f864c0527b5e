import { createSignal, For, onCleanup, Show } from 'solid-js';
import { type EvidenceAnswers, parseFingerprint, type VerifyView } from '../../evidence/messages.ts';
import { TextField } from '../../widgets/Fields.tsx';
import { FileKey } from '../../widgets/FileKey.tsx';
import {
  EVIDENCE as E,
  findingText,
  progressText,
  remarkText,
  reservedText,
  signerText,
  VERDICT,
} from '../../words/evidence.ts';
import { bytes, count, dateTimeZone, NO_VALUE } from '../../words/format.ts';
import { UI } from '../../words/ui.ts';
import { WITNESS } from '../../words/witness.ts';
import { useServices } from '../context.ts';
import { Fingerprint } from '../Fingerprint.tsx';
import { AdditionLine } from '../review/Additions.tsx';
import { CompareCheckpoint } from '../witness/Compare.tsx';
import { takeHanded } from './handed.ts';

/** A file is dropped or chosen, checked byte by byte, and told about; it can be looked into and kept. */
export function Verify(props: {
  /** From a certificate's code; empty: nothing is expected. */
  expected: string;
}) {
  const app = useServices();
  const [view, setView] = createSignal<VerifyView | null>(null);
  const [busy, setBusy] = createSignal<string | null>(null);
  const [first, setFirst] = createSignal<EvidenceAnswers['verify-first'] | null>(null);
  const [over, setOver] = createSignal(false);
  const [kept, setKept] = createSignal<string | null>(null);
  const [expected, setExpected] = createSignal(props.expected);
  const [cancelled, setCancelled] = createSignal(false);
  let chosen: { file: Blob; name: string } | null = null;
  /** Number of the check under way: what an earlier one has still to say is not shown. */
  let at = 0;

  /** What is still under way is ended: nobody waits for it any more. */
  const empty = () => {
    at++;
    if (busy() !== null) void app.evidence({ q: 'cancel' }).catch(app.fail);
    setView(null);
    setKept(null);
    setFirst(null);
    setBusy(null);
    setCancelled(false);
  };
  const check = async (file: Blob, name: string) => {
    empty();
    const mine = at;
    const shown = <T,>(set: (value: T) => unknown) => {
      return (value: T) => void (mine === at && set(value));
    };
    chosen = { file, name };
    setBusy(progressText(E.checking, 0));
    // Told within seconds on a phone too; what takes longer is made again behind it.
    await app.evidence({ q: 'verify-first', file }).then(shown(setFirst), () => undefined);
    if (mine !== at) return;
    const tell = shown((share: number) => setBusy(progressText(E.checking, share)));
    await app.evidence({ q: 'verify', file, name }, tell).then(shown(setView), shown(app.fail));
    shown(setBusy)(null);
    shown(setFirst)(null);
  };
  const cancel = () => {
    empty();
    chosen = null;
    setCancelled(true);
  };
  onCleanup(empty);
  const drop = (event: DragEvent) => {
    event.preventDefault();
    setOver(false);
    const file = event.dataTransfer?.files[0];
    if (file !== undefined) void check(file, file.name);
  };
  const keep = ({ sha256 }: VerifyView) =>
    app.evidence({ q: 'keep-opened', sha256 }).then(({ already, others }) => {
      setKept(already ? E.alreadyKept : others > 0 ? `${E.kept} ${E.others(others)}` : E.kept);
    }, app.fail);

  const handed = takeHanded();
  if (handed !== null) void check(handed, handed.name);

  return (
    <div class="page verify">
      <h1>{E.verifyTitle}</h1>
      <p class="muted">{E.verifyLead}</p>
      {/* Dropping is a second way; the button in it is the first. */}
      <section
        class="panel drop"
        aria-label={E.verifyTitle}
        classList={{ over: over() }}
        data-testid="drop"
        onDragOver={(e) => {
          e.preventDefault();
          setOver(true);
        }}
        onDragLeave={() => setOver(false)}
        onDrop={drop}
      >
        <FileKey
          class="primary"
          label={E.choose}
          testId="verify-file"
          disabled={busy() !== null}
          onFile={(file) => void check(file, file.name)}
        >
          {E.choose}
        </FileKey>
        <span class="muted">{E.drop}</span>
      </section>
      <Expected value={expected()} onValue={setExpected} view={view()} />
      <Show when={busy()}>
        <div class="row" role="status">
          <span class="grow">{busy()}</span>
          <button type="button" class="button" data-testid="cancel-verify" onClick={cancel}>
            {UI.cancel}
          </button>
        </div>
      </Show>
      <Show when={cancelled()}>
        <p class="note" role="status" data-testid="verify-cancelled">
          {E.cancelled}
        </p>
      </Show>
      <Show when={first()}>
        {(f) => (
          <p
            class="note"
            classList={{ strong: f().verdict === 'changed' || f().verdict === 'refused' }}
            role="status"
            data-testid="first-look"
            data-verdict={f().verdict}
          >
            {E.FIRST[f().verdict]} {E.firstRest}
          </p>
        )}
      </Show>
      <Show when={view()}>
        {(v) => (
          <Told
            view={v()}
            kept={kept()}
            onKeep={() => void keep(v())}
            onKnown={() => chosen !== null && void check(chosen.file, chosen.name)}
          />
        )}
      </Show>
    </div>
  );
}

/** The fingerprint that a certificate has, against the one of the file: another record may be as well signed. */
function Expected(props: { value: string; onValue(value: string): void; view: VerifyView | null }) {
  const wanted = () => parseFingerprint(props.value);
  const compared = () => {
    const view = props.view;
    const w = wanted();
    return view === null || w === null ? null : view.manifestSha256 === w ? 'same' : 'other';
  };
  return (
    <section class="panel stack" data-testid="expected" data-compared={compared() ?? ''}>
      <TextField
        label={E.expected}
        hint={E.expectedHint}
        issue={props.value.trim() !== '' && wanted() === null ? E.expectedNone : null}
        testId="expected-fingerprint"
        value={props.value}
        onValue={(v) => props.onValue(v)}
      />
      <Show when={compared()}>
        {(c) => (
          <p class="note" classList={{ strong: c() === 'other' }} role={c() === 'other' ? 'alert' : 'status'}>
            {c() === 'same' ? E.expectedSame : E.expectedOther}
          </p>
        )}
      </Show>
    </section>
  );
}

/** Verdicts are told by shape and word; only a changed record has the urgent alarm's colours. */
const SHAPE = {
  valid: 'M5 15l6 6L23 7',
  'not-derived': 'M14 6v11M14 20v2',
  'unknown-signer': 'M10 10a4 4 0 1 1 5 4c-1 .6-1 1.500-1 3M14 21v2',
  changed: 'M6 6l16 16M22 6L6 22',
  incomplete: 'M5 14h6M17 14h6',
  refused: 'M5 14h18',
  practice: 'M3 17L17 3M3 25L25 3M11 25L25 11',
} as const;

/** Every byte is as it was signed. */
const WHOLE: Readonly<Record<VerifyView['verdict'], boolean>> = {
  valid: true,
  'not-derived': true,
  'unknown-signer': true,
  changed: false,
  incomplete: false,
  refused: false,
  practice: false,
};

function Told(props: { view: VerifyView; kept: string | null; onKeep(): void; onKnown(): void }) {
  const app = useServices();
  const [name, setName] = createSignal('');
  const v = () => props.view;
  const firstUs = () => v().record?.firstSampleUs ?? 0;
  // In a changed file nothing is derived again, which need not be said of each of its members.
  const remarks = () => v().remarks.filter((r) => v().verdict !== 'changed' || r.r !== 'not-derived');
  // That nobody knows the key is said beside its fingerprint.
  const told = () => v().findings.filter((f) => f.f !== 'signer' || f.why !== undefined);
  const reserved = () => {
    const but = v().reserved;
    return but === null ? [] : reservedText(but);
  };
  const whole = () => WHOLE[v().verdict];
  const know = () => {
    const fingerprint = v().fingerprint;
    if (fingerprint === null) return;
    app.evidence({ q: 'know-signer', fingerprint, name: name() }).then(props.onKnown, app.fail);
  };
  return (
    <section class="panel stack verdict" data-testid="verdict" data-verdict={v().verdict} role="status">
      <div class="row verdict-head">
        <svg width="44" height="44" viewBox="0 0 28 28" aria-hidden="true" class="verdict-mark">
          <rect
            x="1"
            y="1"
            width="26"
            height="26"
            rx="3"
            fill="none"
            stroke="currentColor"
            stroke-width="1.500"
          />
          <path d={SHAPE[v().verdict]} fill="none" stroke="currentColor" stroke-width="2.500" />
        </svg>
        <div class="grow">
          <h2>{VERDICT[v().verdict].word}</h2>
          <p>{VERDICT[v().verdict].means}</p>
          <For each={reserved()}>
            {(text) => (
              <p data-testid="reserved">
                <strong>{text}</strong>
              </p>
            )}
          </For>
        </div>
      </div>
      <Show when={v().packet}>
        {(packet) => (
          <p class="note" data-testid="in-packet">
            {E.inPacket(packet(), v().name)}
          </p>
        )}
      </Show>
      <Show when={told().length > 0}>
        <h3>{E.findings}</h3>
        <ul class="dots" data-testid="findings">
          <For each={told()}>{(f) => <li data-finding={f.f}>{findingText(f, firstUs())}</li>}</For>
        </ul>
      </Show>
      <Show when={v().additions.length > 0}>
        <h3>{E.additionsSay}</h3>
        <ol class="dots" data-testid="verified-additions">
          <For each={v().additions}>{(a) => <AdditionLine of={a} />}</For>
        </ol>
      </Show>
      <dl class="facts">
        <div class="fact-wide">
          <dt>{v().name}</dt>
          <dd>{v().record?.title ?? bytes(v().bytes)}</dd>
        </div>
        <Show when={v().record}>
          {(r) => (
            <>
              <div>
                <dt>{E.recorded}</dt>
                <dd>{r().openedUtcMs === null ? NO_VALUE : dateTimeZone(r().openedUtcMs ?? 0)}</dd>
              </div>
              <div>
                <dt>{E.sealedAt}</dt>
                <dd>{dateTimeZone(r().sealedUtcMs)}</dd>
              </div>
              <div>
                <dt>{E.samples}</dt>
                <dd>{count(r().samples)}</dd>
              </div>
            </>
          )}
        </Show>
      </dl>
      <Show when={v().fingerprint}>
        {(f) => (
          <Fingerprint
            label={v().signer === null ? E.key : E.keyOf(signerText(v().signer))}
            value={f()}
            testId="signer-fingerprint"
          />
        )}
      </Show>
      <Show when={v().verdict === 'unknown-signer' && v().signer === null}>
        <div class="stack">
          <p>{E.unknownNote}</p>
          <div class="row task-row">
            <div class="grow">
              <TextField label={E.owner} testId="signer-name" value={name()} onValue={setName} />
            </div>
            <button
              type="button"
              class="button"
              data-testid="know-signer"
              disabled={name().trim() === ''}
              onClick={know}
            >
              {E.know}
            </button>
          </div>
        </div>
      </Show>
      {/* What one wants next, before what only some go on with. */}
      <div class="row">
        <Show when={v().readable}>
          <a class="button" href="#/record/opened" data-testid="open-record">
            {E.openRecord}
          </a>
        </Show>
        <Show when={whole()}>
          <button
            type="button"
            class="button"
            data-testid="keep"
            disabled={props.kept !== null}
            onClick={() => props.onKeep()}
          >
            {E.keep}
          </button>
        </Show>
        <Show when={props.kept ?? (v().kept ? E.alreadyKept : null)}>
          {(text) => <span data-testid="kept">{text()}</span>}
        </Show>
      </div>
      <Show when={remarks().length > 0}>
        <h3>{E.remarks}</h3>
        <ul class="dots">
          <For each={remarks()}>{(r) => <li>{remarkText(r, firstUs())}</li>}</For>
        </ul>
      </Show>
      <Show when={v().remarks.some((r) => r.r === 'logged')}>
        <h3>{WITNESS.compare}</h3>
        <CompareCheckpoint with="opened" lead={WITNESS.compareFileLead} />
      </Show>
    </section>
  );
}
