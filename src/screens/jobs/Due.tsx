import { createMemo, createResource, For, Show } from 'solid-js';
import type { RunSummary } from '../../engine/messages.ts';
import type { JobDocument } from '../../job/job-document.ts';
import type { Repair } from '../../plan/day.ts';
import { mixPlans, packerDays, type SleeveToMix } from '../../plan/mix.ts';
import { type Due, overdue } from '../../plan/overdue.ts';
import { DUE, MIX } from '../../words/due.ts';
import { dateTime, duration, quantity } from '../../words/format.ts';
import { failed, useServices } from '../context.ts';
import { type Kept, loadAll } from '../documents/store.ts';
import { planOf } from '../setup-of.ts';

/** Lines of a kind before the archive is pointed at. */
const MOST_RUNS = 4;
/** Sheets of a day that are planned here; more are seldom done. */
const MOST_SHEETS = 20;

/** What is due before and after the work, and the resin that the day takes. */
export function DueParts(props: {
  sheets: readonly Kept<JobDocument>[];
  runs: readonly RunSummary[];
  repairs: readonly Repair[];
  today: string;
  onChanged(): void;
}) {
  const app = useServices();
  const [packers] = createResource(() => loadAll(app, 'packer').catch(failed(app)));
  const [sensors] = createResource(() => loadAll(app, 'sensor').catch(failed(app)));
  const [resins] = createResource(() => loadAll(app, 'resin').catch(failed(app)));
  const ready = () => packers() != null && sensors() != null;
  const list = createMemo(() =>
    overdue(
      {
        sheets: props.sheets,
        runs: props.runs,
        packers: packers()?.kept ?? [],
        sensors: sensors()?.kept ?? [],
      },
      props.today,
    ),
  );
  const shown = createMemo(() => {
    const counts = new Map<Due['due'], number>();
    return list().filter((d) => {
      if (!('runId' in d)) return true;
      const n = (counts.get(d.due) ?? 0) + 1;
      counts.set(d.due, n);
      return n <= MOST_RUNS;
    });
  });
  const sleeves = createMemo((): readonly SleeveToMix[] =>
    props.repairs
      .filter((r) => r.state === 'planned')
      .slice(0, MOST_SHEETS)
      .flatMap(({ sheet: { id, document: job } }) => {
        const resin = resins()?.kept.find((r) => r.id === job.resin.resinId);
        if (resin === undefined) return [];
        const packer = packers()?.kept.find((p) => p.id === job.packerId) ?? null;
        const plan = planOf(app, { jobId: id, job, packer, resin, sensors: [] }, 1);
        return [
          {
            resinId: resin.id,
            resin: resin.document,
            packerId: packer?.id ?? null,
            packer: packer?.document.name ?? '',
            plan: plan.resin,
            handlingMin: job.handlingMin,
            groundC: job.ground.temperatureC === null ? null : job.ground.temperatureC - (job.ground.uC ?? 0),
          },
        ];
      }),
  );
  const sent = (runId: string) => app.evidence({ q: 'sent', runId }).then(() => props.onChanged(), app.fail);
  return (
    <>
      <Show when={ready() && list().length > 0}>
        <section class="start-list" data-testid="due">
          <h2>{DUE.title}</h2>
          <ul class="plates">
            <For each={shown()}>{(due) => <DueRow due={due} onSent={(runId) => void sent(runId)} />}</For>
          </ul>
          <Show when={list().length > shown().length}>
            <a class="button quiet" href="#/archive">
              {DUE.more(list().length - shown().length)}
            </a>
          </Show>
        </section>
      </Show>
      <Show when={sleeves().length > 0}>
        <section class="start-list" data-testid="mix">
          <h2>{MIX.title}</h2>
          <ul class="plates">
            <For each={mixPlans(sleeves())}>
              {(mix) => (
                <li class="plate-row">
                  <strong>
                    {mix.name}, {MIX.sleeves(mix.sleeves)}
                    <Show when={mix.unknown < mix.sleeves}>
                      :{' '}
                      {MIX.masses(
                        quantity('mass', mix.massG, app.units()),
                        mix.hardenerG === null ? null : quantity('mass', mix.hardenerG, app.units()),
                      )}
                    </Show>
                  </strong>
                  <Show when={mix.unknown > 0}>
                    <span>{MIX.noMass(mix.unknown)}</span>
                  </Show>
                  <span class="muted">
                    {mix.potLifeMin === null ? MIX.eachUnknown : MIX.each(mix.potLifeMin)}
                  </span>
                </li>
              )}
            </For>
            <For each={packerDays(sleeves())}>
              {(packer) => (
                <li class="plate-row">
                  <strong>{MIX.packer(packer.name, packer.sleeves)}</strong>
                  <span class="muted">
                    {packer.leastMin === null ? MIX.leastUnknown : MIX.least(duration(packer.leastMin * 60))}
                  </span>
                </li>
              )}
            </For>
          </ul>
        </section>
      </Show>
    </>
  );
}

function DueRow(props: { due: Due; onSent(runId: string): void }) {
  const { due } = props;
  if ('runId' in due)
    return (
      <li class="due">
        <a class="plate-row" href={`#/run/${due.runId}`} data-testid={`due-${due.due}-${due.runId}`}>
          <strong>{DUE[due.due]}</strong>
          <span class="muted">
            {[due.title, dateTime(due.openedUtcMs)].filter((text) => text !== '').join(', ')}
          </span>
        </a>
        <Show when={due.due === 'not-sent'}>
          <button
            type="button"
            class="button"
            data-testid={`sent-${due.runId}`}
            onClick={() => props.onSent(due.runId)}
          >
            {DUE.sentOtherwise}
          </button>
        </Show>
      </li>
    );
  if (due.due === 'calibration')
    return (
      <li>
        <a
          class="plate-row"
          href={`#/sensor/${due.sensorId}`}
          data-testid={`due-calibration-${due.sensorId}`}
        >
          <strong>{due.daysLeft < 0 ? DUE.overdueBy(-due.daysLeft) : DUE.dueIn(due.daysLeft)}</strong>
          <span class="muted">{due.name}</span>
        </a>
      </li>
    );
  return (
    <li>
      <a class="plate-row" href={`#/packer/${due.packerId}`} data-testid={`due-${due.due}-${due.packerId}`}>
        <strong>{DUE[due.due]}</strong>
        <span class="muted">{due.name}</span>
      </a>
    </li>
  );
}
