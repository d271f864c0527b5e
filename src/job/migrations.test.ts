import { expect, it } from 'vitest';
import { migrate } from './migrations.ts';

const steps = [
  (old: Readonly<Record<string, unknown>>) => ({ ...old, b: Number(old.a) * 10 }),
  (old: Readonly<Record<string, unknown>>) => ({ b: old.b, c: true }),
];

it('carries an old document through every step and numbers it', () => {
  expect(migrate({ version: 1, a: 2 }, steps)).toEqual({
    ok: true,
    from: 1,
    body: { version: 3, b: 20, c: true },
  });
  expect(migrate({ version: 2, b: 5 }, steps)).toEqual({
    ok: true,
    from: 2,
    body: { version: 3, b: 5, c: true },
  });
});

it('leaves the newest as it is and the old value untouched', () => {
  const old = { version: 1, a: 2 };
  migrate(old, steps);
  expect(old).toEqual({ version: 1, a: 2 });
  expect(migrate({ version: 3, z: 1 }, steps)).toEqual({ ok: true, from: 3, body: { version: 3, z: 1 } });
});

it('refuses a later, fractional, inherited or missing version', () => {
  expect(migrate({ version: 4 }, steps)).toEqual({
    ok: false,
    issue: { path: 'version', code: 'version-future', limit: 3, found: 4 },
  });
  for (const version of [0, -1, 1.5, Number.NaN, null, '1'])
    expect(migrate({ version }, steps)).toMatchObject({ ok: false, issue: { code: 'version-unknown' } });
  expect(migrate({}, steps)).toMatchObject({ ok: false, issue: { code: 'missing' } });
  expect(migrate(Object.create({ version: 1 }) as Record<string, unknown>, steps).ok).toBe(false);
});
