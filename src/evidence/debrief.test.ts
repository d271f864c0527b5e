import { expect, it } from 'vitest';
import { fileOf } from '../engine/run-list.ts';
import { createHostBench, practiceSetup } from '../engine/testing/bench.ts';
import { contentOf } from '../record/manifest.ts';
import { createMemoryDocuments } from '../record/stores/memory-documents.ts';
import { debriefFor, saidIn } from './debrief.ts';
import { keepProgress, progressOf } from './progress.ts';

// A drill as a trainee plays it: the engine hears the rig, hands are requests, and all that the debrief tells is out of the pages.

/** Fills by hand, lets the drill go wrong, and acts so long after the first alarm; then the run is ended. */
async function played(actS: number | null) {
  const b = createHostBench();
  await b.ask({ q: 'start-engine' });
  await b.connectRig('drill-stuck-open', 5);
  await b.run(500);
  await b.ask({
    q: 'open-run',
    jobId: null,
    title: 'drill',
    practice: true,
    setup: practiceSetup({ rateHz: 20 }, b.moment().link.channels),
    trainee: 'A.B. · Ann Bee',
  });
  const hand = (open: number) => b.ask({ q: 'rig-hand', hand: { hand: 'valve', open } });
  const packer = () => b.moment().rig?.truePackerBar ?? 0;
  await b.run(1000);
  await b.ask({ q: 'command', command: { c: 'stage', to: 'seat' } });
  await hand(1);
  for (let i = 0; i < 600 && packer() < 0.5; i++) await b.run(100);
  await hand(0);
  await b.run(4000);
  await b.ask({ q: 'command', command: { c: 'stage', to: 'inflate' } });
  await hand(1);
  const urgent = () => b.moment().view.alarms.some((a) => a.alarm === 'over-rated' || a.alarm === 'rising');
  for (let i = 0; i < 300 && !urgent(); i++) await b.run(100);
  if (actS !== null) {
    await b.run(actS * 1000);
    await hand(0);
  }
  await b.run(6000);
  const { runId } = await b.ask({ q: 'end-run' });
  await b.run(1000);
  return { b, runId, pages: await b.files.readAll(fileOf(runId)) };
}

function told(pages: Uint8Array) {
  const { content } = contentOf(pages)!;
  return {
    content,
    debrief: debriefFor(saidIn(pages), {
      events: content.events,
      setups: content.setups.map((s) => s.setup),
      firstUs: content.pages.firstSampleUs ?? 0,
      lastUs: content.pages.lastUs,
      ended: content.end === 'ended',
    })!,
  };
}

it('a drill that was met is told from the record alone, and the hand’s time against the first sign', async () => {
  const { pages } = await played(1.5);
  const { content, debrief } = told(pages);
  expect(content.practice).toBe(true);
  expect(debrief).toMatchObject({
    drill: 'drill-stuck-open',
    seed: 5,
    trainee: 'A.B. · Ann Bee',
    outcome: 'met',
  });
  expect(debrief.checks.map((c) => [c.check, c.ok])).toEqual([
    ['under-rated', true],
    ['shut-in-time', true],
    ['stays-shut', true],
  ]);
  const { faultS, firstSign, actionS, could, peakBar } = debrief;
  expect(debrief.faults[0]).toMatchObject({ name: 'stuck-open' });
  expect(firstSign).toMatchObject({ by: 'instrument', priority: 'urgent' });
  // The instrument is quick: within a second and a half of what nobody sees.
  expect(firstSign!.s - faultS!).toBeGreaterThan(0);
  expect(firstSign!.s - faultS!).toBeLessThan(1.5);
  expect(actionS! - firstSign!.s).toBeCloseTo(1.5, 0);
  // It was quicker than the ready hand that it is held against.
  expect(could!.peakBar).toBeGreaterThan(peakBar);
});

it('the same left alone is not met, is kept once by who played it, and counts for nothing where it was not played', async () => {
  const { pages, runId } = await played(null);
  const { debrief } = told(pages);
  expect(debrief.outcome).toBe('not-met');
  expect(debrief.peakBar).toBeGreaterThan(1.8);
  const deps = { documents: createMemoryDocuments(), utcMs: () => 2e12 };
  await keepProgress(deps, runId, 1e12, debrief);
  await keepProgress(deps, runId, 1e12, debrief);
  await keepProgress(deps, 'other', 1e12, { ...debrief, outcome: 'not-played' });
  expect(await progressOf(deps)).toEqual([
    { runId, drill: 'drill-stuck-open', trainee: 'A.B. · Ann Bee', outcome: 'not-met', utcMs: 1e12 },
  ]);
});
