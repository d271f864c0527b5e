import { type Accessor, createEffect, createMemo, createResource, createSignal, on } from 'solid-js';
import type { PortChoice, PortIds, PracticeCode, RunSummary } from '../../engine/messages.ts';
import type { JobBundle, Named } from '../../job/bundle.ts';
import { blankJob } from '../../job/job-document.ts';
import type { PackerDocument } from '../../job/packer-document.ts';
import type { ReadingMap } from '../../job/reading-map.ts';
import { isWanted } from '../../link/status.ts';
import type { Plan } from '../../plan/setup.ts';
import type { Advice } from '../../words/link.ts';
import { LIVE } from '../../words/live.ts';
import { listInForce } from '../checklist/in-use.ts';
import { adviceOf, failed, isStoreFault, type Services } from '../context.ts';
import { DEMO } from '../demo.ts';
import { keep, loadAll, newId } from '../documents/store.ts';
import { resumable } from '../packers-left.ts';
import { traineeName } from '../practice/trainee.ts';
import { planOf, withoutPractice } from '../setup-of.ts';
import { bundleOf } from '../sheet/bundle.ts';
import { suggestedTap } from '../sheet/tap.ts';
import { type KnownDevice, knownDevices } from './known-devices.ts';
import { practiceRig, siteOf, withCup } from './practice.ts';

export type StartStep = 'connect' | 'packer' | 'zero' | 'running';

export interface Start {
  readonly step: Accessor<StartStep>;
  readonly busy: Accessor<boolean>;
  readonly practice: Accessor<boolean>;
  /** Runs that were left open and can be gone on with now, first things first. */
  readonly resumable: Accessor<readonly RunSummary[]>;
  /** The one of them that is gone on with before anything is begun: what hangs on it may be full, or nothing else was asked for. */
  readonly resumeFirst: Accessor<RunSummary | null>;
  /** The job sheet that this live page was opened from. */
  readonly job: Accessor<JobBundle | null | undefined>;
  readonly packers: Accessor<readonly Named<PackerDocument>[]>;
  /** @param then a run that was left open and is gone on with as soon as its device answers */
  connectRig(then?: RunSummary): void;
  /** A practice site with more to be learnt at it. */
  connectPractice(site: PracticeCode): void;
  /** Must be called in a press. @param another ask for a port even where one is known; @param then as above */
  connectDevice(another: boolean, then?: RunSummary): void;
  /** Maps by which a bus or a plain line can be read instead. */
  readonly maps: Accessor<readonly Named<ReadingMap>[]>;
  /** The device that answered here last; null: none did. */
  readonly known: Accessor<KnownDevice | null>;
  /** Must be called in a press. */
  connectBy(map: ReadingMap): void;
  /** Gives up looking for the device; no fault is told. */
  stopTrying(): void;
  disconnect(): void;
  /** What the plan refuses of this job before mixing. */
  refusals(bundle: JobBundle): Plan['refusals'];
  useJob(bundle: JobBundle): void;
  usePacker(packer: Named<PackerDocument>, innerMm: number | null): void;
  usePractice(): void;
  gaugeOnly(): void;
  zero(): void;
  skipZero(): void;
  resume(run: RunSummary): void;
  /**
   * @param why it is ended though the line is not seen empty; kept in the record. null: nothing speaks against it
   * @param givenUp without the part of the record that its disk does not take
   * @param seenEmpty whoever ends it has seen that the packer is empty
   */
  endRun(why: string | null, givenUp?: boolean, seenEmpty?: boolean): void;
  /** Why the run could not be ended: pages wait that its disk does not take. */
  readonly unwritten: Accessor<Advice | null>;
  /** The run is not ended after all. */
  goOn(): void;
}

const isPort =
  (a: PortIds) =>
  (b: PortIds): boolean =>
    a.usbVendorId === b.usbVendorId && a.usbProductId === b.usbProductId;

/** The three presses: connect, packer, zero. Everything else can wait until the cure. */
export function createStart(app: Services, jobId: Accessor<string | null>): Start {
  const { live } = app;
  const [busy, setBusy] = createSignal(false);
  const [zeroSkipped, setZeroSkipped] = createSignal(false);
  const [unwritten, setUnwritten] = createSignal<Advice | null>(null);
  const state = () => live.link()?.state ?? 'idle';
  const connected = createMemo(() => isWanted(state()));
  const practice = createMemo(() => live.link()?.kind === 'rig');
  const runId = createMemo(() => live.run()?.runId ?? null);
  // Another device has another zero.
  const deviceId = createMemo(() => live.link()?.hello?.deviceId ?? null);
  createEffect(on([runId, deviceId], () => setZeroSkipped(false), { defer: true }));

  const step = createMemo<StartStep>(() => {
    const run = runId();
    if (run === null) return connected() ? 'packer' : 'connect';
    const view = live.view();
    // Before its first reading a run does not know whether its sensor was zeroed.
    const isUnread = view === null || view.firstUs === null;
    const isPrepared = view !== null && view.stage !== 'prepare';
    const needsZero = !isPrepared && (isUnread || view.standing.includes('not-zeroed')) && !zeroSkipped();
    return needsZero ? 'zero' : 'running';
  });

  const [asked] = createResource(jobId, (id) => bundleOf(app, id).catch(failed(app)));
  // The practice job itself is none for a real line, and what another sheet took from it does not serve there.
  const job = createMemo(() => {
    const bundle = asked();
    if (bundle == null || live.link()?.kind !== 'serial') return bundle;
    return bundle.jobId === DEMO.jobId ? null : withoutPractice(bundle);
  });
  const open = createMemo(() => resumable(app, connected() ? (live.link()?.kind ?? null) : null));
  const resumeFirst = createMemo(() => {
    const run = open()[0] ?? null;
    return run !== null && run.practice && jobId() !== null ? null : run;
  });
  const [packers] = createResource(connected, async (isConnected) => {
    if (!isConnected) return [];
    const all = await loadAll(app, 'packer').catch(failed(app));
    return (all?.kept ?? [])
      .filter((k) => !k.document.retired)
      .map((k) => ({ id: k.id, document: k.document }));
  });

  const during = (work: () => Promise<unknown>) => {
    if (busy()) return;
    setBusy(true);
    work()
      .catch(app.fail)
      .finally(() => setBusy(false));
  };

  const openRun = async (bundle: JobBundle | null, title: string) => {
    const plan = planOf(app, bundle, 1);
    const { setup } = plan;
    await app.ask({
      q: 'open-run',
      jobId: bundle?.jobId ?? null,
      title,
      practice: practice(),
      setup,
      ...(practice() ? { trainee: traineeName(app) } : {}),
    });
    live.setSetup(setup);
    // Begun in spite of a refusal (the resin is mixed already): said in the record, blocked by nothing.
    for (const refusal of plan.refusals)
      await app.ask({
        q: 'command',
        command: { c: 'override', what: refusal.code, reason: LIVE.mixedAlready },
      });
  };

  const goOn = async (run: RunSummary) => {
    await app.runs.resume(run.runId);
    app.forgetOpenRun(run.runId);
    await app.refill(run.runId);
  };
  /** A practice goes on at the site that it was begun at. */
  const siteOfRun = async (run: RunSummary): Promise<PortChoice> =>
    siteOf((await app.runs.detail(run.runId)).channels);
  let stopped = false;
  const connect = async (port: PortChoice, then?: RunSummary) => {
    stopped = false;
    try {
      await app.ask({ q: 'connect', port });
    } catch (cause) {
      if (stopped) return;
      throw cause;
    }
    if (then !== undefined) await goOn(then);
  };

  // Asked for while nothing is connected: each time anew, for one may have been written meanwhile.
  const unconnected = () => !connected();
  const [maps] = createResource(unconnected, async () => {
    const all = await Promise.all([loadAll(app, 'registers'), loadAll(app, 'columns')]).catch(failed(app));
    return (all ?? []).flatMap(({ kept }): Named<ReadingMap>[] =>
      kept.map((k) => ({ id: k.id, document: k.document })),
    );
  });
  const [known] = createResource(unconnected, () => knownDevices(app), { initialValue: [] });
  const firsts = () => known.latest.filter((k) => k.besideOf === null);
  const connectSerial = (another: boolean, map?: ReadingMap, then?: RunSummary) => {
    const ports = firsts()
      .map((k) => k.port)
      .filter((p) => map === undefined || p.map?.deviceId === map.deviceId);
    // The chooser must open in the press itself.
    const chosen = app.serial.choose(another, then?.port === undefined ? ports : [then.port, ...ports]);
    during(async () => {
      const port = await chosen;
      if (port === null) return;
      // A port is remembered with the map by which it was read; another one is asked who it is.
      const reads =
        map ?? (another || then !== undefined ? undefined : newest(ports.find(isPort(port))?.map));
      await connect(reads === undefined ? port : { ...port, map: reads }, then);
      await besideOf(then);
    });
  };
  const newest = (kept: ReadingMap | undefined): ReadingMap | undefined =>
    maps()?.find((m) => m.document.is === kept?.is && m.document.deviceId === kept.deviceId)?.document ??
    kept;
  /** The run's second adapter comes along where it is there; else the page says that its temperatures are missing. */
  const besideOf = async (then: RunSummary | undefined) => {
    const port = then?.beside === undefined ? null : await app.serial.find(then.beside);
    if (port !== null) await app.ask({ q: 'connect-beside', port }).catch(() => undefined);
  };

  return {
    step,
    busy,
    practice,
    resumable: open,
    resumeFirst,
    job,
    packers: () => packers() ?? [],
    connectRig: (then) =>
      during(async () => connect(then === undefined ? practiceRig('practice') : await siteOfRun(then), then)),
    connectPractice: (site) => during(() => connect(practiceRig(site))),
    connectDevice: (another, then) => connectSerial(another, then?.port?.map, then),
    known: () => firsts()[0] ?? null,
    maps: () => maps() ?? [],
    connectBy: (map) => connectSerial(false, map),
    stopTrying: () => {
      stopped = true;
      app.ask({ q: 'disconnect' }).catch(app.fail);
    },
    disconnect: () => during(() => app.ask({ q: 'disconnect' })),
    refusals: (bundle) => planOf(app, bundle, 1).refusals,
    useJob: (bundle) => during(() => openRun(bundle, bundle.job.title)),
    usePacker: (packer, innerMm) =>
      during(async () => {
        // A sheet is begun with what is known; the rest is filled during the cure.
        const id = newId('job');
        const blank = blankJob(packer.document.name);
        const document = {
          ...blank,
          checklist: await listInForce(app),
          date: new Date().toISOString().slice(0, 10),
          packerId: packer.id,
          pipe: { ...blank.pipe, innerMm },
          tap: suggestedTap(live.link()?.channels ?? []),
        };
        await keep(app, 'job', id, 0, document);
        await openRun({ jobId: id, job: document, packer, resin: null, sensors: [] }, document.title);
      }),
    usePractice: () =>
      during(async () => {
        const bundle = withCup((await bundleOf(app, DEMO.jobId)) ?? DEMO, live.link()?.channels ?? []);
        await openRun(bundle, bundle.job.title);
      }),
    gaugeOnly: () => during(() => openRun(null, LIVE.packerNone)),
    zero: () => during(() => app.ask({ q: 'command', command: { c: 'zero' } })),
    skipZero: () => {
      setZeroSkipped(true);
      during(() =>
        app.ask({ q: 'command', command: { c: 'override', what: 'zero', reason: LIVE.zeroReason } }),
      );
    },
    resume: (run) => during(() => goOn(run)),
    unwritten,
    goOn: () => setUnwritten(null),
    endRun: (why, givenUp = false, seenEmpty = false) =>
      during(async () => {
        setUnwritten(null);
        try {
          if (why !== null)
            await app.ask({ q: 'command', command: { c: 'override', what: 'end', reason: why } });
          const isDrill = live.run()?.practice === true && (live.rig()?.drill ?? null) !== null;
          const { runId: ended } = await app.ask({ q: 'end-run', givenUp });
          if (seenEmpty) await app.ask({ q: 'packer-empty', runId: ended, title: '' });
          app.go({ page: isDrill ? 'debrief' : 'review', runId: ended });
        } catch (cause) {
          if (givenUp || !isStoreFault(cause)) throw cause;
          setUnwritten(adviceOf(cause));
        }
      }),
  };
}
