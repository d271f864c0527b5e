import type { Setup } from '../job/setup.ts';
import type { DeviceFrame } from '../link/frames.ts';
import { type Greeting, identityOf, refusal } from '../link/greeting.ts';
import { createLineLog, type HeardLines } from '../link/line-log.ts';
import { createHostClock } from '../link/maps/host-clock.ts';
import type { TestRead } from '../link/maps/look.ts';
import { sourceOf } from '../link/maps/opening.ts';
import { testRead } from '../link/maps/test-read.ts';
import { createSession, type Session } from '../link/session.ts';
import { mostRateHz } from '../link/speeds.ts';
import { isWanted, type LinkState } from '../link/status.ts';
import type { FrameEntry } from '../record/log.ts';
import type { PortIds } from '../record/types.ts';
import type { Command } from '../watch/inputs.ts';
import { createBesideFeed } from './beside-feed.ts';
import type { CurrentRun } from './current-run.ts';
import type { HostDeps, OpenedPort, RigControl } from './deps.ts';
import { createDeviceLimit } from './device-limit.ts';
import { greetingEntries } from './early.ts';
import { EngineError } from './errors.ts';
import { otherDevice } from './intake.ts';
import { createKnownSpeeds } from './known-speeds.ts';
import { type LeftLimits, leftSetup } from './left-limits.ts';
import type { LinkView, MappedPort, PortChoice, SerialChoice } from './messages.ts';
import { sayRig } from './rig-said.ts';
import type { ScaledTimers } from './scaled-timers.ts';

/**
 * The stream of entries into the run that is going on: from the device by the link, and from the operator where
 * what was said concerns the device.
 */
export interface Feed {
  readonly rig: RigControl | null;
  connect(choice: PortChoice): Promise<LinkState>;
  disconnect(): Promise<void>;
  /**
   * A second adapter for temperatures, beside the device with the pressure.
   * @throws EngineError 'not-connected', 'refused' beside the simulated site; LinkFault where it does not answer
   */
  connectBeside(choice: SerialChoice): Promise<Greeting>;
  disconnectBeside(): Promise<void>;
  /** The port of the second adapter, while it is meant to be read; null: none. */
  besidePort(): PortIds | null;
  /**
   * What is connected is let go for it.
   * @throws EngineError 'run-open' while a run is recorded; LinkFault where the port does not open
   */
  testRead(port: MappedPort): Promise<TestRead>;
  command(command: Command): void;
  setup(setup: Setup): void;
  /**
   * The other device that answers goes on in the run, by this Setup of its own channels.
   * @throws EngineError 'no-run'; 'not-connected' where it answers no longer; 'refused' where the watch refuses the
   * Setup, or a practice would go on with a real line
   */
  takeDevice(deviceId: string, setup: Setup): Promise<void>;
  /** A fresh early run on the present connection. */
  startEarly(): void;
  /** What a run stopped with guards the real line until that run is gone on with or another job sets its own. */
  guardBy(left: LeftLimits): void;
  link(): LinkView;
  /** What came over the line from that number on, before a device has said who it is too. */
  lines(from: number): HeardLines;
  /** The serial port that was connected last, while it is meant to be read; null: none. */
  port(): PortIds | null;
  /** @throws EngineError 'not-connected' */
  session(): Session;
}

const START_RATE_HZ = 50;

function carries(session: Session | null): number | null {
  const { baudRate = null, greeting = null } = session ?? {};
  if (baudRate === null || greeting === null || greeting.map !== undefined) return null;
  return mostRateHz(greeting.channels, baudRate);
}

/**
 * @param stirred the page should see the moment soon
 * @param lookAtClock tells the run of a wall clock that jumped: before each frame, for it explains samples that are missing
 */
export function createFeed(
  deps: Pick<HostDeps, 'openPort' | 'random16' | 'documents' | 'timers' | 'utcMs'>,
  timers: ScaledTimers,
  current: CurrentRun,
  stirred: () => void,
  lookAtClock: () => void,
): Feed {
  let session: Session | null = null;
  let rig: RigControl | null = null;
  let port: PortIds | null = null;
  let giveUp: OpenedPort['giveUp'];
  let connecting: Promise<unknown> = Promise.resolve();
  let left: LeftLimits | null = null;
  const lineLog = createLineLog();
  const speeds = createKnownSpeeds(deps);
  // One for all connections: a cable that was out is no new start.
  const clock = createHostClock(deps.random16());
  const beside = createBesideFeed(deps, timers, current, speeds, stirred, lookAtClock);
  const limit = createDeviceLimit(timers, current, () => session);

  current.onSwitch(() => {
    if (current.live.record !== null) left = null;
    // Without a record too: who answers by itself in another's place is not taken for it.
    const greeting = session?.greeting ?? null;
    session?.expect(current.device ?? (greeting === null ? null : identityOf(greeting)));
    apply();
  });

  function onFrame(frame: DeviceFrame, tUs: number, of: Pick<FrameEntry, 'map' | 'raw'>): void {
    lookAtClock();
    current.entry({ l: 'frame', tUs: current.runUs(tUs), frame, ...of });
    if (frame.t === 'G') limit.check(frame);
  }

  /** Asks the device for the rate and the limit of the Setup in force. */
  function apply(): void {
    const { setup } = current.live.run;
    if (setup !== null) session?.setRate(setup.rateHz).catch(() => undefined);
    limit.renew();
  }

  async function drop(): Promise<void> {
    const was = session;
    session = null;
    await was?.close();
    giveUp?.();
    giveUp = undefined;
    rig = null;
    port = null;
    timers.setSpeed(1, false);
  }

  function take(setup: Setup): void {
    current.entry({ l: 'setup', tUs: current.nowUs(), setup });
    if (current.live.run.setup !== setup) return; // refused by the watch, which said so
    apply();
  }

  /** As soon as the device of the real line has said who it is. */
  function guardLeft(greeting: Greeting | null): void {
    const { record, run } = current.live;
    if (left === null || greeting === null || rig !== null || record !== null || run.setup !== null) return;
    take(leftSetup(left, greeting));
  }

  function startEarly(): void {
    current.startEarly({
      greeting: session?.greeting ?? null,
      state: session?.state ?? null,
      beside: beside.greeting,
    });
  }

  async function connect(choice: PortChoice): Promise<LinkState> {
    const { record, run } = current.live;
    if (choice.kind === 'rig' && record !== null && !run.head.practice)
      throw new EngineError('refused', 'the simulated site does not go on with a real run');
    await drop();
    lineLog.begin();
    const serial = choice.kind === 'serial' ? choice : null;
    const map = serial?.map;
    const order = serial === null ? undefined : map === undefined ? await speeds.order(serial) : [map.baud];
    if (choice.kind === 'rig') await beside.disconnect();
    const opened = await deps.openPort(choice, timers);
    giveUp = opened.giveUp;
    rig = opened.rig;
    opened.rig?.listen((said) => {
      if (rig === opened.rig) current.notice({ n: 'rig', said });
    });
    timers.setSpeed(opened.speed, opened.rig !== null);
    // Until the device has said who it is nothing is judged, and what the early run tells stands: to press 'connect'
    // must not end an alarm. The same device goes on in the same early run, with its limit and its zero.
    let known = current.live.record !== null;
    const meet = (greeting: Greeting): void => {
      if (known) return;
      known = true;
      const { run } = current.live;
      const before = run.hello === null ? null : { deviceId: run.hello.deviceId, channels: run.channels };
      if (opened.rig !== null || before === null || refusal(greeting, before) !== null) startEarly();
      else for (const said of greetingEntries(greeting, current.nowUs())) current.entry(said);
    };
    const mine: Session = createSession(
      opened.port,
      timers,
      {
        frame: (frame, tUs, raw) => {
          lineLog.frame(frame, tUs);
          if (!known) return;
          const hello = frame.t === 'H' && map !== undefined ? { map } : {};
          onFrame(frame, tUs, raw === undefined ? hello : { raw });
        },
        stray: (reason, bytes, tUs) => {
          lineLog.stray(reason, bytes, tUs, mine.baudRate);
          if (known) current.entry({ l: 'stray', tUs: current.runUs(tUs), reason, bytes });
        },
        state: (state) => {
          if (session === mine) current.notice({ n: 'link', state });
        },
        answers: (ok) => {
          if (session !== mine) return;
          current.notice({ n: 'answers', ok });
          if (ok) limit.renew();
        },
        error: () => stirred(),
        greeted: (greeting) => {
          meet(greeting);
          guardLeft(greeting);
          const identity = identityOf(greeting);
          if (current.live.record !== null && current.device === null) current.bindDevice(identity);
          mine.expect(identity);
          limit.renew();
        },
      },
      {
        rateHz: current.live.run.setup?.rateHz ?? START_RATE_HZ,
        expected: current.device,
        firstCommand: deps.random16(),
        ...(order === undefined ? {} : { speeds: order }),
        ...(map === undefined ? {} : { source: sourceOf(map, clock) }),
      },
    );
    session = mine;
    // A run that is gone on with is gone on with at another site, whose clock begins anew.
    if (known && opened.rig !== null) sayRig(current, opened.rig, '');
    try {
      await mine.connect();
    } catch (cause) {
      if (session === mine) rig = null;
      throw cause;
    }
    if (serial !== null) {
      const { usbVendorId, usbProductId } = serial;
      if (session === mine) port = { usbVendorId, usbProductId, ...(map === undefined ? {} : { map }) };
      if (mine.greeting !== null)
        void speeds.worked(serial, mine.baudRate ?? map?.baud ?? null, mine.greeting.hello.deviceId);
    }
    return mine.state;
  }

  return {
    get rig() {
      return rig;
    },
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
      await beside.disconnect();
      await session?.close();
      await drop();
      stirred();
    },
    async connectBeside(choice) {
      if (session === null || !isWanted(session.state))
        throw new EngineError('not-connected', 'the device with the pressure comes first');
      if (rig !== null) throw new EngineError('refused', 'the simulated site has no second adapter');
      return beside.connect(choice, session.greeting?.hello.deviceId ?? '');
    },
    disconnectBeside: () => beside.disconnect(),
    besidePort: () => beside.port,
    async testRead(choice) {
      if (current.live.record !== null) throw new EngineError('run-open', 'a run is recorded');
      await drop();
      const opened = await deps.openPort(choice, timers);
      try {
        return await testRead(opened.port, timers, choice.map);
      } finally {
        opened.giveUp?.();
      }
    },
    command(command) {
      current.entry({ l: 'command', tUs: current.nowUs(), command });
      // The counts of a pressure are others now.
      if (command.c === 'zero') limit.renew();
    },
    setup(setup) {
      left = null;
      take(setup);
    },
    async takeDevice(deviceId, setup) {
      const { live } = current;
      const to = session;
      if (live.record === null) throw new EngineError('no-run', 'no run is open');
      const heard = otherDevice(live.run)?.hello.deviceId;
      if (to === null || to.other?.hello.deviceId !== deviceId || heard !== deviceId)
        throw new EngineError('not-connected', `${deviceId} does not answer`);
      if (live.run.head.practice !== (rig !== null))
        throw new EngineError('refused', 'practice and real lines do not stand in for each other');
      // The two belong together: by the first Setup the second device would be read wrong.
      current.entry({ l: 'command', tUs: current.nowUs(), command: { c: 'take-device', deviceId } });
      current.entry({ l: 'setup', tUs: current.nowUs(), setup });
      if (live.run.setup !== setup) throw new EngineError('refused', 'the watch refuses its limits');
      const taken = identityOf(to.other);
      current.bindDevice(taken);
      void to.setRate(setup.rateHz).catch(() => undefined);
      to.expect(taken);
      if (to.state === 'idle') await to.connect();
    },
    startEarly,
    guardBy(limits) {
      if (current.live.record !== null) return;
      left = limits;
      guardLeft(session?.greeting ?? null);
    },
    port: () => port,
    lines: (from) => lineLog.since(from),
    link() {
      const s = session;
      return {
        state: s?.state ?? 'idle',
        error: s?.error ?? null,
        kind: s === null ? null : rig === null ? 'serial' : 'rig',
        port: port === null ? null : { usbVendorId: port.usbVendorId, usbProductId: port.usbProductId },
        hello: s?.greeting?.hello ?? null,
        channels: s?.greeting?.channels ?? [],
        other: s?.other ?? null,
        deviceGuard: s?.guard ?? null,
        rateHz: s?.rateHz ?? null,
        frames: s?.frames ?? 0,
        strayBytes: s?.strayBytes ?? 0,
        baudRate: s?.baudRate ?? null,
        mostHz: carries(s),
        strayLine: s?.strayLine ?? null,
        map: s?.greeting?.map ?? null,
        doubts: s?.doubts ?? [],
        beside: beside.view(),
      };
    },
    session() {
      if (session === null || (session.state !== 'streaming' && session.state !== 'stopped'))
        throw new EngineError('not-connected', 'no device is connected');
      return session;
    },
  };
}
