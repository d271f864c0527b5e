import { createRoot } from 'solid-js';
import { expect, it } from 'vitest';
import type { PortChoice, PracticeCode, RunDetail, RunSummary } from '../../engine/messages.ts';
import { practiceRig } from './practice.ts';
import { createStart } from './start.ts';
import { liveBench } from './testing/bench.ts';

it('a run that has read nothing yet is not taken for one whose sensor was zeroed', () => {
  createRoot((dispose) => {
    const bench = liveBench({ firstUs: null, bar: null, standing: [] });
    const start = createStart(bench.services, () => null);
    expect(start.step()).toBe('zero');
    bench.show({ firstUs: 0, bar: 0, standing: ['not-zeroed'] });
    expect(start.step()).toBe('zero');
    bench.show({ standing: [] });
    expect(start.step()).toBe('running');
    // Beyond 'prepare' nobody is sent back to a coupling.
    bench.show({ stage: 'hold', firstUs: null, bar: null });
    expect(start.step()).toBe('running');
    dispose();
  });
});

it('a practice goes on at its own site, with as many pressure sensors as it was begun with', async () => {
  const bench = liveBench();
  const press = { t: 'C', quantity: 'press' };
  const cup = { t: 'C', index: 5, quantity: 'temp' };
  const asked: PortChoice[] = [];
  const resumed: string[] = [];
  const services = {
    ...bench.services,
    ask: async (request: { q: string; port?: PortChoice }) => {
      if (request.q === 'connect') asked.push(request.port!);
      return request.q === 'documents' ? [] : null;
    },
    runs: {
      detail: async (runId: string) =>
        ({
          channels: runId === 'two' ? [press, press] : runId === 'cup' ? [press, cup] : [press],
        }) as unknown as RunDetail,
      resume: async (runId: string) => {
        resumed.push(runId);
      },
    },
    forgetOpenRun: () => undefined,
    refill: async () => undefined,
    fail: (error: unknown) => {
      throw error;
    },
  } as unknown as typeof bench.services;
  await createRoot(async (dispose) => {
    const start = createStart(services, () => null);
    for (const runId of ['two', 'cup', 'one']) {
      start.connectRig({ runId, practice: true } as RunSummary);
      await expect.poll(() => resumed).toContain(runId);
    }
    expect(asked).toEqual(
      ['practice-pair', 'practice-cup', 'practice'].map((site) => practiceRig(site as PracticeCode)),
    );
    dispose();
  });
});
