import { createRoot } from 'solid-js';
import { expect, it } from 'vitest';
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
