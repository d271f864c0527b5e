import {
  createEffect,
  createMemo,
  createResource,
  createSignal,
  For,
  on,
  onCleanup,
  Show,
  Suspense,
} from 'solid-js';
import type { RunDetail, TraceWindow } from '../../engine/messages.ts';
import {
  type Account,
  type Numbers as FirstNumbers,
  type RecordRef,
  type RecordView,
  refText,
} from '../../evidence/messages.ts';
import type { SecondPressure } from '../../job/codes.ts';
import { sensorEndBar } from '../../job/gauge-kind.ts';
import { Legend } from '../../widgets/Legend.tsx';
import { scaleEnd } from '../../widgets/lanes/scale.ts';
import { StageRibbon } from '../../widgets/StageRibbon.tsx';
import { alarmMarks, gapSpans, limitSpans, stageSpans } from '../../widgets/spans.ts';
import { Trace } from '../../widgets/Trace.tsx';
import { paceOf } from '../../widgets/trace-data.ts';
import { withinSpan } from '../../widgets/trace-span.ts';
import { keyView, pan, type View, zoom } from '../../widgets/trace-view.ts';
import { duration } from '../../words/format.ts';
import { JOBS } from '../../words/jobs.ts';
import { DEBRIEF } from '../../words/practice.ts';
import { REVIEW } from '../../words/review.ts';
import { UI } from '../../words/ui.ts';
import { failed, useServices } from '../context.ts';
import { saveBlob } from '../save.ts';
import { AccountPart } from './AccountPart.tsx';
import { CupMarkPart } from './CupMarkPart.tsx';
import { EventList } from './EventList.tsx';
import { NoteLane } from './NoteLane.tsx';
import { NumberRows } from './NumberRows.tsx';
import { Numbers } from './Numbers.tsx';
import { type Note, notesOf } from './notes.ts';
import { PutAwayPart } from './PutAwayPart.tsx';
import { RecordPart } from './RecordPart.tsx';
import { RemoveRun } from './RemoveRun.tsx';
import { runClock } from './run-clock.ts';

/**
 * Buckets asked for: the view and a quarter of it on either side. Each is drawn with two points, so that a plot of
 * 1200 px has about one and a half a pixel; more cost time in every frame and show nothing.
 */
const POINTS = 1400;

/** What stands under the account waits for it, so that nothing is moved from under an eye or a finger; but not longer, ms. */
const PATIENCE_MS = 1500;

/** A saved run: the trace to look into, its stages, alarms, gaps and numbers. */
export function Review(props: { runId: string }) {
  const app = useServices();
  const [checking, setChecking] = createSignal(false);
  const [detail] = createResource(
    () => ({ runId: props.runId, check: checking() }),
    ({ runId, check }) => app.runs.detail(runId, check).catch(failed(app)),
  );
  return (
    <div class="page review">
      <Show
        when={detail()}
        fallback={
          <Show when={!detail.loading}>
            <h1>{REVIEW.title}</h1>
            <p>{REVIEW.missing}</p>
            <a class="button" href="#/jobs">
              {UI.back}
            </a>
          </Show>
        }
      >
        {(d) => (
          <Reviewed
            detail={d()}
            source={{ kind: 'run', runId: props.runId }}
            readWindow={(fromS, toS, points) => app.runs.window(props.runId, fromS, toS, points)}
            checked={checking() && !detail.loading}
            onCheck={() => setChecking(true)}
          />
        )}
      </Show>
    </div>
  );
}

interface Told {
  readonly account: Account;
  readonly numbers: FirstNumbers;
}

/** What the run was, its trace and its lists; a run of this tablet can be checked, sealed and removed besides. */
export function Reviewed(props: {
  detail: RunDetail;
  source: RecordRef;
  readWindow(fromS: number, toS: number, points: number): Promise<TraceWindow>;
  /** What is told of it first, where the page has it already. */
  known?: Told & Pick<RecordView, 'verdict'>;
  checked?: boolean;
  onCheck?(): void;
}) {
  const app = useServices();
  const whole = createMemo<View>(() => ({
    fromS: 0,
    toS: Math.max(1, props.detail.lastS - props.detail.firstS),
  }));
  const [view, setView] = createSignal<View>(whole());
  const [told, setTold] = createSignal<Told | null>(props.known ?? null);
  const [box, setBox] = createSignal({ left: 52, right: 12, wide: 600 });
  const [window, setWindow] = createSignal<TraceWindow | null>(null);
  /** The first picture was answered, well or not. */
  const [answered, setAnswered] = createSignal(false);

  // One question at a time; while it is open the newest view waits, so that a fast hand asks for no pictures
  // that nobody will see.
  let asking = false;
  let waiting: View | null = null;
  let gone = false;
  onCleanup(() => {
    gone = true;
  });
  const fetchWindow = (v: View) => {
    if (asking) {
      waiting = v;
      return;
    }
    asking = true;
    const margin = (v.toS - v.fromS) * 0.25;
    props
      .readWindow(Math.max(whole().fromS, v.fromS - margin), Math.min(whole().toS, v.toS + margin), POINTS)
      .then((w) => !gone && setWindow(w), app.fail)
      .finally(() => {
        asking = false;
        setAnswered(true);
        const next = waiting;
        waiting = null;
        if (next !== null && !gone) fetchWindow(next);
      });
  };
  createEffect(on(view, fetchWindow));

  const firstUs = () => props.detail.firstUs;
  const spans = createMemo(() => stageSpans(props.detail.events, firstUs(), whole().toS));
  const limits = createMemo(() => limitSpans(props.detail.events, props.detail.setups, firstUs()));
  const endBar = createMemo(() => sensorEndBar(props.detail.setups));
  const secondEndBar = createMemo(() => {
    const role = window()?.series.find((s) => s.name === 'second')?.place as SecondPressure | undefined;
    return role === undefined ? null : sensorEndBar(props.detail.setups, role);
  });
  const seen = createMemo(() => {
    const read = window();
    return read === null ? null : withinSpan(read, endBar(), secondEndBar());
  });
  const isPast = createMemo(() => seen()?.isPast ?? false);
  const decor = createMemo(() => ({
    limits: limits(),
    gaps: gapSpans(props.detail.events, firstUs()),
    marks: alarmMarks(props.detail.events, firstUs()),
    practice: props.detail.summary.practice,
    sensorEndBar: isPast() ? endBar() : null,
    secondEndBar: secondEndBar(),
  }));
  const top = createMemo(() =>
    scaleEnd(
      limits().reduce<number | null>(
        (m, l) => (l.ratedBar === null ? m : Math.max(m ?? 0, l.ratedBar)),
        null,
      ),
      told()?.numbers.peakBar ?? props.detail.summary.peakBar ?? 0,
    ),
  );
  const pace = createMemo(() =>
    paceOf(props.detail.setups[props.detail.setups.length - 1]?.rateHz ?? null, props.detail.channels),
  );
  const step = (f: (v: View) => View) => () => setView(f(view()));
  const saveCapture = () =>
    app.runs
      .capture(props.detail.summary.runId)
      .then((blob) => saveBlob(`${props.detail.summary.runId}.capture.txt`, blob), app.fail);
  const showAt = (s: number) => {
    const half = Math.min(60, (whole().toS - whole().fromS) / 2);
    setView(zoom({ fromS: s - half, toS: s + half }, 1, 0.5, whole()));
  };

  const notes = createMemo(() => notesOf(props.detail.events, firstUs()));
  const isOpen = props.detail.summary.state === 'open';
  const [isSketched, setIsSketched] = createSignal(props.known !== undefined || isOpen);
  const [isDecided, setIsDecided] = createSignal(props.detail.summary.practice || isOpen);
  const [isLate, setIsLate] = createSignal(false);
  const late = setTimeout(() => setIsLate(true), PATIENCE_MS);
  onCleanup(() => clearTimeout(late));
  const accounted = () => (isSketched() && isDecided()) || isLate();
  const [isWhole, setIsWhole] = createSignal(props.known !== undefined);
  if (props.known === undefined && !isOpen)
    app
      .evidence({ q: 'sketch', ref: props.source })
      .then((s) => s !== null && told() === null && setTold(s), app.fail)
      .finally(() => setIsSketched(true));
  /** A press on a number leads to its line, and shows its place. */
  const showNote = (note: Note) => {
    showAt(note.s);
    const line = document.querySelector<HTMLElement>(`[data-note="${note.number}"]`);
    line?.scrollIntoView({ block: 'nearest' });
    line?.focus({ preventScroll: true });
  };

  return (
    <>
      <AccountPart
        source={props.source}
        summary={props.detail.summary}
        told={told()}
        verdict={props.known?.verdict ?? null}
        clock={runClock(props.detail)}
        onDecision={() => setIsDecided(true)}
      />
      <Show when={accounted()}>
        <Show when={props.detail.summary.state === 'interrupted'}>
          <p class="note strong">{REVIEW.interrupted}</p>
        </Show>
        <For each={props.detail.damage}>
          {(d) => (
            <p class="note strong">
              {d.fromS === null ? REVIEW.damage[d.what] : REVIEW.damageAt[d.what](duration(d.fromS))}
            </p>
          )}
        </For>
        <Show when={props.detail.summary.practice && props.detail.summary.state !== 'open'}>
          <p class="no-print">
            <a
              class="button practice-edge"
              href={`#/debrief/${refText(props.source)}`}
              data-testid="to-debrief"
            >
              {DEBRIEF.open}
            </a>
          </p>
        </Show>
        <div class="review-top">
          <section class="panel review-plot" data-testid="review-trace" aria-label={REVIEW.traceLabel}>
            <StageRibbon
              spans={spans()}
              fromS={view().fromS}
              toS={view().toS}
              left={box().left}
              plotRight={box().left + box().wide}
              right={box().left + box().wide}
              height={30}
              small={box().wide < 460}
            />
            <NoteLane notes={notes().values()} view={view()} box={box()} onShow={showNote} />
            <Trace
              window={seen()?.window ?? null}
              view={view()}
              topBar={top()}
              decor={decor()}
              units={app.units()}
              pace={pace()}
              theme={app.theme()}
              whole={whole()}
              onView={setView}
              onBox={(left, right, wide) => setBox({ left, right, wide })}
              label={REVIEW.traceLabel}
            />
            <Legend series={window()?.series ?? []} />
            <div class="row no-print plot-buttons">
              <button
                type="button"
                class="button"
                data-testid="zoom-in"
                onClick={step((v) => zoom(v, 0.5, 0.5, whole()))}
              >
                {REVIEW.zoomIn}
              </button>
              <button
                type="button"
                class="button"
                data-testid="zoom-out"
                onClick={step((v) => zoom(v, 2, 0.5, whole()))}
              >
                {REVIEW.zoomOut}
              </button>
              <button
                type="button"
                class="button"
                data-testid="pan-left"
                onClick={step((v) => pan(v, -0.4, whole()))}
              >
                {REVIEW.earlier}
              </button>
              <button
                type="button"
                class="button"
                data-testid="pan-right"
                onClick={step((v) => pan(v, 0.4, whole()))}
              >
                {REVIEW.later}
              </button>
              <button
                type="button"
                class="button"
                data-testid="whole"
                onClick={step((v) => keyView('0', v, whole()) ?? v)}
              >
                {REVIEW.whole}
              </button>
            </div>
            <p class="small muted no-print">{REVIEW.hint}</p>
          </section>
          <Show when={told()}>
            {(t) => <NumberRows told={t()} clock={runClock(props.detail)} isWhole={isWhole()} />}
          </Show>
        </div>
        <div class="review-lists">
          <Numbers detail={props.detail} spans={spans()} />
          <EventList
            events={props.detail.events}
            notes={notes()}
            firstUs={firstUs()}
            utcMs={props.detail.utcMs}
            onShow={showAt}
          />
        </div>
        {/* The record is read from end to end for it: after the picture, and in a boundary of its own, or the page's
          effects (the picture among them) would wait for the answer. */}
        <Show when={answered() && props.detail.summary.state !== 'open'}>
          <Suspense>
            <RecordPart
              source={props.source}
              detail={props.detail}
              view={view()}
              onRead={(record) => {
                setTold(record);
                setIsWhole(true);
              }}
            />
          </Suspense>
        </Show>
        {/* A simulated cycle wears no packer. */}
        <Show
          when={
            answered() &&
            props.source.kind === 'run' &&
            props.detail.summary.state !== 'open' &&
            !props.detail.summary.practice
          }
        >
          <Suspense>
            <PutAwayPart detail={props.detail} spans={spans()} />
            <CupMarkPart detail={props.detail} />
          </Suspense>
        </Show>
        <Show when={props.source.kind === 'run'}>
          <div class="row no-print">
            <Show
              when={!props.checked}
              fallback={
                <p class="small" role="status" data-testid="checked">
                  {props.detail.damage.length === 0 ? REVIEW.checkedWell : REVIEW.checkedDamaged}
                </p>
              }
            >
              <button type="button" class="button" data-testid="check-run" onClick={() => props.onCheck?.()}>
                {REVIEW.check}
              </button>
            </Show>
            <button type="button" class="button" onClick={saveCapture}>
              {REVIEW.capture}
            </button>
            <RemoveRun run={props.detail.summary} />
            <a class="button quiet" href="#/jobs">
              {JOBS.title}
            </a>
          </div>
        </Show>
      </Show>
    </>
  );
}
