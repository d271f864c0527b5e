import { createResource, For, Show } from 'solid-js';
import { verdictOf } from '../../job/bench-codes.ts';
import type { BenchDocument } from '../../job/bench-document.ts';
import { BENCH, VERDICT } from '../../words/bench.ts';
import { day } from '../../words/format.ts';
import { issueText } from '../../words/issues.ts';
import { JOBS } from '../../words/jobs.ts';
import { failed, useServices } from '../context.ts';
import { type Kept, keep, loadAll, newId } from '../documents/store.ts';

/** Longest file that is read at all, bytes. */
const MOST_BYTES = 1_000_000;

const bad = ({ findings }: BenchDocument): number =>
  findings.filter((f) => verdictOf(f.point, f.reason) === 'bad').length;

/** One line a record: whose, when, what is wrong, and what it is not. */
export function RecordLines(props: { records: readonly Kept<BenchDocument>[] }) {
  return (
    <ul class="plates" data-testid="bench-records">
      <For each={props.records}>
        {({ id, document: d }) => (
          <li>
            <a class="plate-row" href={`#/bench/${id}`} data-testid={`bench-record-${id}`}>
              <strong>
                {d.deviceId}, {day(d.utcMs)}
              </strong>
              <span class="muted">
                {[
                  `${VERDICT.bad}: ${bad(d)}`,
                  ...(d.practice ? [BENCH.practiceMark] : []),
                  ...(d.origin === 'file' ? [BENCH.fileMark] : []),
                ].join(' · ')}
              </span>
            </a>
          </li>
        )}
      </For>
    </ul>
  );
}

/** All kept records, and one out of a file. */
export function KeptRecords() {
  const app = useServices();
  const [all, { refetch }] = createResource(() => loadAll(app, 'bench').catch(failed(app)));
  let input!: HTMLInputElement;
  const open = async (file: File) => {
    const { readBenchFile, BENCH_FILE_MOST } = await import('../../job/bench-file.ts');
    // Nothing so long is even decoded.
    const text = file.size > MOST_BYTES ? ' '.repeat(BENCH_FILE_MOST + 1) : await file.text();
    const parsed = readBenchFile(text);
    if (!parsed.ok) {
      const [first] = parsed.issues;
      app.say(BENCH.fileRefused(first === undefined ? '' : `${first.path} ${issueText(first, app.units())}`));
      return;
    }
    await keep(app, 'bench', newId('bench'), 0, parsed.value);
    app.say(BENCH.imported);
    void refetch();
  };
  return (
    <section class="stack" aria-label={BENCH.records}>
      <div class="row">
        <h2 class="grow">{BENCH.records}</h2>
        <button type="button" class="button quiet" data-testid="bench-open" onClick={() => input.click()}>
          {BENCH.open}
        </button>
        <input
          ref={input}
          type="file"
          accept=".json,application/json"
          hidden
          aria-label={BENCH.open}
          data-testid="bench-file"
          onChange={(e) => {
            const file = e.currentTarget.files?.[0];
            e.currentTarget.value = '';
            if (file !== undefined) open(file).catch(app.fail);
          }}
        />
      </div>
      <Show when={(all()?.kept.length ?? 0) > 0} fallback={<p class="muted">{BENCH.noRecords}</p>}>
        <RecordLines records={all()?.kept ?? []} />
      </Show>
      <Show when={(all()?.refused ?? 0) > 0}>
        <p class="note">{JOBS.refused(all()!.refused)}</p>
      </Show>
    </section>
  );
}
