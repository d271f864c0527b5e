import { createEffect, createMemo, createResource, For, onCleanup, Show } from 'solid-js';
import { AlarmShape } from '../../widgets/AlarmShape.tsx';
import { Choice } from '../../widgets/Fields.tsx';
import { Loading } from '../../widgets/Loading.tsx';
import { PRIORITY } from '../../words/alarm-titles.ts';
import { CARD } from '../../words/card.ts';
import { CAUTION, CAUTIONS_AT } from '../../words/cautions.ts';
import { day, pressure } from '../../words/format.ts';
import { STAGE } from '../../words/terms.ts';
import { UI } from '../../words/ui.ts';
import { failed, useServices } from '../context.ts';
import { DEMO } from '../demo.ts';
import { loadAll } from '../documents/store.ts';
import { planOf } from '../setup-of.ts';
import { bundleOf } from '../sheet/bundle.ts';
import { type CardNumber, cardNumbers } from './numbers.ts';
import { type CardAlarm, cardOrders } from './orders.ts';
import { cardStages } from './stages.ts';
import { STYLE } from './style.ts';

const BLANK = 'blank';

/** The one sheet of paper for the tailgate: orders and stages as the live page says them, a job's numbers or lines to write on. */
export function Card(props: { jobId: string | null }) {
  const app = useServices();
  // With the card and gone with it: its margins are not those of other pages.
  const titleBefore = document.title;
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(STYLE);
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
  onCleanup(() => {
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((s) => s !== sheet);
    document.title = titleBefore;
  });
  const [bundle] = createResource(
    () => props.jobId,
    (id) => bundleOf(app, id).catch(failed(app)),
  );
  const [jobs] = createResource(() => loadAll(app, 'job').catch(failed(app)));
  const job = () => (props.jobId === null ? null : (bundle() ?? null));
  const plan = createMemo(() => {
    const found = job();
    return found === null ? null : planOf(app, found, 1);
  });
  /** A run's own ceiling has only fallen since it was planned. */
  const setup = createMemo(() => {
    const own = app.live.run()?.jobId === props.jobId ? app.live.setup() : null;
    return plan() === null ? null : (own ?? plan()?.setup ?? null);
  });
  const numbers = createMemo(() => cardNumbers(setup(), job(), app.units()));
  const choices = createMemo(() => {
    const kept = (jobs()?.kept ?? []).map(({ id, document }) => ({ value: id, text: document.title }));
    const own = job();
    const there = own === null || kept.some(({ value }) => value === own.jobId);
    return [
      { value: BLANK, text: CARD.blank },
      ...(there ? [] : [{ value: own.jobId, text: own.job.title }]),
      ...kept,
    ];
  });
  const facts = () => {
    const found = job();
    if (found === null) return [];
    const { title, date, site, resin } = found.job;
    const names = [found.packer?.document.name ?? '', found.resin?.document.name ?? '', resin.resinBatch];
    return [title, date ?? '', site, ...names].filter((t) => t.trim() !== '');
  };
  // What a file that it is printed into is called.
  createEffect(() => {
    document.title = [UI.card, job()?.job.title ?? ''].filter((t) => t !== '').join(', ');
  });
  const ceiling = () => {
    const bar = setup()?.limits?.ceilingBar;
    return bar === undefined ? null : pressure(bar, app.units());
  };
  return (
    <div class="page tailgate-page">
      <div class="row no-print">
        <a class="button quiet" href={job() === null ? '#/jobs' : `#/job/${job()?.jobId}`}>
          {UI.back}
        </a>
        <button type="button" class="button primary" data-testid="print" onClick={() => print()}>
          {CARD.print}
        </button>
        <Choice
          label={CARD.forJob}
          testId="card-job"
          value={job()?.jobId ?? BLANK}
          options={choices()}
          onValue={(id) => app.go({ page: 'card', jobId: id === BLANK ? null : id })}
        />
      </div>
      <p class="muted no-print">{CARD.lead}</p>
      <Show when={props.jobId !== null && !bundle.loading && job() === null}>
        <p class="note strong no-print" role="alert">
          {CARD.gone}
        </p>
      </Show>
      <Show when={!bundle.loading} fallback={<Loading />}>
        <article class="tailgate" data-testid="card" aria-label={UI.card}>
          <header>
            <h1>{UI.card}</h1>
            <p class="tailgate-job">
              <Show when={facts().length > 0} fallback={<span class="tailgate-line" />}>
                {facts().join(', ')}
              </Show>
            </p>
            <p>{UI.app}</p>
          </header>

          <section aria-label={CARD.numbers}>
            <Show when={(plan()?.refusals.length ?? 0) > 0}>
              <p class="tailgate-refused">
                <AlarmShape priority="high" size={18} /> {CARD.refused}
              </p>
            </Show>
            <Show when={props.jobId === DEMO.jobId}>
              <p class="tailgate-refused">{UI.practiceBanner}</p>
            </Show>
            <dl class="tailgate-pressures" data-testid="card-pressures">
              <For each={numbers().pressures}>{(n) => <Numbered number={n} />}</For>
            </dl>
            <dl class="tailgate-times" data-testid="card-times">
              <For each={numbers().times}>{(n) => <Numbered number={n} />}</For>
            </dl>
            <div class="tailgate-written" data-testid="card-written">
              <For each={numbers().written}>
                {(name) => (
                  <p>
                    {name} <span class="tailgate-line" />
                  </p>
                )}
              </For>
            </div>
            <Show when={job() !== null}>
              <p>
                <Show when={numbers().cure}>
                  {(rows) => (
                    <>
                      <strong>{CARD.cure}</strong> {rows()}.{' '}
                    </>
                  )}
                </Show>
                {CARD.planned(day(app.nowMs()))}
              </p>
            </Show>
          </section>

          <section>
            <h2 class="visually-hidden">{CARD.work}</h2>
            <ol class="tailgate-stages" data-testid="card-stages">
              <For each={cardStages(setup(), app.units())}>
                {({ stage, says }) => (
                  <li>
                    <strong>{STAGE[stage]}</strong> <span>{says.join(' ')}</span>
                  </li>
                )}
              </For>
            </ol>
          </section>

          <section class="tailgate-alarms">
            <div class="tailgate-shapes">
              <h2>{CARD.alarms}</h2>
              <For each={['urgent', 'high'] as const}>
                {(priority) => (
                  <span>
                    <AlarmShape priority={priority} size={12} /> {PRIORITY[priority]}
                  </span>
                )}
              </For>
              <span>
                <AlarmShape priority="low" size={12} /> {PRIORITY.low}
                {UI.colon} {CARD.low}
              </span>
            </div>
            <ul class="tailgate-orders" data-testid="card-orders">
              <For each={cardOrders()}>
                {({ verb, call, alarms }) => (
                  <li>
                    <strong>
                      <For each={verb}>{(line) => <span>{line} </span>}</For>
                      <Show when={call}>
                        <span>{call}</span>
                      </Show>
                    </strong>
                    <ul>
                      <For each={alarms}>{(alarm) => <Alarm alarm={alarm} />}</For>
                    </ul>
                  </li>
                )}
              </For>
            </ul>
          </section>

          <section class="tailgate-dark">
            <h2>{CARD.dark}</h2>
            <ol data-testid="card-dark">
              <For each={CARD.darkSteps(ceiling())}>{(step) => <li>{step}</li>}</For>
            </ol>
          </section>

          <section class="tailgate-cautions">
            <h2>{CARD.cautions}</h2>
            <ul>
              <For each={CAUTIONS_AT.card}>{(c) => <li>{CAUTION[c]} </li>}</For>
              <li>{CARD.local}</li>
            </ul>
          </section>
        </article>
      </Show>
    </div>
  );
}

function Numbered(props: { number: CardNumber }) {
  return (
    <div>
      <dt>{props.number.name}</dt>
      <dd classList={{ typed: props.number.isTyped === true }}>
        <Show when={props.number.value} fallback={<span class="tailgate-line" />}>
          {props.number.value}
        </Show>
      </dd>
    </div>
  );
}

/** Its shape is that of the screen; who hears the page read is told the word. */
function Alarm(props: { alarm: CardAlarm }) {
  const when = () => {
    const { when } = props.alarm;
    if (when === null) return '';
    return ` (${when === 'otherwise' ? CARD.otherwise : when.map((stage) => STAGE[stage]).join(', ')})`;
  };
  const words = () => props.alarm.title.split(' ');
  return (
    <li>
      <span class="visually-hidden">
        {PRIORITY[props.alarm.priority]}
        {UI.colon}{' '}
      </span>
      {/* The shape stays with the first word. */}
      <span class="tailgate-first">
        <AlarmShape priority={props.alarm.priority} size={12} />
        {'\u00a0'}
        {words()[0]}
      </span>
      {words()
        .slice(1)
        .map((word) => ` ${word}`)
        .join('')}
      {when()}
    </li>
  );
}
