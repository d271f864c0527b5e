import { createMemo, createSignal, For, type JSX, Show } from 'solid-js';
import type { RunSummary } from '../../engine/messages.ts';
import type { JobDocument } from '../../job/job-document.ts';
import type { Day, Repair, RepairState } from '../../plan/day.ts';
import { DAY } from '../../words/day.ts';
import { dateTime, duration, pressure, quantity } from '../../words/format.ts';
import { JOBS } from '../../words/jobs.ts';
import { UI } from '../../words/ui.ts';
import { useServices } from '../context.ts';
import type { Kept } from '../documents/store.ts';

/** Sheets of other days that are shown before somebody asks for all. */
const MOST_OTHERS = 6;

export type SheetRepair = Repair<Kept<JobDocument>, RunSummary>;
export type SheetDay = Day<Kept<JobDocument>, RunSummary>;

export interface DayKeys {
  again(repair: SheetRepair): void;
  /** Up (−1) or down (1) in today's order. */
  move(id: string, by: -1 | 1): void;
  date(repair: SheetRepair, date: string | null): void;
  remove(repair: SheetRepair): void;
}

/** Today's repairs in the crew's order, each with how far it has come and the key that leads on. */
export function TodayList(props: { day: SheetDay; today: string; keys: DayKeys; isRunning: boolean }) {
  return (
    <Show when={props.day.repairs.length > 0} fallback={<p class="muted">{DAY.none}</p>}>
      <ol class="plates" data-testid="today">
        <For each={props.day.repairs}>
          {(repair, i) => (
            <Row repair={repair} number={i() + 1} isRunning={props.isRunning} keys={props.keys}>
              <button
                type="button"
                class="button"
                disabled={i() === 0}
                data-testid={`up-${repair.sheet.id}`}
                onClick={() => props.keys.move(repair.sheet.id, -1)}
              >
                {DAY.up}
              </button>
              <button
                type="button"
                class="button"
                disabled={i() === props.day.repairs.length - 1}
                data-testid={`down-${repair.sheet.id}`}
                onClick={() => props.keys.move(repair.sheet.id, 1)}
              >
                {DAY.down}
              </button>
              <Show when={repair.state === 'planned'}>
                <button type="button" class="button" onClick={() => props.keys.date(repair, null)}>
                  {DAY.notToday}
                </button>
              </Show>
            </Row>
          )}
        </For>
      </ol>
    </Show>
  );
}

/** Sheets of other days: those to come, then the newest. */
export function OtherSheets(props: { day: SheetDay; today: string; keys: DayKeys; isRunning: boolean }) {
  const [all, setAll] = createSignal(false);
  const shown = createMemo(() => props.day.others.slice(0, all() ? undefined : MOST_OTHERS));
  return (
    <>
      <ul class="plates">
        <For each={shown()}>
          {(repair) => (
            <Row repair={repair} number={null} isRunning={props.isRunning} keys={props.keys}>
              <button
                type="button"
                class="button"
                data-testid={`to-today-${repair.sheet.id}`}
                onClick={() => props.keys.date(repair, props.today)}
              >
                {DAY.toToday}
              </button>
            </Row>
          )}
        </For>
      </ul>
      <Show when={!all() && props.day.others.length > MOST_OTHERS}>
        <button type="button" class="button quiet" onClick={() => setAll(true)}>
          {DAY.moreSheets(props.day.others.length)}
        </button>
      </Show>
    </>
  );
}

const WHERE: Readonly<Record<RepairState, (repair: SheetRepair) => string>> = {
  planned: ({ sheet }) => `#/live/${sheet.id}`,
  'left-open': () => '#/live',
  running: () => '#/live',
  'cure-reached': () => '#/live',
  ended: ({ run }) => `#/run/${run?.runId}`,
  sealed: ({ run }) => `#/run/${run?.runId}`,
  sent: ({ run }) => `#/run/${run?.runId}`,
};

/** A run under way is never left for another job. */
const STARTS: ReadonlySet<RepairState> = new Set<RepairState>(['planned', 'left-open']);
/** Nothing is left to be done. */
const DONE: ReadonlySet<RepairState> = new Set<RepairState>(['sent']);
/** What a sheet's run still needs goes on even where its sheet is removed; the sheet of one that runs is kept. */
const HELD: ReadonlySet<RepairState> = new Set<RepairState>(['left-open', 'running', 'cure-reached']);

export const isDone = ({ state }: Repair): boolean => DONE.has(state);

function Row(props: {
  repair: SheetRepair;
  number: number | null;
  isRunning: boolean;
  keys: DayKeys;
  children: JSX.Element;
}) {
  const app = useServices();
  // Rows are made anew when what they tell of changed.
  const { repair, keys } = props;
  const { id, document } = repair.sheet;
  const [open, setOpen] = createSignal(false);
  const facts = (): readonly string[] => {
    const { run } = repair;
    const { defect, resin } = document;
    return [
      defect.chainageM === null ? '' : quantity('distance', defect.chainageM, app.units()),
      props.number === null ? (document.date ?? '') : '',
      document.site,
      resin.resinBatch,
      run === null ? '' : dateTime(run.openedUtcMs),
      run === null || HELD.has(repair.state) ? '' : duration(run.seconds),
      run?.peakBar == null ? '' : JOBS.peak(pressure(run.peakBar, app.units())),
      run?.state === 'interrupted' ? JOBS.stateInterrupted : '',
    ].filter((fact) => fact !== '');
  };
  return (
    <li class="repair" classList={{ now: HELD.has(repair.state) }} data-testid={`repair-${id}`}>
      <a class="plate-row repair-what" href={`#/job/${id}`} data-testid={`job-${id}`}>
        <Show when={props.number !== null}>
          <span class="repair-number" aria-hidden="true">
            {props.number}
          </span>
        </Show>
        <span class="run-words">
          <strong>{document.title}</strong>
          <span class="muted">{facts().join(', ')}</span>
        </span>
        <span class="tag" classList={{ solid: !STARTS.has(repair.state) }} data-testid={`state-${id}`}>
          {DAY.states[repair.state]}
        </span>
      </a>
      <div class="repair-keys no-print">
        <Show when={!(props.isRunning && STARTS.has(repair.state))}>
          <a class="button grow" href={WHERE[repair.state](repair)} data-testid={`next-${id}`}>
            {DAY.next[repair.state]}
          </a>
        </Show>
        <button
          type="button"
          class="button grow"
          data-testid={`again-${id}`}
          onClick={() => keys.again(repair)}
        >
          {DAY.again}
        </button>
        <button
          type="button"
          class="button"
          aria-expanded={open()}
          aria-label={DAY.moreOf(document.title)}
          data-testid={`more-${id}`}
          onClick={() => setOpen(!open())}
        >
          {DAY.more}
        </button>
        <Show when={open()}>
          <div class="repair-more">
            {props.children}
            <a class="button" href={`#/card/${id}`} data-testid={`card-${id}`}>
              {UI.card}
            </a>
            <Show when={!HELD.has(repair.state)}>
              <button
                type="button"
                class="button"
                data-testid={`remove-${id}`}
                onClick={() => keys.remove(repair)}
              >
                {DAY.remove}
              </button>
            </Show>
          </div>
        </Show>
      </div>
    </li>
  );
}
