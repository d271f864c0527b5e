import { batch, createSignal } from 'solid-js';
import type {
  FromEngine,
  LeftPacker,
  LinkView,
  RigView,
  RunDetail,
  RunView,
  TraceWindow,
} from '../engine/messages.ts';
import type { Setup } from '../job/setup.ts';
import type { LinkShown, Live } from '../screens/context.ts';
import type { WatchEvent } from '../watch/events.ts';
import type { WatchView } from '../watch/view.ts';
import type { StageSpan } from '../widgets/lanes/ribbon.ts';
import { LiveBuffer } from '../widgets/live-buffer.ts';
import { stageSpans } from '../widgets/spans.ts';
import { sharedParts } from './shared-parts.ts';

const MOST_EVENTS = 400;

const shownOf = ({ frames: _, strayBytes: __, ...shown }: LinkView): LinkShown => shown;

/** The newest events; those that say which limits were in force are kept as long as the run. */
function trimmed(events: readonly WatchEvent[]): readonly WatchEvent[] {
  const over = events.length - MOST_EVENTS;
  if (over <= 0) return events;
  return [...events.slice(0, over).filter((e) => e.e === 'limits'), ...events.slice(over)];
}

export interface LiveState extends Live {
  take(message: FromEngine): void;
  setSilent(silent: boolean): void;
  /** @param windows its trace, in one piece or in several */
  refill(detail: RunDetail, windows: readonly TraceWindow[]): void;
}

/** Turns the engine's notices into signals. No DOM, no clock: both are handed in. */
export function createLiveState(): LiveState {
  const [view, setView] = createSignal<WatchView | null>(null);
  const [link, setLink] = createSignal<LinkShown | null>(null);
  const [run, setRun] = createSignal<RunView | null>(null);
  const [rig, setRig] = createSignal<RigView | null>(null);
  const [version, setVersion] = createSignal(0);
  const [nowS, setNowS] = createSignal(0);
  const [stages, setStages] = createSignal<readonly StageSpan[]>([]);
  const [events, setEvents] = createSignal<readonly WatchEvent[]>([]);
  const [silent, setSilent] = createSignal(false);
  const [left, setLeft] = createSignal<readonly LeftPacker[]>([]);
  const [setup, setSetup] = createSignal<Setup | null>(null);
  const buffer = new LiveBuffer();
  let firstUs: number | null = null;
  let runId: string | null = null;

  const startOver = () => {
    buffer.clear();
    setStages([]);
    setEvents([]);
  };

  const noteStage = (next: WatchView) => {
    const spans = stages();
    const last = spans[spans.length - 1];
    const fromS = firstUs === null ? 0 : Math.max(0, (next.stageSinceUs - firstUs) / 1e6);
    if (last !== undefined && last.stage === next.stage && last.attempt === next.attempt) return;
    const closed = last === undefined ? [] : [...spans.slice(0, -1), { ...last, toS: fromS }];
    setStages([...closed, { stage: next.stage, attempt: next.attempt, fromS, toS: null }]);
  };

  const onMoment = (m: Extract<FromEngine, { m: 'moment' }>) => {
    const nextRun = m.run?.runId ?? null;
    const resumed = nextRun !== null && nextRun !== runId && m.run?.resumed === true;
    // A run's clock begins with the run: what was drawn before it belongs to another axis. Readings before the
    // first sample of a run are not drawn, and a resumed run is refilled from its record.
    if (nextRun !== runId && !resumed) startOver();
    else if (m.view.firstUs !== firstUs && firstUs !== null && nextRun === null) startOver();
    // A Setup is its own run's: the packer and resin of one run are never taken for those of the next.
    if (nextRun === null && runId !== null) setSetup(null);
    runId = nextRun;
    firstUs = m.view.firstUs;
    setView((before) => sharedParts(before, m.view));
    setLink((before) => sharedParts(before, m.link === null ? null : shownOf(m.link)));
    setRun((before) => sharedParts(before, m.run));
    setRig((before) => sharedParts(before, m.rig));
    setNowS(firstUs === null ? 0 : (m.view.tUs - firstUs) / 1e6);
    noteStage(m.view);
    if (m.fresh.s.length > 0) {
      buffer.append(m.fresh);
      setVersion((v) => v + 1);
    }
  };

  return {
    view,
    link,
    run,
    rig,
    buffer,
    version,
    nowS,
    stages,
    events,
    silent,
    left,
    setup,
    setSetup,
    take(message) {
      batch(() => {
        if (message.m === 'moment') onMoment(message);
        else if (message.m === 'event') setEvents((list) => trimmed([...list, message.event]));
        else if (message.m === 'left') setLeft(message.left);
      });
    },
    setSilent,
    refill(detail, windows) {
      batch(() => {
        for (const window of windows) buffer.load(window);
        setEvents(trimmed(detail.events));
        setStages(stageSpans(detail.events, detail.firstUs, null));
        const last = detail.setups[detail.setups.length - 1];
        if (last !== undefined) setSetup(last);
        setVersion((v) => v + 1);
      });
    },
  };
}
