import { createMemo, createResource, createSignal, For, Show } from 'solid-js';
import { type ArchiveEntry, refText } from '../../evidence/messages.ts';
import { Choice, optionsOf, TextField } from '../../widgets/Fields.tsx';
import { ARCHIVE as A } from '../../words/archive.ts';
import { EVIDENCE as E } from '../../words/evidence.ts';
import { dateTime, day, duration, pressure } from '../../words/format.ts';
import { JOBS } from '../../words/jobs.ts';
import { failed, useServices } from '../context.ts';
import { MOST_COMPARED, routeHash } from '../route.ts';
import { type ArchiveFilter, matches, NO_FILTER } from './filter.ts';

/** Every record of this tablet and every file kept: the one bad job among a hundred is found here. */
export function Archive() {
  const app = useServices();
  const [all] = createResource(() => app.evidence({ q: 'archive' }).catch(failed(app)));
  const [filter, setFilter] = createSignal<ArchiveFilter>(NO_FILTER);
  const [picked, setPicked] = createSignal<readonly string[]>([]);
  const change = (part: Partial<ArchiveFilter>) => setFilter({ ...filter(), ...part });
  const shown = createMemo(() => (all() ?? []).filter((e) => matches(e, filter(), day)));
  const packers = createMemo(() => [
    { value: '', text: A.anyPacker },
    ...[...new Set((all() ?? []).map((e) => e.packer).filter((p) => p !== ''))]
      .sort()
      .map((p) => ({ value: p, text: p })),
  ]);
  const pick = (id: string, on: boolean) =>
    setPicked(on ? [...picked(), id].slice(-MOST_COMPARED) : picked().filter((p) => p !== id));
  const href = (e: ArchiveEntry) =>
    e.ref.kind === 'run' ? `#/run/${e.runId}` : routeHash({ page: 'record', id: refText(e.ref) });
  return (
    <div class="page archive">
      <div class="row">
        <h1 class="grow">{A.title}</h1>
        <a class="button" href="#/verify" data-testid="to-verify">
          {A.verify}
        </a>
      </div>
      <TextField
        label={A.search}
        testId="archive-search"
        value={filter().text}
        onValue={(text) => change({ text })}
      />
      <details class="archive-filters">
        <summary>{A.filters}</summary>
        <div class="fields">
          <TextField label={A.from} type="date" value={filter().from} onValue={(from) => change({ from })} />
          <TextField label={A.to} type="date" value={filter().to} onValue={(to) => change({ to })} />
          <Choice
            label={A.packer}
            value={filter().packer}
            options={packers()}
            onValue={(packer) => change({ packer })}
          />
          <Choice
            label={A.status}
            testId="filter-status"
            value={filter().status}
            options={optionsOf<ArchiveFilter['status']>(A.statuses)}
            onValue={(status) => change({ status })}
          />
          <Choice
            label={A.seal}
            testId="filter-seal"
            value={filter().seal}
            options={optionsOf<ArchiveFilter['seal']>(A.seals)}
            onValue={(seal) => change({ seal })}
          />
          <Choice
            label={A.alarms}
            testId="filter-alarms"
            value={filter().alarms}
            options={optionsOf<ArchiveFilter['alarms']>(A.alarmed)}
            onValue={(alarms) => change({ alarms })}
          />
          <Choice
            label={A.kind}
            value={filter().kind}
            options={optionsOf<ArchiveFilter['kind']>(A.kinds)}
            onValue={(kind) => change({ kind })}
          />
        </div>
        <button type="button" class="button" onClick={() => setFilter(NO_FILTER)}>
          {A.clear}
        </button>
      </details>
      <Show
        when={all()}
        fallback={
          <Show when={all.loading}>
            <p role="status">…</p>
          </Show>
        }
      >
        {(list) => (
          <>
            <div class="row">
              <p class="muted grow" role="status" data-testid="archive-count">
                {A.count(shown().length, list().length)}
              </p>
              <Show
                when={picked().length >= 2}
                fallback={
                  <Show when={list().length > 1}>
                    <p class="small muted">{A.overlayHint}</p>
                  </Show>
                }
              >
                <a class="button" data-testid="overlay" href={routeHash({ page: 'compare', ids: picked() })}>
                  {A.overlay(picked().length)}
                </a>
              </Show>
            </div>
            <Show when={shown().length > 0} fallback={<p>{list().length === 0 ? A.empty : A.none}</p>}>
              <ul class="list">
                <For each={shown()}>
                  {(e) => (
                    <li class="archive-row">
                      <label class="tick archive-pick">
                        <input
                          type="checkbox"
                          checked={picked().includes(refText(e.ref))}
                          data-testid={`pick-${refText(e.ref)}`}
                          aria-label={A.pick(e.title)}
                          onChange={(ev) => pick(refText(e.ref), ev.currentTarget.checked)}
                        />
                      </label>
                      <a class="list-row grow" href={href(e)} data-testid={`record-${refText(e.ref)}`}>
                        <span class="list-main">{e.title === '' ? e.runId : e.title}</span>
                        <span class="list-side">
                          <Show when={e.practice}>
                            <span class="tag practice-tag">{JOBS.practiceTag}</span>
                          </Show>
                          <Show when={e.state !== 'ended'}>
                            <span class="tag">
                              {e.state === 'open' ? JOBS.stateOpen : JOBS.stateInterrupted}
                            </span>
                          </Show>
                          <Show when={e.imported}>
                            <span class="tag">{E.importedTag}</span>
                          </Show>
                          <Show when={e.sealed}>
                            <span class="tag">
                              {E.sealedTag}
                              {e.sealed?.signer === null ? `, ${E.unknownKey}` : ''}
                            </span>
                          </Show>
                          <Show when={e.status && e.status.status !== 'open'}>
                            <span class="tag strong">{E.statuses[e.status!.status]}</span>
                          </Show>
                        </span>
                        <span class="list-more">
                          {[
                            dateTime(e.openedUtcMs),
                            e.site,
                            e.packer,
                            duration(e.seconds),
                            e.peakBar === null ? '' : JOBS.peak(pressure(e.peakBar, app.units())),
                            e.gaps > 0 ? JOBS.gaps(e.gaps) : '',
                            e.alarms > 0 ? JOBS.alarms(e.alarms) : '',
                            e.status?.reason ?? '',
                          ]
                            .filter((t) => t !== '')
                            .join(', ')}
                        </span>
                      </a>
                    </li>
                  )}
                </For>
              </ul>
            </Show>
          </>
        )}
      </Show>
    </div>
  );
}
