import { CommandError } from '../link/queue.ts';
import { pause } from '../link/timers.ts';
import { ENGINE } from '../watch/codes.ts';
import { checkDocument, checkMapped, checkPort, checkSerial, checkSetup } from './check-input.ts';
import { checkCommand } from './command-limits.ts';
import { createCurrentRun } from './current-run.ts';
import type { HostDeps } from './deps.ts';
import { armLimit } from './device-limit.ts';
import { EngineError, engineCode } from './errors.ts';
import { createFeed } from './feed.ts';
import { leftLimits } from './left-limits.ts';
import { createLeftPackers } from './left-packers.ts';
import type { EngineContract, RunSummary, ToEngine } from './messages.ts';
import { createMoments, momentOf } from './moments.ts';
import { startPulse } from './pulse.ts';
import { createRunList } from './run-list.ts';
import { isRunHeld, runLocks } from './run-locks.ts';
import { createRuns } from './runs.ts';
import { createScaledTimers } from './scaled-timers.ts';
import { createSettling, type OpenRuns } from './settling.ts';
import { checkSpeed } from './speed.ts';
import { createWallClock } from './wall-clock.ts';
import { createAnswers, type Handlers } from './worker/answers.ts';

/** The engine behind the worker's shell: answers requests, keeps time, shows moments. */
export interface Host {
  /** Answers by deps.post; never throws, whatever the message. */
  receive(message: ToEngine): void;
  /** Starts the timers: ticks, moments, flushes, beats. */
  start(): void;
}

/**
 * The clock is looked at twenty times a second. After so long without a look the tablet slept, on a system whose
 * monotonic clock counts sleep, µs.
 */
const STOOD_STILL_US = 10e6;

export function createHost(deps: HostDeps): Host {
  const timers = createScaledTimers(deps.timers);
  const moments = createMoments(deps.timers, () => deps.post(momentOf(current, feed, timers.speed)));
  const current = createCurrentRun(deps, timers, moments.stirred);
  const wall = createWallClock(deps.utcMs, deps.timers.nowUs);
  let lookedUs = deps.timers.nowUs();
  function lookAtClock(): void {
    const awayUs = deps.timers.nowUs() - lookedUs;
    lookedUs += awayUs;
    if (awayUs > STOOD_STILL_US) current.slept();
    const seconds = wall.jumpS();
    if (seconds !== null) current.notice({ n: 'clock-jump', seconds });
  }
  const feed = createFeed(deps, timers, current, moments.stirred, lookAtClock);
  const runList = createRunList(deps.documents, deps.files, deps.utcMs);
  const leftPackers = createLeftPackers(
    deps.documents,
    deps.utcMs,
    (runId) => isRunHeld(deps, runId),
    (left) => deps.post({ m: 'left', left }),
  );
  const runs = createRuns(deps, current, feed, runList, leftPackers);
  const settling = createSettling(deps, runList);

  function rig() {
    if (feed.rig === null) throw new EngineError('not-a-rig', 'no simulated rig is connected');
    return feed.rig;
  }

  /** The record of a run, while that run is recorded. */
  function recorded(runId: string) {
    const { record } = current.live;
    if (record?.title.runId !== runId) throw new EngineError('no-run', 'that run is not open');
    return record;
  }

  const readLeft = (): Promise<void> => leftPackers.read(current.live.record?.title.runId ?? null);

  const awaited = new Set<string>();
  /** Guards by what is left open, and looks again when a run that another tab records is given up. */
  function guardOpen({ left, held }: OpenRuns): readonly RunSummary[] {
    // By itself: a long run takes a while to be read, and nothing waits for it.
    void leftLimits(deps, left).then((limits) => limits !== null && feed.guardBy(limits));
    for (const runId of held) {
      if (awaited.has(runId) || runId === current.live.record?.title.runId) continue;
      awaited.add(runId);
      deps.locks
        .released(runLocks({ runId, jobId: null })[0]!)
        .then(async () => {
          awaited.delete(runId);
          deps.post({ m: 'open-runs', open: await lookLeft() });
        })
        // Where the platform does not say so, it is seen when the live page is opened.
        .catch(() => awaited.delete(runId));
    }
    return left;
  }

  async function lookLeft(): Promise<readonly RunSummary[]> {
    const open = await settling.open();
    await readLeft();
    return guardOpen(open);
  }

  const handlers: Handlers<EngineContract> = {
    'start-engine': async () => {
      // One after the other: each looks whether another tab holds a run by taking its name for a moment.
      try {
        return { engine: ENGINE, open: guardOpen(await settling.begin()) };
      } finally {
        await readLeft();
      }
    },
    'look-left': async () => ({ open: await lookLeft() }),
    connect: async ({ port }) => ({ state: await feed.connect(checkPort(port)) }),
    disconnect: async () => {
      await feed.disconnect();
      return null;
    },
    'connect-beside': async ({ port }) => {
      const { hello, channels } = await feed.connectBeside(checkSerial(port));
      return { hello, channels };
    },
    'disconnect-beside': async () => {
      await feed.disconnectBeside();
      return null;
    },
    'test-read': ({ port }) => feed.testRead(checkMapped(port)),
    'open-run': async (request) => ({ runId: await runs.open(request) }),
    'resume-run': async ({ runId }) => ({ runId: await runs.resume(runId) }),
    'close-interrupted': async ({ runId }) => {
      await runs.closeInterrupted(runId);
      return null;
    },
    'end-run': async ({ givenUp }) => ({ runId: await runs.end(givenUp ?? false) }),
    'packer-empty': async ({ runId, title }) => {
      await runs.sayEmpty(runId, title);
      return null;
    },
    setup: ({ setup }) => {
      feed.setup(checkSetup(setup));
      return null;
    },
    'take-device': async ({ deviceId, setup }) => {
      await feed.takeDevice(deviceId, checkSetup(setup));
      return null;
    },
    command: ({ command }) => {
      feed.command(checkCommand(command));
      return null;
    },
    'device-limit': async ({ mbar }) => {
      const { setup, sensing } = current.live.run;
      if (setup === null) throw new EngineError('refused', 'no setup names the pressure channel');
      const { kept, mbar: now } = await armLimit(feed.session(), sensing, mbar);
      return { kept, mbar: now };
    },
    'device-silence': async () => {
      await feed.session().ask({ verb: 'silence' });
      return null;
    },
    'bench-lines': ({ from }) => feed.lines(from),
    'bench-guard': async ({ verb }) => {
      const { record, run } = current.live;
      if (record !== null) throw new EngineError('run-open', 'a run is recorded');
      if (run.setup?.limits != null) throw new EngineError('refused', 'a limit is in force');
      const session = feed.session();
      try {
        return { result: (await session.ask(verb)).result };
      } catch (cause) {
        if (cause instanceof CommandError) return { result: null };
        throw cause;
      }
    },
    'rig-hand': ({ hand }) => {
      rig().hand(hand);
      return null;
    },
    'rig-fault': ({ fault }) => {
      rig().fault(fault);
      return null;
    },
    'rig-speed': ({ speed }) => {
      rig();
      timers.setSpeed(checkSpeed(speed), true);
      return null;
    },
    'live-window': ({ runId, fromS, toS, points }) => {
      recorded(runId);
      return current.live.watched.trace.window(fromS, toS, points);
    },
    runs: () => settling.listed(),
    'run-pages': ({ runId, from }) => ({ bytes: recorded(runId).pages(from) }),
    documents: ({ kind }) => deps.documents.list(kind),
    document: ({ kind, id }) => deps.documents.get(kind, id),
    'put-document': ({ document }) => deps.documents.put(checkDocument(document)),
    'remove-document': async ({ kind, id }) => {
      await deps.documents.remove(kind, id);
      return null;
    },
    storage: async () => ({
      persisted: await deps.files.persisted().catch(() => null),
      roomBytes: await deps.files.room().catch(() => null),
      faults: deps.storeFaults,
    }),
  };

  const answer = createAnswers<EngineContract>({
    handlers,
    codeOf: engineCode,
    post: (message) => deps.post(message),
    pause: () => pause(deps.timers, 0),
  });

  return {
    receive(message) {
      void answer(message).then(() => moments.stirred());
    },
    start() {
      const flush = (): void => {
        current.flush();
        runs.followEnded();
      };
      startPulse(deps, { advance: current.advance, flush }, moments, lookAtClock);
    },
  };
}
