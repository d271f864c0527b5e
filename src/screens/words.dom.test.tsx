import { readdirSync, readFileSync } from 'node:fs';
import type { JSX } from 'solid-js';
import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import { BACKUP_GROUPS } from '../evidence/backup/messages.ts';
import { BENCH_POINTS, BENCH_REASONS } from '../job/bench-codes.ts';
import type { WatchEvent } from '../watch/events.ts';
import { chooseWords, loadWords } from '../words/chosen.ts';
import { STAGE_DOUBT } from '../words/en/doubts.ts';
import { LANGUAGES } from '../words/languages.ts';
import { PSEUDO, untranslated, WITH_PSEUDO } from '../words/testing/pseudo.ts';
import { draw, told } from './testing/told.tsx';
import { DATA, watchView } from './testing/told-data.ts';
import { services } from './testing/told-services.ts';

// The pages in a language that no file of theirs knows: whatever a reader sees or hears comes from the catalogue. They
// are loaded once its words are there, as the app loads them.

const WORDING = { language: PSEUDO, decimal: 'comma' } as const;
/** All kinds of event that the golden logs hold. */
const EVENTS = readdirSync('fixtures/golden').flatMap(
  (file) => (JSON.parse(readFileSync(`fixtures/golden/${file}`, 'utf8')) as { events: WatchEvent[] }).events,
);

beforeAll(async () => {
  await chooseWords(WORDING, WITH_PSEUDO);
  await loadWords('further');
});

/** Points that are no decimal mark of the reader's: versions, clauses of standards, a sample of the mark itself. */
const POINTS = ['0.1.0', 'X1.1', 'X1.2', '(1.5)', '12.4 m'] as const;

let end: (() => void) | null = null;
afterEach(() => {
  end?.();
  end = null;
});

/** Draws, opens what is folded, waits until the answers are there. */
async function show(
  page: () => JSX.Element,
  options: Parameters<typeof services>[1] = {},
): Promise<string[]> {
  end = await draw(services(WORDING, options), page);
  for (let i = 0; i < 20; i++) await new Promise((resolve) => setTimeout(resolve, 5));
  return [...told()];
}

/** @param least texts that the page must tell, so that a page which did not come up is no page without faults */
function allTranslated(texts: readonly string[], least: number): void {
  const bare = texts.filter((t) => untranslated(t, DATA) !== '');
  expect(bare).toEqual([]);
  expect(texts.filter((t) => t.includes('\u27e6')).length).toBeGreaterThanOrEqual(least);
  // A number with a point took no notice of the reader's decimal mark.
  expect(
    texts.filter((t) => /\d\.\d/.test(POINTS.reduce((rest, known) => rest.replaceAll(known, ''), t))),
  ).toEqual([]);
}

describe('in another language nothing is told in English by', () => {
  it('the list of jobs', async () => {
    const { Jobs } = await import('./jobs/Jobs.tsx');
    allTranslated(await show(() => <Jobs />), 15);
  });

  it('the steps to a run', async () => {
    const { StartPanel } = await import('./live/StartPanel.tsx');
    const { createStart } = await import('./live/start.ts');
    for (const step of ['connect', 'packer', 'zero'] as const) {
      const texts = await show(
        () => {
          const app = services(WORDING, { view: watchView('prepare', { bar: 1.2 }), events: EVENTS });
          // Made once: what stands in a property is made anew whenever it is read.
          const start = { ...createStart(app, () => 'demo-job'), step: () => step };
          return <StartPanel start={start} />;
        },
        { view: watchView('prepare'), events: EVENTS },
      );
      allTranslated(texts, 6);
      end?.();
    }
  });

  it.each(['prepare', 'seat', 'inflate', 'hold', 'let-down', 'done', 'abandoned'] as const)(
    'the live page in stage %s',
    async (stage) => {
      const { Live } = await import('./live/Live.tsx');
      const { Facts } = await import('./live/Facts.tsx');
      const { RunBar } = await import('./live/RunBar.tsx');
      const { RigPanel } = await import('./live/RigPanel.tsx');
      const { Alarms } = await import('./live/more/Alarms.tsx');
      const { Stages, Why } = await import('./live/more/Stages.tsx');
      const { GaugeCheck, Note, WarmCheck, Witness } = await import('./live/Tasks.tsx');
      const { createStart } = await import('./live/start.ts');
      const { createMore } = await import('./live/more/state.ts');
      const { createActions } = await import('./live/actions.ts');
      const { NO_CHECKLIST } = await import('./live/checklist.ts');
      const view = watchView(stage);
      const app = services(WORDING, { view, events: EVENTS });
      const page = () => {
        const start = createStart(app, () => null);
        const more = createMore();
        const actions = createActions(app, start, more);
        return (
          <>
            <Live jobId={null} />
            <Facts />
            <RunBar start={start} />
            <RigPanel />
            <Alarms actions={actions} reason="" onReason={() => undefined} />
            <Stages actions={actions} checklist={NO_CHECKLIST} />
            <Why
              asked={{ to: stage, doubts: Object.keys(STAGE_DOUBT) as never }}
              checklist={NO_CHECKLIST}
              onGo={() => undefined}
              reason=""
              onReason={() => undefined}
              onSend={() => undefined}
              onBack={() => undefined}
            />
            <GaugeCheck more={more} />
            <WarmCheck />
            <Note />
            <Witness />
          </>
        );
      };
      allTranslated(await show(page, { view, events: EVENTS }), 60);
    },
  );

  it.each(['prepare', 'seat', 'inflate', 'hold', 'let-down', 'done', 'abandoned'] as const)(
    'the live page in stage %s without an alarm',
    async (stage) => {
      const { Live } = await import('./live/Live.tsx');
      const view = watchView(stage, { alarms: [], question: null });
      allTranslated(await show(() => <Live jobId={null} />, { view, events: EVENTS }), 8);
    },
  );

  it('the strip of the live page and of the others, with an alarm and without', async () => {
    const { StripState } = await import('../app/strip/StripState.tsx');
    const { AlarmBar } = await import('../app/strip/AlarmBar.tsx');
    const { Strip } = await import('../app/strip/Strip.tsx');
    for (const alarms of [watchView('hold').alarms, []]) {
      const view = watchView('hold', { alarms });
      const app = services(WORDING, { view, events: EVENTS }) as never;
      const page = () => (
        <>
          {[true, false].flatMap((onLive) =>
            [true, false].map((small) => (
              <Strip page="live" small={small} narrow={small} crowded={small} practice>
                <StripState app={app} onLive={onLive} small={small} counted={small} brief={small} />
              </Strip>
            )),
          )}
          {alarms.map((alarm) => (
            <AlarmBar app={app} alarm={alarm} onGo={() => undefined} />
          ))}
        </>
      );
      allTranslated(await show(page, { view, events: EVENTS }), 20);
      end?.();
    }
  });

  it('the widgets of the live page', async () => {
    const { CureLine } = await import('../widgets/CureLine.tsx');
    const { Legend } = await import('../widgets/Legend.tsx');
    const { StageRibbon } = await import('../widgets/StageRibbon.tsx');
    const { METRIC: units } = await import('../units/display.ts');
    const view = watchView('hold');
    const page = () => (
      <>
        {[null, 1e12].map((nowUtcMs) => (
          <CureLine
            cure={view.cure}
            cup={{ verdict: 'slow', doubt: null, times: { least: 1.2, value: 1.4, most: 1.6 }, c: 31 }}
            hasResin
            isLightCured={false}
            stage="hold"
            asksSample={nowUtcMs === null}
            nowUtcMs={nowUtcMs}
            units={units}
          />
        ))}
        <CureLine
          cure={null}
          cup={null}
          hasResin={false}
          isLightCured={false}
          stage="hold"
          asksSample={false}
          nowUtcMs={0}
          units={units}
        />
        <Legend
          series={[
            { name: 'bar', place: null },
            { name: 'second', place: 'outlet-pressure' },
            { name: 'second', place: 'check-pressure' },
            { name: 'temperature', place: 'sleeve' },
            { name: 'temperature', place: null },
          ].map((s) => ({ ...s, channel: 0, min: new Float32Array(0), max: new Float32Array(0) }) as never)}
        />
        <StageRibbon
          spans={[{ stage: 'hold', attempt: 2, fromS: 0, toS: 90 }]}
          fromS={0}
          toS={100}
          left={0}
          plotRight={90}
          right={120}
          height={30}
          small={false}
          clock="0:10"
        />
      </>
    );
    allTranslated(await show(page), 15);
  });

  it('the job sheet', async () => {
    const { Sheet } = await import('./sheet/Sheet.tsx');
    const texts = await show(() => <Sheet jobId="demo-job" />, { view: watchView('prepare') });
    allTranslated(texts, 60);
    document.querySelector<HTMLElement>('[data-testid="all-fields"]')?.click();
    allTranslated([...told()], 150);
    end?.();
    allTranslated(await show(() => <Sheet jobId="gone" />), 2);
  });

  it.each(['packer', 'resin', 'sensor'] as const)('the %s pages', async (kind) => {
    const { Documents } = await import('./documents/Documents.tsx');
    allTranslated(await show(() => <Documents kind={kind} id={null} />), 2);
    end?.();
    const id = { packer: 'demo-packer', resin: 'demo-resin', sensor: 'demo-transducer' }[kind];
    allTranslated(await show(() => <Documents kind={kind} id={id} />), 20);
    end?.();
    allTranslated(await show(() => <Documents kind={kind} id="new" />), 15);
  });

  it('settings and about', async () => {
    const { Settings } = await import('./settings/Settings.tsx');
    const { About } = await import('./about/About.tsx');
    // Languages are named in themselves.
    // A language is named in itself.
    const names = Object.values(LANGUAGES).map((l) => l.name);
    const texts = (await show(() => <Settings />)).filter((t) => !names.includes(t));
    allTranslated(texts, 40);
    end?.();
    allTranslated(await show(() => <About version="0.1.0" />), 20);
  });

  it('a run’s lists, its seal and what was added', async () => {
    const { EventList } = await import('./review/EventList.tsx');
    const { Numbers } = await import('./review/Numbers.tsx');
    const { RecordPart } = await import('./review/RecordPart.tsx');
    const { PutAwayPart } = await import('./review/PutAwayPart.tsx');
    const { AccountPart } = await import('./review/AccountPart.tsx');
    const { NumberRows } = await import('./review/NumberRows.tsx');
    const { NoteLane } = await import('./review/NoteLane.tsx');
    const { notesOf } = await import('./review/notes.ts');
    const source = { kind: 'run', runId: 'run-0001' } as const;
    const app = services(WORDING, { events: EVENTS });
    const detail = await app.runs.detail('run-0001');
    const spans = [{ stage: 'hold', attempt: 2, fromS: 0, toS: 90 }] as const;
    const told = (await app.evidence({ q: 'sketch', ref: source }))!;
    const page = () => (
      <>
        <AccountPart
          source={source}
          summary={detail.summary}
          told={told}
          verdict={null}
          clock={() => ''}
          onDecision={() => undefined}
        />
        <NumberRows told={told} clock={() => ''} isWhole={true} />
        <NoteLane
          notes={notesOf(EVENTS, 0).values()}
          view={{ fromS: 0, toS: 1e4 }}
          box={{ left: 0, right: 0 }}
          onShow={() => undefined}
        />
        <EventList
          events={EVENTS}
          notes={notesOf(EVENTS, 0)}
          firstUs={0}
          utcMs={1e12}
          onShow={() => undefined}
        />
        <Numbers detail={detail} spans={spans} />
        <RecordPart source={source} detail={detail} view={{ fromS: 0, toS: 1 }} onRead={() => undefined} />
        <PutAwayPart detail={detail} spans={spans} />
      </>
    );
    allTranslated(await show(page, { events: EVENTS }), 60);
  });

  it('archive, verify page, keys, folder, backup, bench and witness log', async () => {
    const { Archive } = await import('./archive/Archive.tsx');
    const { Verify } = await import('./verify/Verify.tsx');
    const { Keys } = await import('./verify/Keys.tsx');
    const { Office } = await import('./office/Office.tsx');
    const { Backup } = await import('./backup/Backup.tsx');
    const { Bench } = await import('./bench/Bench.tsx');
    const { Findings } = await import('./bench/Findings.tsx');
    const found = BENCH_POINTS.flatMap((point) =>
      Object.keys(BENCH_REASONS[point]).map((reason) => ({
        ...{ point, reason, channel: 1 },
        ...{ value: 0.25, against: 3.5, more: 90 },
      })),
    );
    const { WitnessLog } = await import('./witness/WitnessLog.tsx');
    for (const [page, least] of [
      [() => <Archive />, 30],
      [() => <Verify expected="" />, 4],
      [() => <Keys />, 10],
      [() => <Office />, 12],
      [() => <Backup />, 8],
      [() => <Bench id={null} />, 9],
      [() => <Bench id="bench-1" />, 15],
      [() => <Findings findings={found} />, 60],
      [() => <WitnessLog />, 25],
    ] as const) {
      allTranslated(await show(page), least);
      end?.();
    }
  });

  it('the tailgate card', async () => {
    const { Card } = await import('./card/Card.tsx');
    // The practice job's own crew.
    const texts = await show(() => <Card jobId="demo-job" />);
    allTranslated(
      texts.filter((t) => t !== 'A.B., C.D.'),
      60,
    );
  });

  it('the drills and a debrief', async () => {
    const { Practice } = await import('./practice/Practice.tsx');
    const { DebriefPage } = await import('./practice/Debrief.tsx');
    allTranslated(await show(() => <Practice />), 40);
    end?.();
    allTranslated(await show(() => <DebriefPage id="run-0001" />), 25);
  });

  it('the bench with a device on it', async () => {
    const { Bench } = await import('./bench/Bench.tsx');
    const app = services(WORDING);
    end = await draw({ ...app, live: { ...app.live, run: () => null } }, () => <Bench id={null} />);
    await new Promise((resolve) => setTimeout(resolve, 500));
    allTranslated(told(), 30);
  });

  it('what a file was found to be, what a backup holds, what the folder lists', async () => {
    const { Lines } = await import('./office/Lines.tsx');
    const { Plan } = await import('./backup/Plan.tsx');
    const { findingText, remarkText, VERDICT } = await import('../words/evidence.ts');
    const counts = { new: 1, same: 1, grows: 1, differs: 1, refused: 1 };
    const groups = BACKUP_GROUPS;
    const line = {
      name: 'job.steadybar.zip',
      bytes: 5e6,
      verdict: 'valid',
      runId: 'run-0001',
      title: 'TYPED',
    } as const;
    const states = ['whole', 'changed', 'incomplete', 'refused', 'too-large', 'unreadable'] as const;
    const page = () => (
      <>
        <Lines
          busy={false}
          onFile={() => undefined}
          list={{
            more: 3,
            lines: states.map((state) => ({
              ...line,
              state,
              finding: { f: 'file', file: 'job.steadybar.zip', offset: 3 } as const,
              openedUtcMs: 1e12,
              signer: null,
              sha256: null,
              fresh: true,
              own: true,
              kept: true,
            })),
          }}
        />
        <Plan
          busy={false}
          onRestore={() => undefined}
          summary={{
            token: '',
            madeUtcMs: 1e12,
            software: 'Steadybar 0.1.0',
            counts: Object.fromEntries(groups.map((g) => [g, counts])) as never,
            lines: groups.map(
              (group) => ({ group, id: 'run-0001', title: '', fate: 'refused', why: 'future' }) as const,
            ),
            strangeLines: 2,
            leftOut: 2,
            bytes: 5e6,
            room: 1e6,
            keyThere: null,
            keyHere: false,
            keys: (['own', 'known', 'signer'] as const).map((role) => ({
              role,
              fingerprint: 'ab'.repeat(32),
              name: 'Office tablet',
              sinceUtcMs: role === 'signer' ? null : 1e12,
              seals: 2,
              additions: 1,
              here: false,
            })),
          }}
        />
        <p>
          {findingText({ f: 'pages', why: 'crc', page: 3, pages: 2, offset: 9, fromUs: 0, toUs: 1e6 }, 0)}
        </p>
        <p>{remarkText({ r: 'additions', count: 2 })}</p>
        <p>{Object.values(VERDICT).map((v) => v.means)}</p>
      </>
    );
    allTranslated(await show(page), 50);
  });
});
