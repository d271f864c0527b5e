import { createResource, createSignal, Show } from 'solid-js';
import type { RunDetail } from '../../engine/messages.ts';
import type { ResinDocument } from '../../job/resin-document.ts';
import { MOST_MARKS, markOf, withMark, withoutMark } from '../../plan/cup.ts';
import { Part } from '../../widgets/Fields.tsx';
import { cupMark } from '../../words/cup.ts';
import { fixed, quantity } from '../../words/format.ts';
import { CUP_KEPT } from '../../words/history.ts';
import { failed, useServices } from '../context.ts';
import { type Kept, keep, loadOne } from '../documents/store.ts';

type Mark = ResinDocument['cupMarks'][number] & { readonly runId: string };

const to3 = (x: number): number => Math.round(x * 1000) / 1000;

/** What the witness cup of a run has shown; null: its greatest heat did not pass, it is doubted, or nobody typed what was in it. */
export function markOfRun({ summary, events, setups }: RunDetail): Mark | null {
  const cup = events.findLast((e) => e.e === 'cup');
  const massG = setups.at(-1)?.resin?.cup?.massG ?? null;
  if (cup?.e !== 'cup' || cup.heatAge === null || cup.doubt !== null || massG === null) return null;
  return { massG, mark: to3(cup.heatAge), riseK: to3(cup.riseK), runId: summary.runId };
}

/** Why what the cup has shown is no mark of a usual batch; null: nothing speaks against it. */
function whyNot({ events }: RunDetail): string | null {
  const cup = events.findLast((e) => e.e === 'cup');
  if (cup?.e === 'cup' && cup.verdict === 'slow') return CUP_KEPT.slow;
  const sample = events.findLast((e) => e.e === 'witness');
  return sample?.e === 'witness' && !sample.hard ? CUP_KEPT.soft : null;
}

/** The cup of an accepted batch goes into its resin's document, which knows the next batch by it. */
export function CupMarkPart(props: { detail: RunDetail }) {
  const app = useServices();
  const [busy, setBusy] = createSignal(false);
  const mark = () => markOfRun(props.detail);
  const { runId } = props.detail.summary;
  const resinOf = async (jobId: string): Promise<Kept<ResinDocument> | null> => {
    const resinId = (await loadOne(app, 'job', jobId))?.document.resin.resinId ?? null;
    return resinId === null ? null : loadOne(app, 'resin', resinId);
  };
  const [resin, { mutate }] = createResource(
    () => (mark() === null ? null : props.detail.summary.jobId),
    (jobId) => resinOf(jobId).catch(failed(app)),
  );
  /** Reads the resin again before it writes: another tab may have added to it. */
  const change = async (how: (resin: ResinDocument) => ResinDocument) => {
    const now = await loadOne(app, 'resin', resin()?.id ?? '');
    if (now !== null) mutate(await keep(app, 'resin', now.id, now.revision, how(now.document)));
  };
  const write = (kept: Mark) => {
    setBusy(true);
    change((r) => withMark(r, kept))
      .then(
        () => app.say(CUP_KEPT.done, () => void change((r) => withoutMark(r, runId)).catch(app.fail)),
        app.fail,
      )
      .finally(() => setBusy(false));
  };
  const known = (marks: ResinDocument['cupMarks']) => {
    const so = markOf(marks);
    return so === null ? CUP_KEPT.none : CUP_KEPT.batches(so.batches, fixed(100 * so.scatter, 0));
  };
  return (
    <Show when={resin()}>
      {(r) => (
        <Show when={mark()}>
          {(m) => (
            <Part title={CUP_KEPT.title} note={CUP_KEPT.note(r().document.name)}>
              <dl class="facts" data-testid="cup-mark">
                <div>
                  <dt>{CUP_KEPT.mark}</dt>
                  <dd>{cupMark(m().mark, quantity('temperatureDifference', m().riseK, app.units()))}</dd>
                </div>
                <div>
                  <dt>{CUP_KEPT.mass}</dt>
                  <dd>{quantity('mass', m().massG, app.units())}</dd>
                </div>
                <div>
                  <dt>{CUP_KEPT.known}</dt>
                  <dd>{known(r().document.cupMarks)}</dd>
                </div>
              </dl>
              <Show
                when={r().document.cupMarks.some((k) => k.runId === runId)}
                fallback={
                  <Show
                    when={
                      whyNot(props.detail) ??
                      (r().document.cupMarks.length >= MOST_MARKS ? CUP_KEPT.full(MOST_MARKS) : null)
                    }
                    fallback={
                      <button
                        type="button"
                        class="button no-print"
                        data-testid="keep-cup"
                        disabled={busy()}
                        onClick={() => write(m())}
                      >
                        {CUP_KEPT.keep}
                      </button>
                    }
                  >
                    {(why) => (
                      <p class="note" data-testid="cup-not-kept">
                        {why()}
                      </p>
                    )}
                  </Show>
                }
              >
                <p class="note" role="status" data-testid="cup-kept">
                  {CUP_KEPT.kept}{' '}
                  <a class="no-print" href={`#/resin/${r().id}`}>
                    {CUP_KEPT.toResin}
                  </a>
                </p>
              </Show>
            </Part>
          )}
        </Show>
      )}
    </Show>
  );
}
