import { createEffect, createMemo, createSignal, on, onCleanup } from 'solid-js';
import { type EngineClient, startEngine } from '../engine/client.ts';
import type { RunSummary, TraceWindow } from '../engine/messages.ts';
import { startEvidence } from '../evidence/client.ts';
import type { SensorRun } from '../job/sensor-check.ts';
import type { Wording } from '../job/wording.ts';
import { adviceOf, type Services } from '../screens/context.ts';
import { parseRoute, routeHash } from '../screens/route.ts';
import { UI } from '../words/ui.ts';
import { createAlarmSound } from './alarm-sound.ts';
import { createFarSender } from './far-sender.ts';
import { createLiveState } from './live-state.ts';
import { createNotices, type Notices } from './notices.ts';
import { createPageFaults, type PageFaults } from './page-fault.ts';
import { createReconnect } from './reconnect.ts';
import { createRunAccess } from './run-access.ts';
import { choosePort, knownPort, serialSupported } from './serial.ts';
import { createSettings } from './settings.ts';
import { type SoundBlock, Sounder } from './sound.ts';
import { createSoundTest } from './sound-test.ts';
import { Speaker, type SpeechState } from './speech.ts';
import { loadSpoken, type SpokenOrder } from './spoken.ts';
import { themeInForce } from './theme.ts';
import { canVibrate, vibrate } from './vibration.ts';
import { keepAwake } from './wake-lock.ts';

/** A silence that the page's own stall made is over as soon as the waiting messages are read. */
const SILENCE_GRACE_MS = 300;
/** Buckets of a run that was taken up again, for its live plot. */
const REFILL = { pieces: 16, points: 1250 } as const;

export interface AppServices extends Services {
  readonly notices: Notices;
  readonly faults: PageFaults;
}

/** Starts the engine and wires everything that only the page can do: sound, wake lock, routes, chooser. */
export function createServices(wording: Wording, engine: EngineClient = startEngine()): AppServices {
  const live = createLiveState();
  const [route, setRoute] = createSignal(parseRoute(location.hash));
  const [openRuns, setOpenRuns] = createSignal<readonly RunSummary[]>([]);
  const [blocked, setBlocked] = createSignal<SoundBlock>('press');
  const [speech, setSpeech] = createSignal<SpeechState>('off');
  const [awake, setAwake] = createSignal(false);
  const [nowMs, setNowMs] = createSignal(Date.now());
  const [printing, setPrinting] = createSignal(false);
  const [systemDark, setSystemDark] = createSignal(matchMedia('(prefers-color-scheme: dark)').matches);
  const [sensorRuns, setSensorRuns] = createSignal<readonly SensorRun[]>([]);

  const notices = createNotices();
  const fail = (error: unknown) => {
    const { title, todo, detail } = adviceOf(error);
    notices.fail(UI.failed(title, todo, detail));
  };

  const { settings, save } = createSettings(engine, fail);

  // Alarms are sounded from the message itself, before and apart from anything that is drawn: a hidden page still
  // sounds, and so does one whose picture failed.
  let spokenOrder: SpokenOrder | null = null;
  const speaker = new Speaker(wording.language, () => settings().sound.speech, setSpeech);
  const sounder = new Sounder(() => settings().sound.volume, setBlocked, {
    shake: (tone) => settings().sound.vibration && vibrate(tone),
    speaks: () => speaker.state() === 'ready',
    speak: (order) => speaker.say(order),
    hush: () => speaker.hush(),
  });
  const sound = createAlarmSound(
    sounder,
    () => settings().sound.cue,
    (alarm, view) => spokenOrder?.(alarm, view, settings().units) ?? null,
  );
  const soundTest = createSoundTest(nowMs);
  const noSound = () => blocked() ?? (soundTest.today() === 'not-heard' ? 'not-heard' : null);
  const faults = createPageFaults(sound.setFaulty);
  const tried = (work: () => void) => {
    try {
      work();
    } catch (error) {
      console.error(error);
      faults.tell(error);
    }
  };
  const far = createFarSender(() => settings().units);
  const stopNews = engine.on((news) => {
    tried(() => sound.take(news));
    tried(() => live.take(news));
    tried(() => far.take(news));
    if (news.m === 'open-runs') setOpenRuns(news.open);
    if (news.m === 'moment') tried(() => lock.check());
  });
  const tellSilence = (silent: boolean) => {
    tried(() => sound.setSilent(silent));
    tried(() => live.setSilent(silent));
  };
  const stopSilence = engine.onSilence((silent) => {
    if (silent) setTimeout(() => tellSilence(engine.silent), SILENCE_GRACE_MS);
    else tellSilence(false);
  });
  // Whatever else of the page throws (a press, a timer, a frame) has left its picture half drawn too. Notices of the
  // browser without an error of the page, as of a size that was not settled within a frame, are none.
  const onError = (event: ErrorEvent) => {
    if (event.error instanceof Error) faults.tell(event.error);
  };
  addEventListener('error', onError);
  const lock = keepAwake(() => live.run() !== null || live.link()?.state === 'streaming', setAwake);

  const onHash = () => {
    const next = parseRoute(location.hash);
    // The second screen is a window of its own: the page that watches does not turn into one.
    if (next.page === 'far') location.hash = '#/jobs';
    else setRoute(next);
  };
  const onPress = () => sounder.unlock();
  const dark = matchMedia('(prefers-color-scheme: dark)');
  const onDark = () => setSystemDark(dark.matches);
  // A run under way must not be lost to a stray gesture: the browser asks first.
  const onLeave = (event: BeforeUnloadEvent) => {
    if (live.run() !== null) event.preventDefault();
  };
  const onPrint = () => setPrinting(true);
  const onPrinted = () => setPrinting(false);
  addEventListener('beforeprint', onPrint);
  addEventListener('afterprint', onPrinted);
  addEventListener('hashchange', onHash);
  addEventListener('pointerdown', onPress);
  addEventListener('keydown', onPress);
  addEventListener('beforeunload', onLeave);
  dark.addEventListener('change', onDark);
  const clock = setInterval(() => setNowMs(Date.now()), 1000);
  onCleanup(() => {
    stopNews();
    far.close();
    stopSilence();
    sounder.close();
    speaker.close();
    removeEventListener('error', onError);
    removeEventListener('beforeprint', onPrint);
    removeEventListener('afterprint', onPrinted);
    removeEventListener('hashchange', onHash);
    removeEventListener('pointerdown', onPress);
    removeEventListener('keydown', onPress);
    removeEventListener('beforeunload', onLeave);
    dark.removeEventListener('change', onDark);
    clearInterval(clock);
    engine.close();
  });

  // Paper is white: what is drawn for it is drawn in the light colours.
  const theme = () => (printing() ? 'light' : themeInForce(settings().theme, systemDark()));
  createEffect(() => {
    document.documentElement.dataset.theme = theme();
  });
  createEffect(
    on(
      () => settings().sound.speech,
      (wanted) => {
        speaker.tell();
        if (wanted) {
          loadSpoken().then((spoken) => {
            spokenOrder = spoken;
          }, fail);
        }
      },
    ),
  );

  engine.ask({ q: 'start-engine' }).then((started) => setOpenRuns(started.open), fail);
  // What another tab left meanwhile is known before anything is begun here.
  createEffect(
    on(
      () => route().page === 'live',
      (onLive) => {
        if (onLive && live.run() === null)
          engine.ask({ q: 'look-left' }).then(({ open }) => setOpenRuns(open), fail);
      },
      { defer: true },
    ),
  );
  const readSensorRuns = async () => {
    const [runs, { sensorRunsOf }] = await Promise.all([
      engine.ask({ q: 'runs' }),
      import('./sensor-runs.ts'),
    ]);
    setSensorRuns(sensorRunsOf(runs));
  };
  // Read again whenever a run begins or ends: what it checked belongs to its sensors from then on.
  const runId = createMemo(() => live.run()?.runId);
  createEffect(
    on(runId, () => {
      readSensorRuns().catch(fail);
    }),
  );
  void navigator.storage?.persist?.().catch(() => false);

  const reconnecting = createReconnect({ ask: engine.ask, live, openRuns });

  const evidence = startEvidence();
  const runs = createRunAccess(engine.ask, evidence.ask, () => live.run()?.runId ?? null);
  return {
    runs,
    ask: (request) => engine.ask(request),
    evidence: (request, onProgress) => evidence.ask(request, onProgress),
    live,
    route,
    go: (next) => {
      location.hash = routeHash(next);
    },
    settings,
    saveSettings: save,
    units: () => settings().units,
    wording,
    theme,
    openRuns,
    reconnecting,
    sensorRuns,
    forgetOpenRun: (runId) => setOpenRuns((runs) => runs.filter((r) => r.runId !== runId)),
    refill: async (runId) => {
      const detail = await runs.detail(runId);
      const toS = Math.max(1, detail.lastS);
      // In pieces: the guard waits while a picture is made.
      const windows: TraceWindow[] = [];
      for (let k = 0; k < REFILL.pieces; k++) {
        const [fromS, untilS] = [k, k + 1].map((n) => (n * toS) / REFILL.pieces) as [number, number];
        windows.push(
          await engine.ask({ q: 'live-window', runId, fromS, toS: untilS, points: REFILL.points }),
        );
      }
      live.refill(detail, windows);
    },
    serial: { supported: serialSupported(), choose: choosePort, find: knownPort },
    sound: {
      state: noSound,
      play: (tone) => {
        sounder.unlock();
        sounder.once(tone);
      },
      test: soundTest.today,
      answer: soundTest.answer,
      speech,
      vibrates: canVibrate(),
    },
    soundBlocked: noSound,
    awake,
    nowMs,
    say: notices.say,
    fail,
    notices,
    faults,
  };
}
