import { createRoot } from 'solid-js';
import { expect, it } from 'vitest';
import type { PortChoice, RunDetail, RunSummary } from '../../engine/messages.ts';
import { PRACTICE_PAIR, PRACTICE_RIG } from './practice.ts';
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
        ({ channels: runId === 'two' ? [press, press] : [press] }) as unknown as RunDetail,
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
    for (const runId of ['two', 'one']) {
      start.connectRig({ runId, practice: true } as RunSummary);
      await expect.poll(() => resumed).toContain(runId);
    }
    expect(asked).toEqual([PRACTICE_PAIR, PRACTICE_RIG]);
    dispose();
  });
});
