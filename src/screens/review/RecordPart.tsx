import { createResource, createSignal, For, Show } from 'solid-js';
import type { RunDetail } from '../../engine/messages.ts';
import type { JudgedView, PictureInk, RecordRef, RecordView } from '../../evidence/messages.ts';
import { refText } from '../../evidence/messages.ts';
import { Confirm } from '../../widgets/Dialog.tsx';
import { Choice, Part } from '../../widgets/Fields.tsx';
import { keepFocusIn } from '../../widgets/keep-focus.ts';
import { inkOf } from '../../widgets/lanes/canvas.ts';
import type { View } from '../../widgets/trace-view.ts';
import { eventText } from '../../words/events.ts';
import { EVIDENCE as E, progressText, signerText } from '../../words/evidence.ts';
import { dateTimeZone, stopwatch } from '../../words/format.ts';
import { LANGUAGES } from '../../words/languages.ts';
import { wordingFor } from '../../words/locale.ts';
import { WITNESS } from '../../words/witness.ts';
import { failed, useServices } from '../context.ts';
import { Fingerprint } from '../Fingerprint.tsx';
import { Help } from '../help/Help.tsx';
import { EnclosedPart, SealedEnclosed } from '../photos/EnclosedPart.tsx';
import { saveBlob } from '../save.ts';
import { CheckpointLine } from '../witness/CheckpointLine.tsx';
import { Additions } from './Additions.tsx';
import { HandOver } from './HandOver.tsx';

/** What makes a record evidence: seal, file, certificate, signed additions, and what can be taken out. */
export function RecordPart(props: {
  source: RecordRef;
  detail: RunDetail;
  view: View;
  /** The record was read from end to end. */
  onRead(record: RecordView): void;
}) {
  const app = useServices();
  const [record, { refetch }] = createResource(
    () => ({ ref: props.source, of: props.detail }),
    async ({ ref }) => {
      const read = await app.evidence({ q: 'record', ref }).catch(failed(app));
      if (read !== null) props.onRead(read);
      return read;
    },
  );
  return (
    <Show when={record.latest}>
      {(r) => (
        <>
          <Show
            when={r().sealed}
            fallback={
              <Show when={props.source.kind === 'run' ? props.source.runId : null}>
                {(runId) => <EnclosedPart beside={{ jobId: props.detail.summary.jobId, runId: runId() }} />}
              </Show>
            }
          >
            {(sealed) => <SealedEnclosed enclosed={sealed().enclosed} source={props.source} />}
          </Show>
          <div class="review-evidence">
            <SealPart record={r()} onChange={() => void refetch()} />
            <Show when={r().sealed}>
              {(sealed) => (
                <Additions
                  sealed={sealed()}
                  runId={props.source.kind === 'run' ? props.source.runId : null}
                  onChange={() => void refetch()}
                />
              )}
            </Show>
            <TakeOut source={props.source} detail={props.detail} view={props.view} />
          </div>
        </>
      )}
    </Show>
  );
}

function SealPart(props: { record: RecordView; onChange(): void }) {
  const app = useServices();
  const [asking, setAsking] = createSignal(false);
  const [busy, setBusy] = createSignal<string | null>(null);
  /** The client's: its certificate and CHECK.txt are sealed in it. */
  const [language, setLanguage] = createSignal(app.wording.language);
  const [made, setMade] = createSignal<'first' | 'after-loss' | null>(null);
  const summary = () => props.record.detail.summary;
  const source = () => props.record.ref;
  // The key that sealed is gone once it is sealed.
  let title!: HTMLHeadingElement;

  const seal = () => {
    const ref = source();
    setAsking(false);
    if (ref.kind !== 'run') return;
    setBusy(E.sealing);
    app
      .evidence({
        q: 'seal',
        runId: ref.runId,
        wording:
          language() === app.wording.language
            ? app.wording
            : wordingFor({ language: language(), decimal: 'auto' }, []),
        page: `${location.origin}${location.pathname}`,
      })
      .then(({ newKey }) => {
        setMade(newKey);
        props.onChange();
      }, app.fail)
      .finally(() => setBusy(null));
  };
  const save = () => {
    setBusy(progressText(E.building, 0));
    app
      .evidence({ q: 'job-file', ref: source() }, (share) => setBusy(progressText(E.building, share)))
      .then(({ name, file }) => saveBlob(name, file), app.fail)
      .finally(() => setBusy(null));
  };

  return (
    <section
      ref={(part) => keepFocusIn(part, { drawer: () => null, home: () => title })}
      class="panel stack"
      data-testid="seal-part"
      aria-label={E.sealTitle}
    >
      <div class="with-help">
        <h2 ref={title} tabindex={-1}>
          {E.sealTitle}
        </h2>
        <Help about="seal" of={E.sealTitle} />
      </div>
      <Show
        when={props.record.sealed}
        fallback={
          <>
            <p>{summary().practice ? E.practiceWhat : E.sealWhat}</p>
            <Show when={summary().state === 'open'}>
              <p class="note strong">{E.openFirst}</p>
            </Show>
            <div class="fields">
              <Choice
                label={E.certificateLanguage}
                testId="seal-language"
                value={language()}
                options={Object.entries(LANGUAGES).map(([value, { name }]) => ({ value, text: name }))}
                onValue={setLanguage}
              />
            </div>
            <div class="row">
              <button
                type="button"
                class="button primary"
                data-testid="seal"
                disabled={busy() !== null || summary().state === 'open'}
                onClick={() => setAsking(true)}
              >
                {summary().practice ? E.practiceSeal : E.seal}
              </button>
            </div>
          </>
        }
      >
        {(sealed) => (
          <>
            <p data-testid="sealed">
              {E.sealedBy(dateTimeZone(sealed().sealedUtcMs), signerText(sealed().signer))}
            </p>
            <Fingerprint label={E.key} value={sealed().fingerprint} />
            <Show when={sealed().previous?.reason === 'lost'}>
              <p class="note strong">{E.newAfterLoss}</p>
            </Show>
            <div class="row">
              <button
                type="button"
                class="button primary"
                data-testid="save-job-file"
                disabled={busy() !== null}
                onClick={save}
              >
                {summary().practice ? E.practiceFile : E.file}
              </button>
              <a class="button" data-testid="certificate" href={`#/certificate/${refText(source())}`}>
                {summary().practice ? E.practiceCertificate : E.certificate}
              </a>
            </div>
            <Show when={!summary().practice} fallback={<p class="small muted">{E.practiceFileWhat}</p>}>
              <p class="small muted">{E.fileWhat}</p>
              <HandOver source={source()} />
            </Show>
          </>
        )}
      </Show>
      <Show when={source().kind === 'run' && !summary().practice && summary().state !== 'open'}>
        <CheckpointLine
          lead={props.record.sealed === null ? WITNESS.lineEnded : WITNESS.lineSealed}
          of={props.record}
        />
      </Show>
      <Show when={made() !== null}>
        <p class="note strong" role="status" data-testid="new-key">
          {made() === 'first' ? E.newFirst : E.newAfterLoss}
        </p>
      </Show>
      <Show when={busy()}>
        <p role="status" data-testid="evidence-busy">
          {busy()}
        </p>
      </Show>
      <Confirm
        open={asking()}
        title={E.sealAsk}
        text={E.sealAskText}
        yes={summary().practice ? E.practiceSeal : E.seal}
        onYes={seal}
        onNo={() => setAsking(false)}
      />
    </section>
  );
}

/** Picture and data of what is seen, and the record judged again. */
function TakeOut(props: { source: RecordRef; detail: RunDetail; view: View }) {
  const app = useServices();
  const [judged, setJudged] = createSignal<JudgedView | null>(null);
  const [busy, setBusy] = createSignal(false);
  const name = () => props.detail.summary.runId;
  const picture = () =>
    app.evidence({
      q: 'picture',
      order: {
        refs: [props.source],
        align: 'start',
        fromS: props.view.fromS,
        toS: props.view.toS,
        width: 1200,
        height: 480,
        units: app.units(),
        wording: app.wording,
        ink: paperInk(),
      },
    });
  const saveSvg = () =>
    picture().then(
      ({ svg }) => saveBlob(`${name()}.svg`, new Blob([svg], { type: 'image/svg+xml' })),
      app.fail,
    );
  const savePng = () =>
    picture()
      .then(({ svg }) => pngOf(svg, 1200, 480))
      .then((png) => saveBlob(`${name()}.png`, png), app.fail);
  const saveData = () =>
    app
      .evidence({ q: 'visible-data', ref: props.source, fromS: props.view.fromS, toS: props.view.toS })
      .then((csv) => saveBlob(`${name()}.csv`, csv), app.fail);
  const judge = () => {
    setBusy(true);
    app
      .evidence({ q: 'judge-again', ref: props.source })
      .then(setJudged, app.fail)
      .finally(() => setBusy(false));
  };
  const at = (us: number) => stopwatch((us - props.detail.firstUs) / 1e6);
  return (
    <Part title={E.exportTitle} id="take-out">
      <div class="row">
        <button type="button" class="button" data-testid="save-svg" onClick={saveSvg}>
          {E.savePicture}
        </button>
        <button type="button" class="button" data-testid="save-png" onClick={savePng}>
          {E.savePng}
        </button>
        <button type="button" class="button" data-testid="save-data" onClick={saveData}>
          {E.saveData}
        </button>
        <button type="button" class="button" data-testid="judge-again" disabled={busy()} onClick={judge}>
          {busy() ? E.judging : E.judge}
        </button>
      </div>
      <Show when={judged()}>
        {(j) => (
          <div class="stack" data-testid="judged" role="status">
            <p class="small muted">{E.engines(j().engineThen, j().engineNow)}</p>
            <p>{j().against === 'sealed' ? E.judgedWhat : E.judgedRecorded}</p>
            <Show when={j().gone.length + j().fresh.length === 0}>
              <p>
                <strong>{E.judgedSame(j().events)}</strong>
              </p>
            </Show>
            <For
              each={[
                { title: E.gone, list: j().gone },
                { title: E.fresh, list: j().fresh },
              ].filter((l) => l.list.length > 0)}
            >
              {(l) => (
                <>
                  <h3>{l.title}</h3>
                  <ul class="dots">
                    <For each={l.list}>
                      {(e) => (
                        <li>
                          {at(e.tUs)} {eventText(e, app.units())}
                        </li>
                      )}
                    </For>
                  </ul>
                </>
              )}
            </For>
          </div>
        )}
      </Show>
    </Part>
  );
}

/** A picture to be sent is black on white, whatever the screen's colours. */
function paperInk(): PictureInk {
  return {
    ground: '#ffffff',
    ink: '#000000',
    ink2: '#4a4a4a',
    line: '#d0d0d0',
    band: '#e9e9e9',
    alarm: { urgent: '#a50e1a', high: '#b06f00', low: '#3a3eb0' },
  };
}

/** The theme's colours, for a picture on the screen. */
export function screenInk(element: Element): PictureInk {
  const { plate, ink, ink2, grid, band, urgent, high, low } = inkOf(element).colour;
  return { ground: plate, ink, ink2, line: grid, band, alarm: { urgent, high, low } };
}

async function pngOf(svg: string, width: number, height: number): Promise<Blob> {
  const url = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  try {
    const image = new Image(width * 2, height * 2);
    image.src = url;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = width * 2;
    canvas.height = height * 2;
    canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise((resolve, reject) => {
      canvas.toBlob((blob) => (blob === null ? reject(new Error('no picture')) : resolve(blob)), 'image/png');
    });
  } finally {
    URL.revokeObjectURL(url);
  }
}
