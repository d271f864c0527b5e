import { createMemo, createResource, For, Match, Show, Switch } from 'solid-js';
import { type Debrief, refOf } from '../../evidence/messages.ts';
import { Loading } from '../../widgets/Loading.tsx';
import { ALARM_TITLE } from '../../words/alarm-titles.ts';
import { dateTime, duration, pressure, stopwatch } from '../../words/format.ts';
import { RIG_FAULT } from '../../words/live.ts';
import { checkText, DEBRIEF as D, DRILL, handText, OUTCOME, PRACTICE, SENSED } from '../../words/practice.ts';
import { UI } from '../../words/ui.ts';
import { failed, useServices } from '../context.ts';
import { DebriefPlot } from './DebriefPlot.tsx';
import { type Line, MOST_LINES, spanOf, timelineOf } from './timeline.ts';

const POINTS = 700;

/** What a practice run was: what went wrong, what could be told of it, what hands did, and was the goal met. */
export function DebriefPage(props: { id: string }) {
  const app = useServices();
  const [told] = createResource(
    () => props.id,
    (id) => app.evidence({ q: 'debrief', ref: refOf(id) }).catch(failed(app)),
  );
  return (
    <div class="page debrief">
      <Show when={!told.loading} fallback={<Loading />}>
        <Show
          when={told()}
          fallback={
            <>
              <h1>{D.title}</h1>
              <p>{D.none}</p>
              <a class="button" href="#/practice">
                {PRACTICE.toList}
              </a>
            </>
          }
        >
          {(d) => <Told told={d()} id={props.id} />}
        </Show>
      </Show>
    </div>
  );
}

function Told(props: { told: Debrief; id: string }) {
  const app = useServices();
  const ref = () => refOf(props.id);
  const all = createMemo(() => timelineOf(props.told));
  const lines = createMemo(() => all().slice(0, MOST_LINES));
  const span = createMemo(() => spanOf(props.told, all()));
  const [window] = createResource(span, ({ fromS, toS }) =>
    app.evidence({ q: 'record-window', ref: ref(), fromS, toS, points: POINTS }).catch(failed(app)),
  );
  const [record] = createResource(ref, (r) =>
    r.kind === 'run' ? app.runs.detail(r.runId).catch(failed(app)) : Promise.resolve(null),
  );
  const drill = () => props.told.drill;
  const outcome = () => props.told.outcome;
  const review = () => (ref().kind === 'run' ? `#/run/${props.id}` : `#/record/${props.id}`);
  return (
    <>
      <div class="practice-band" aria-hidden="true" />
      <header class="stack">
        <p class="muted">
          {D.title}. {D.lead}
        </p>
        <h1>{drill() === null ? PRACTICE.free : DRILL[drill()!].title}</h1>
        <p>
          <Show when={record()}>{(r) => <>{dateTime(r().summary.openedUtcMs)} </>}</Show>
          <Show when={props.told.trainee !== ''}>{D.playedBy(props.told.trainee)}</Show>
        </p>
      </header>
      <Show when={outcome()}>
        {(o) => (
          <section class="debrief-outcome" data-testid="outcome" data-outcome={o()} aria-label={D.title}>
            <strong>{OUTCOME[o()].word}</strong>
            <p>{OUTCOME[o()].means}</p>
          </section>
        )}
      </Show>
      <div class="debrief-two">
        <Show when={drill()}>
          {(code) => (
            <section class="panel stack">
              <h2>{D.goalIs}</h2>
              <p>{DRILL[code()].goal}</p>
              <Show when={props.told.checks.length > 0}>
                <h3>{D.checks}</h3>
                <ul class="checks" data-testid="checks">
                  <For each={props.told.checks}>
                    {(c) => <li classList={{ no: !c.ok }}>{checkText(c, app.units())}</li>}
                  </For>
                </ul>
              </Show>
              <Show when={props.told.faultS !== null}>
                <h3>{D.wentWrong}</h3>
                <p>{DRILL[code()].fault}</p>
              </Show>
            </section>
          )}
        </Show>
        <Figures told={props.told} />
      </div>
      <section class="panel stack">
        <h2>{D.happened}</h2>
        <DebriefPlot
          told={props.told}
          window={window() ?? null}
          lines={lines()}
          span={span()}
          units={app.units()}
        />
        <table class="debrief-lines">
          <thead>
            <tr>
              <th scope="col">#</th>
              <th scope="col">{D.when}</th>
              <th scope="col">{D.what}</th>
            </tr>
          </thead>
          <tbody>
            <For each={lines()}>
              {(line, i) => (
                <tr class={`by-${line.who}`}>
                  <td>{i() + 1}</td>
                  <td>{stopwatch(line.s)}</td>
                  <td>
                    <span class="muted">
                      {D.who[line.who]}
                      {UI.colon}
                    </span>{' '}
                    <LineText line={line} />
                  </td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
        <Show when={all().length > MOST_LINES}>
          <p class="small muted">{D.more(all().length - MOST_LINES)}</p>
        </Show>
        <p class="small muted">{D.truth}</p>
      </section>
      <div class="row no-print">
        <a class="button primary" href="#/practice" data-testid="to-practice">
          {PRACTICE.toList}
        </a>
        <a class="button" href={review()} data-testid="debrief-review">
          {D.review}
        </a>
        <button type="button" class="button" data-testid="print-debrief" onClick={() => print()}>
          {D.print}
        </button>
      </div>
      <p class="small muted no-print">{PRACTICE.certificateNote}</p>
    </>
  );
}

function LineText(props: { line: Line }) {
  const app = useServices();
  const as = <W extends Line['who']>(who: W) =>
    props.line.who === who ? (props.line as Extract<Line, { who: W }>) : undefined;
  return (
    <Switch>
      <Match when={as('rig')}>{(l) => <strong>{faultName(l().name)}</strong>}</Match>
      <Match when={as('sign')}>{(l) => ALARM_TITLE[l().sign.alarm]}</Match>
      <Match when={as('ear')}>{(l) => SENSED[l().sign.sensed]}</Match>
      <Match when={as('hand')}>{(l) => handText(l().name, l().value, app.units())}</Match>
    </Switch>
  );
}

const faultName = (name: string): string =>
  Object.hasOwn(RIG_FAULT, name) ? RIG_FAULT[name as keyof typeof RIG_FAULT] : name;

function Figures(props: { told: Debrief }) {
  const app = useServices();
  const bar = (x: number) => pressure(x, app.units());
  const sign = () => props.told.firstSign;
  const margin = () => {
    const { ratedBar, peakBar } = props.told;
    return ratedBar === null ? null : ratedBar - peakBar;
  };
  return (
    <section class="panel stack">
      <h2>{D.figures}</h2>
      <dl class="facts">
        <Show when={props.told.faultS}>
          {(s) => (
            <div>
              <dt>{D.faultAt}</dt>
              <dd>{stopwatch(s())}</dd>
            </div>
          )}
        </Show>
        <Show when={props.told.faultS !== null}>
          <div>
            <dt>{D.firstSign}</dt>
            <dd data-testid="first-sign">
              <Show when={sign()} fallback={D.noSign}>
                {(s) => {
                  const of = s();
                  return D.signAfter(
                    duration(Math.max(0, of.s - (props.told.faultS ?? 0))),
                    of.by === 'ear' ? SENSED[of.sensed] : ALARM_TITLE[of.alarm],
                  );
                }}
              </Show>
            </dd>
          </div>
          <div>
            <dt>{D.action}</dt>
            <dd data-testid="first-action">{actionText(props.told)}</dd>
          </div>
        </Show>
        <div>
          <dt>{D.peak}</dt>
          <dd>{bar(props.told.peakBar)}</dd>
        </div>
        <Show when={margin() !== null}>
          <div>
            <dt>{D.margin}</dt>
            <dd>{(margin() ?? 0) >= 0 ? bar(margin() ?? 0) : D.overBy(bar(-(margin() ?? 0)))}</dd>
          </div>
        </Show>
        <Show when={props.told.could}>
          {(could) => (
            <div>
              <dt>{D.could}</dt>
              <dd>{D.couldPeak(bar(could().peakBar))}</dd>
            </div>
          )}
        </Show>
      </dl>
    </section>
  );
}

function actionText({ actionS, firstSign }: Debrief): string {
  if (actionS === null) return D.noAction;
  const after = actionS - (firstSign?.s ?? actionS);
  return firstSign === null || after < 0 ? D.actionBefore : D.actionAfter(duration(after));
}
