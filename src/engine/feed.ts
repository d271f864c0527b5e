import type { Limits, Setup } from '../job/setup.ts';
import type { DeviceFrame, GuardFrame } from '../link/frames.ts';
import type { Greeting } from '../link/greeting.ts';
import { createSession, type Session } from '../link/session.ts';
import type { LinkError, LinkState } from '../link/status.ts';
import type { LogEntry, LogHead } from '../record/log.ts';
import { ENGINE } from '../watch/codes.ts';
import type { Command, Notice } from '../watch/inputs.ts';
import type { HostDeps, RigControl } from './deps.ts';
import { armLimit } from './device-limit.ts';
import { EngineError } from './errors.ts';
import { createEarlyLive, type Live, type LiveSink } from './live.ts';
import type { LinkView, PortChoice } from './messages.ts';
import { createScaledTimers, type ScaledTimers } from './scaled-timers.ts';

/**
 * The stream of entries into the run that is being watched: from the device by the link, from the operator and
 * from the machine. There is always a run to feed; before one is opened it is an early one, so the guard runs
 * from the first valid reading.
 */
export interface Feed {
  readonly live: Live;
  readonly rig: RigControl | null;
  readonly timers: ScaledTimers;
  /** µs on the run clock, never before the newest entry. */
  nowUs(): number;
  connect(choice: PortChoice): Promise<LinkState>;
  disconnect(): Promise<void>;
  command(command: Command): void;
  notice(notice: Notice): void;
  setup(setup: Setup): void;
  /** From now on entries go to this run, whose clock shows nowUs at this moment. The caller told what is watched. */
  switchTo(live: Live, nowUs: number): void;
  /** A fresh early run on the present connection. */
  startEarly(): void;
  /** Binds the link to the run's device; null frees it. */
  expectDevice(deviceId: string | null): void;
  link(): LinkView;
  session(): Session;
}

export interface FeedSink extends LiveSink {
  /** Something changed that the page should see soon. */
  stirred(): void;
  /** A new early run is watched from here on. */
  switched(): void;
}

const START_RATE_HZ = 50;
/** The device says its limit's state once a second; asking it again sooner than this would only fill the line. */
const ARM_AGAIN_US = 5_000_000;

/** The device keeps whole millibars, never above the ceiling. */
const deviceMbar = (limits: Limits): number => Math.floor(limits.ceilingBar * 1000);

export function createFeed(deps: HostDeps, sink: FeedSink): Feed {
  const timers = createScaledTimers(deps.timers);
  let session: Session | null = null;
  let rig: RigControl | null = null;
  let originUs = timers.nowUs();
  let live = createEarlyLive(earlyHead(), sink);
  let armedUs = Number.NEGATIVE_INFINITY;
  let arming = false;
  let armAgain = false;
  let deviceId: string | null = null;
  let connecting: Promise<unknown> = Promise.resolve();

  function earlyHead(): LogHead {
    return {
      format: 1,
      engine: ENGINE,
      runId: 'early',
      jobId: null,
      practice: false,
      utcMs: deps.utcMs(),
      software: deps.software,
    };
  }

  const runUs = (monoUs: number): number => Math.max(live.run.nowUs, Math.round(monoUs - originUs));
  const nowUs = (): number => runUs(timers.nowUs());

  function entry(e: LogEntry): void {
    live.entry(e);
    sink.stirred();
  }

  function notice(n: Notice): void {
    entry({ l: 'notice', tUs: nowUs(), notice: n });
  }

  function onFrame(frame: DeviceFrame, tUs: number): void {
    live.entry({ l: 'frame', tUs: runUs(tUs), frame });
    if (frame.t === 'G' && overCeiling(frame)) void arm(false);
    sink.stirred();
  }

  /** The device guards no limit, or one over the run's. */
  function overCeiling(guard: GuardFrame): boolean {
    const limits = live.run.setup?.limits ?? null;
    return limits !== null && (guard.limitMbar ?? Number.POSITIVE_INFINITY) > deviceMbar(limits);
  }

  /** Brings the device's own limit to the run's ceiling; the guard frames that follow tell the watch. */
  async function arm(anew: boolean): Promise<void> {
    const limits = live.run.setup?.limits ?? null;
    if (session === null || limits === null) return;
    if (arming) {
      // The answer that is awaited may be to a limit that holds no longer.
      armAgain ||= anew;
      return;
    }
    if (!anew && timers.nowUs() - armedUs < ARM_AGAIN_US) return;
    arming = true;
    armedUs = timers.nowUs();
    try {
      await armLimit(session, live.run.sensing, deviceMbar(limits));
    } finally {
      arming = false;
    }
    if (!armAgain) return;
    armAgain = false;
    await arm(true);
  }

  /** Asks the device for the rate and the limit of the Setup in force. */
  function apply(): void {
    const { setup } = live.run;
    if (setup !== null) session?.setRate(setup.rateHz).catch(() => undefined);
    void arm(true);
  }

  async function drop(): Promise<void> {
    const was = session;
    session = null;
    await was?.close();
    rig = null;
    timers.setSpeed(1, false);
  }

  function startEarly(): void {
    const greeting = session?.greeting ?? null;
    const state = session?.state ?? null;
    const { zero } = live.run.sensing;
    originUs = timers.nowUs();
    live = createEarlyLive(earlyHead(), sink);
    // After a run its limit stays in force, and with it the zero that its uncertainty counts on.
    if (zero !== null && zero.deviceId === greeting?.hello.deviceId) live.run.sensing.zero = zero;
    sink.switched();
    if (greeting !== null) {
      // The device says hello once; an early run that begins later needs it to understand the counts.
      for (const frame of [greeting.hello, ...greeting.channels]) entry({ l: 'frame', tUs: 0, frame });
    }
    if (state !== null) entry({ l: 'notice', tUs: 0, notice: { n: 'link', state } });
  }

  async function connect(choice: PortChoice): Promise<LinkState> {
    await drop();
    const opened = await deps.openPort(choice, timers);
    rig = opened.rig;
    timers.setSpeed(opened.speed, opened.rig !== null);
    // Until the device has said who it is nothing is judged, and what the early run tells stands: to press 'connect'
    // must not end an alarm. The same device goes on in the same early run, with its limit and its zero.
    let known = live.recorder !== null;
    const meet = ({ hello, channels }: Greeting): void => {
      if (known) return;
      known = true;
      if (opened.rig !== null || live.run.hello?.deviceId !== hello.deviceId) startEarly();
      else for (const frame of [hello, ...channels]) entry({ l: 'frame', tUs: nowUs(), frame });
    };
    const mine: Session = createSession(
      opened.port,
      timers,
      {
        frame: (frame, tUs) => {
          if (known) onFrame(frame, tUs);
        },
        stray: (reason, bytes, tUs) => {
          if (known) entry({ l: 'stray', tUs: runUs(tUs), reason, bytes });
        },
        state: (state) => {
          if (session === mine) notice({ n: 'link', state });
        },
        error: (_code: LinkError) => sink.stirred(),
        greeted: (greeting) => {
          meet(greeting);
          if (live.recorder !== null && deviceId === null) expectDevice(greeting.hello.deviceId);
          void arm(true);
        },
      },
      {
        rateHz: live.run.setup?.rateHz ?? START_RATE_HZ,
        deviceId: live.recorder === null ? null : deviceId,
        firstCommand: deps.random16(),
      },
    );
    session = mine;
    try {
      await mine.connect();
    } catch (cause) {
      if (session === mine) rig = null;
      throw cause;
    }
    return mine.state;
  }

  function expectDevice(id: string | null): void {
    deviceId = id;
    session?.expect(id);
  }

  return {
    get live() {
      return live;
    },
    get rig() {
      return rig;
    },
    timers,
    nowUs,
    connect(choice) {
      // One after the other: a second press must not open the port twice.
      const next = connecting.then(
        () => connect(choice),
        () => connect(choice),
      );
      connecting = next.catch(() => undefined);
      return next;
    },
    async disconnect() {
      await session?.close();
      await drop();
      sink.stirred();
    },
    command(command) {
      entry({ l: 'command', tUs: nowUs(), command });
      // The counts of a pressure are others now.
      if (command.c === 'zero') void arm(true);
    },
    notice,
    setup(setup) {
      entry({ l: 'setup', tUs: nowUs(), setup });
      if (live.run.setup !== setup) return; // refused by the watch, which said so
      apply();
    },
    switchTo(next, us) {
      originUs = timers.nowUs() - us;
      live = next;
      apply();
    },
    startEarly,
    expectDevice,
    link() {
      const s = session;
      return {
        state: s?.state ?? 'idle',
        error: s?.error ?? null,
        kind: s === null ? null : rig === null ? 'serial' : 'rig',
        hello: s?.greeting?.hello ?? null,
        channels: s?.greeting?.channels ?? [],
        deviceGuard: s?.guard ?? null,
        rateHz: s?.rateHz ?? null,
        frames: s?.frames ?? 0,
        strayBytes: s?.strayBytes ?? 0,
      };
    },
    session() {
      if (session === null || (session.state !== 'streaming' && session.state !== 'stopped'))
        throw new EngineError('not-connected', 'no device is connected');
      return session;
    },
  };
}
