import { describe, expect, it } from 'vitest';
import { Script } from '../testing/script.ts';

/** Held, let down, empty, and the work said to be over. */
const over = (stage: 'done' | 'abandoned') =>
  new Script()
    .say({ c: 'stage', to: 'inflate' })
    .flow(20, (s) => Math.min(1.2, 0.06 * s))
    .say({ c: 'stage', to: 'hold' })
    .flow(30, 1.2)
    .say({ c: 'stage', to: 'let-down' })
    .flow(20, (s) => Math.max(0, 1.2 - 0.1 * s))
    .flow(10, 0)
    .say({ c: 'stage', to: stage })
    .flow(10, 0);

describe('a packer that fills when the work is over', () => {
  it.each(['done', 'abandoned'] as const)(
    'is said long before any limit, in %s: hands may be on it',
    (stage) => {
      const s = over(stage);
      expect(s.heard()).not.toContain('rebound');
      const from = s.tS;
      s.flow(4, (t) => 0.1 * t);
      expect(s.at('rebound', 'unacknowledged') - from).toBeLessThan(2);
      expect(s.heard()).not.toContain('rising');
      // Let out again it is over.
      s.acknowledge()
        .flow(4, (t) => 0.4 - 0.1 * t)
        .flow(10, 0);
      expect(s.states('rebound').at(-1)).toBe('normal');
    },
  );

  it('is said in the let-down too, once the line was empty and the vent is said shut', () => {
    const s = over('done').say({ c: 'stage', to: 'let-down' }).flow(5, 0);
    // The link fails in the test of the vent: broken off, so that nothing else watches the line any more.
    s.say({ c: 'vent', open: false }).flow(3, 0).silence(2).flow(5, 0);
    expect(s.heard()).not.toContain('rebound');
    const from = s.tS;
    s.flow(4, (t) => 0.1 * t);
    expect(s.at('rebound', 'unacknowledged') - from).toBeLessThan(2);
  });

  it('a line that was never empty is no empty packer: shutting the vent half way asks nothing', () => {
    const s = over('done')
      .say({ c: 'stage', to: 'inflate' })
      .flow(20, (t) => Math.min(1.2, 0.06 * t))
      .say({ c: 'stage', to: 'let-down' })
      .flow(8, (t) => 1.2 - 0.1 * t)
      .say({ c: 'vent', open: false })
      .flow(10, (t) => 0.4 + 0.2 * (1 - Math.exp(-t / 2)));
    expect(s.heard()).not.toContain('rebound');
  });

  it('a line that stands at zero, or moves by its noise, says nothing', () => {
    const s = over('done').flow(60, 0, { sd: 0.004 });
    expect(s.heard()).not.toContain('rebound');
  });
});
