import { createResource, createSignal, Show } from 'solid-js';
import type { RunDetail } from '../../engine/messages.ts';
import type { ConditionEntry, PackerDocument } from '../../job/packer-document.ts';
import { type Cycle, cycleEntries, withEntries, withoutRun } from '../../plan/packer-history.ts';
import { Choice, Part, TextField } from '../../widgets/Fields.tsx';
import type { StageSpan } from '../../widgets/lanes/ribbon.ts';
import { duration, NO_VALUE, pressure } from '../../words/format.ts';
import { PUT_AWAY } from '../../words/history.ts';
import { leakText } from '../../words/hold.ts';
import { failed, useServices } from '../context.ts';
import { type Kept, keep, loadOne } from '../documents/store.ts';

const lastHoldOf = (events: RunDetail['events']) => events.findLast((e) => e.e === 'hold');

/** The cycle of a run as the packer's log holds it. @param spans the stages of the run, ended */
export function cycleOf(detail: RunDetail, spans: readonly StageSpan[]): Cycle {
  const { summary, events } = detail;
  // From the first air to the end of the let-down, whatever was done in between.
  const inflated = spans
    .filter(
      (s) => s.stage === 'seat' || s.stage === 'inflate' || s.stage === 'hold' || s.stage === 'let-down',
    )
    .reduce((t, s) => t + Math.max(0, (s.toS ?? s.fromS) - s.fromS), 0);
  const hold = lastHoldOf(events);
  return {
    runId: summary.runId,
    date: new Date(summary.openedUtcMs).toISOString().slice(0, 10),
    peakBar: summary.peakBar,
    leakMbarPerMin: hold?.leak.mbarPerMin ?? null,
    minutes: inflated === 0 ? null : inflated / 60,
  };
}

/** Cleaned, looked at, put away: the cycle goes into the packer's log with what the hands found. */
export function PutAwayPart(props: { detail: RunDetail; spans: readonly StageSpan[] }) {
  const app = useServices();
  const [found, setFound] = createSignal<'' | 'well' | 'damage'>('');
  const [note, setNote] = createSignal('');
  const [by, setBy] = createSignal('');
  const [asked, setAsked] = createSignal(false);
  const [busy, setBusy] = createSignal(false);
  const packerOf = async (jobId: string): Promise<Kept<PackerDocument> | null> => {
    const packerId = (await loadOne(app, 'job', jobId))?.document.packerId ?? null;
    return packerId === null ? null : loadOne(app, 'packer', packerId);
  };
  const [packer, { mutate }] = createResource(
    () => props.detail.summary.jobId,
    (jobId) => packerOf(jobId).catch(failed(app)),
  );
  const cycle = () => cycleOf(props.detail, props.spans);
  const lastHold = () => lastHoldOf(props.detail.events);
  const logged = (): ConditionEntry | undefined =>
    packer()?.document.conditions.find((c) => c.what === 'cycle' && c.runId === cycle().runId);

  /** Reads the packer again before it writes: another tab may have added to its log. */
  const change = async (how: (packer: PackerDocument) => PackerDocument) => {
    const now = await loadOne(app, 'packer', packer()?.id ?? '');
    if (now !== null) mutate(await keep(app, 'packer', now.id, now.revision, how(now.document)));
  };
  const takenBack = (p: PackerDocument) => withoutRun(p, cycle().runId);
  const write = () => {
    const state = found();
    if (state === '' || by().trim() === '') return setAsked(true);
    setBusy(true);
    const entries = cycleEntries(cycle(), { damage: state === 'damage', by: by(), note: note() });
    change((p) => withEntries(takenBack(p), entries))
      .then(() => app.say(PUT_AWAY.done, () => void change(takenBack).catch(app.fail)), app.fail)
      .finally(() => setBusy(false));
  };
  return (
    <Show when={packer()}>
      {(p) => (
        <Part title={PUT_AWAY.title} note={PUT_AWAY.note(p().document.name)}>
          <dl class="facts" data-testid="put-away-cycle">
            <div>
              <dt>{PUT_AWAY.peak}</dt>
              <dd>{pressure(cycle().peakBar, app.units())}</dd>
            </div>
            <div>
              <dt>{PUT_AWAY.leak}</dt>
              <dd data-testid="put-away-leak">
                <Show when={lastHold()} fallback={NO_VALUE}>
                  {(hold) => leakText(hold().leak, app.units())}
                </Show>
              </dd>
            </div>
            <div>
              <dt>{PUT_AWAY.inflated}</dt>
              <dd>{cycle().minutes === null ? NO_VALUE : duration((cycle().minutes ?? 0) * 60)}</dd>
            </div>
          </dl>
          <Show
            when={logged()}
            fallback={
              <>
                <div class="fields no-print">
                  <Choice
                    label={PUT_AWAY.found}
                    testId="put-away-found"
                    value={found()}
                    options={[
                      { value: '', text: PUT_AWAY.notYet },
                      { value: 'well', text: PUT_AWAY.well },
                      { value: 'damage', text: PUT_AWAY.damage },
                    ]}
                    issue={asked() && found() === '' ? PUT_AWAY.foundNeeded : null}
                    onValue={setFound}
                  />
                  <TextField
                    label={PUT_AWAY.by}
                    testId="put-away-by"
                    value={by()}
                    issue={asked() && by().trim() === '' ? PUT_AWAY.byNeeded : null}
                    onValue={setBy}
                  />
                  <TextField label={PUT_AWAY.what} testId="put-away-note" value={note()} onValue={setNote} />
                </div>
                <button
                  type="button"
                  class="button no-print"
                  data-testid="put-away"
                  disabled={busy()}
                  onClick={write}
                >
                  {PUT_AWAY.log}
                </button>
              </>
            }
          >
            {(entry) => (
              <p data-testid="put-away-done">
                {PUT_AWAY.logged(entry().date, entry().by)}{' '}
                <a href={`#/packer/${p().id}`}>{PUT_AWAY.toPacker}</a>
              </p>
            )}
          </Show>
        </Part>
      )}
    </Show>
  );
}
