import {
  createEffect,
  createMemo,
  createResource,
  createSignal,
  For,
  on,
  onCleanup,
  onMount,
  Show,
} from 'solid-js';
import { ceilingOf, refText } from '../../evidence/messages.ts';
import { Choice, optionsOf, TextField } from '../../widgets/Fields.tsx';
import { Loading, NoAnswer } from '../../widgets/Loading.tsx';
import { ARCHIVE as A } from '../../words/archive.ts';
import { day } from '../../words/format.ts';
import { RECORDS as R } from '../../words/records.ts';
import { failed, useServices } from '../context.ts';
import { MOST_COMPARED, routeHash } from '../route.ts';
import { createSketches } from '../runs/sketches.ts';
import {
  type ArchiveFilter,
  asksRecord,
  CHIPS,
  type Chip,
  inChip,
  matching,
  NO_FILTER,
  type Told,
  waits,
} from './filter.ts';
import { Row } from './Row.tsx';

/** Rows that are drawn at a time; further ones come as the list is read downwards. */
const ROWS = 40;

/** What is looked for, and how far down, and what was ticked: still so when one comes back from a record. */
const [filter, setFilter] = createSignal<ArchiveFilter>(NO_FILTER);
const [most, setMost] = createSignal(ROWS);
const [ticked, setTicked] = createSignal<readonly string[]>([]);

/** Every record of this tablet and every file kept: the one bad job among a hundred is found here. */
export function Archive() {
  const app = useServices();
  const [all, { refetch }] = createResource(() => app.evidence({ q: 'archive' }).catch(failed(app)));
  const sketches = createSketches(app);
  // One that is not here any more is compared with nothing.
  const picked = createMemo(() => ticked().filter((id) => (all() ?? []).some((e) => refText(e.ref) === id)));
  const change = (part: Partial<ArchiveFilter>) => setFilter({ ...filter(), ...part });
  const rows = createMemo(() =>
    (all() ?? []).map((entry) => ({
      entry,
      // A run that is being recorded is looked at on the live page.
      sketch: () => (entry.state === 'open' ? null : sketches.of(entry.ref)),
    })),
  );
  /** undefined: it is made up with the record's picture, which is on its way. */
  const toldOf = ({ entry, sketch }: ReturnType<typeof rows>[number]): Told | undefined => {
    if (entry.cure !== null) return entry;
    const made = sketch();
    if (made === undefined) return undefined;
    const { account } = made ?? {};
    return { cure: account?.cure.state ?? null, ceiling: account === undefined ? null : ceilingOf(account) };
  };
  const found = createMemo(() => {
    const { chip: _, ...asked } = filter();
    const isFound = matching(asked, day);
    return rows().filter((r) => isFound(r.entry));
  });
  /** The other chips are not counted anew whenever a picture comes. */
  const inOf = (chip: Chip) =>
    found().filter((r) => inChip(r.entry, chip, asksRecord(chip) ? toldOf(r) : undefined));
  const shown = createMemo(() => inOf(filter().chip));
  const drawn = createMemo(() => shown().slice(0, most()));
  createEffect(on(filter, () => setMost(ROWS), { defer: true }));
  const counts = Object.fromEntries(
    CHIPS.map((chip) => [
      chip,
      // null: it is not known of every record yet.
      createMemo(() =>
        asksRecord(chip) && found().some((r) => toldOf(r) === undefined) ? null : inOf(chip).length,
      ),
    ]),
  ) as Record<Chip, () => number | null>;
  const jobs = createMemo(() => (all() ?? []).filter((e) => !e.practice));
  const waiting = () => jobs().filter(waits).length;
  const packers = createMemo(() => [
    { value: '', text: A.anyPacker },
    ...[...new Set((all() ?? []).map((e) => e.packer).filter((p) => p !== ''))]
      .sort()
      .map((p) => ({ value: p, text: p })),
  ]);
  const pick = (id: string, on: boolean) =>
    setTicked(on ? [...picked(), id].slice(-MOST_COMPARED) : picked().filter((p) => p !== id));
  return (
    <div class="page archive">
      <header class="archive-head">
        <h1>{A.title}</h1>
        <Show when={all()}>
          <p class="grow muted" role="status" data-testid="archive-count">
            {A.count(shown().length, filter().chip === 'practice' ? (all()?.length ?? 0) : jobs().length)},{' '}
            <strong>{waiting() === 0 ? R.noneWaiting : R.waiting(waiting())}</strong>
          </p>
        </Show>
        <TextField
          label={A.search}
          testId="archive-search"
          value={filter().text}
          onValue={(text) => change({ text })}
        />
        <a class="button" href="#/verify" data-testid="to-verify">
          {A.verify}
        </a>
      </header>
      <div class="archive-bar">
        <fieldset class="chips">
          <legend class="visually-hidden">{R.chipsLabel}</legend>
          <For each={CHIPS}>
            {(chip) => (
              <button
                type="button"
                class="chip"
                aria-pressed={filter().chip === chip}
                data-testid={`chip-${chip}`}
                onClick={() => change({ chip })}
              >
                {R.chips[chip]}
                <b>{counts[chip]() ?? '…'}</b>
              </button>
            )}
          </For>
        </fieldset>
        {/* The key comes where the hint stood: the rows under it do not move while they are ticked. */}
        <Show when={(all()?.length ?? 0) > 1}>
          <div class="archive-compare">
            <Show when={picked().length >= 2} fallback={<p class="small muted">{A.overlayHint}</p>}>
              <a
                class="button primary"
                data-testid="overlay"
                href={routeHash({ page: 'compare', ids: picked() })}
              >
                {A.overlay(picked().length)}
              </a>
            </Show>
          </div>
        </Show>
      </div>
      <details
        class="archive-filters"
        open={
          filter().from !== '' ||
          filter().to !== '' ||
          filter().packer !== '' ||
          filter().status !== 'any' ||
          filter().seal !== 'any'
        }
      >
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
        </div>
        <button type="button" class="button" onClick={() => setFilter(NO_FILTER)}>
          {A.clear}
        </button>
      </details>
      <Show
        when={all()}
        fallback={
          <Show when={all.loading} fallback={<NoAnswer onRetry={() => void refetch()} />}>
            <Loading onRetry={() => void refetch()} />
          </Show>
        }
      >
        {(list) => (
          <Show when={list().length > 0} fallback={<Nothing />}>
            <Show
              when={shown().length > 0}
              fallback={
                <Show when={jobs().length === 0} fallback={<p>{A.none}</p>}>
                  <div class="row">
                    <p>{A.onlyPractice(list().length)}</p>
                    <button
                      type="button"
                      class="button primary"
                      data-testid="show-practice"
                      onClick={() => setFilter({ ...NO_FILTER, chip: 'practice' })}
                    >
                      {A.showPractice}
                    </button>
                  </div>
                </Show>
              }
            >
              <div class="record-names" aria-hidden="true">
                <span />
                <span class="record-names-picture">
                  <span>{R.peak}</span>
                  <span>{R.course}</span>
                </span>
                <span>{R.job}</span>
                <span class="record-names-facts">
                  <span>{R.inBand}</span>
                  <span>{R.cure}</span>
                  <span>{R.alarms}</span>
                </span>
                <span>{R.state}</span>
              </div>
              <ul class="plates records">
                <For each={drawn()}>
                  {(r) => {
                    const id = refText(r.entry.ref);
                    return (
                      <Row
                        entry={r.entry}
                        sketch={r.sketch()}
                        picked={picked().includes(id)}
                        onPick={(on) => pick(id, on)}
                        pickLabel={A.pick(r.entry.title)}
                      />
                    );
                  }}
                </For>
              </ul>
              <Show when={shown().length > drawn().length}>
                <More left={shown().length - drawn().length} onMore={() => setMost(most() + ROWS)} />
              </Show>
            </Show>
          </Show>
        )}
      </Show>
    </div>
  );
}

/** The end of what is drawn: a press brings more, and so does coming near it. */
function More(props: { left: number; onMore(): void }) {
  let key: HTMLButtonElement | undefined;
  onMount(() => {
    if (typeof IntersectionObserver === 'undefined' || key === undefined) return;
    const near = new IntersectionObserver(
      (seen) => {
        if (seen.some((s) => s.isIntersecting)) props.onMore();
      },
      { rootMargin: '600px' },
    );
    // Each time anew: one that stays in sight would not be told again.
    createEffect(() => {
      void props.left;
      near.disconnect();
      near.observe(key!);
    });
    onCleanup(() => near.disconnect());
  });
  return (
    <button ref={key} type="button" class="button" data-testid="archive-more" onClick={() => props.onMore()}>
      {R.more(props.left)}
    </button>
  );
}

/** What will stand here, and the one press that fills it. */
function Nothing() {
  return (
    <section class="panel stack">
      <h2>{R.emptyTitle}</h2>
      <p>{R.emptyTodo}</p>
      <div class="row">
        <a class="button primary" href="#/live">
          {R.practise}
        </a>
      </div>
    </section>
  );
}
