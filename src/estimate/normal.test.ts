import { expect, it } from 'vitest';
import { Z_95 } from './normal.ts';

it('0.475 of the normal distribution lies between 0 and Z_95 (NIST/SEMATECH e-Handbook, 1.3.6.7.1: 0.47500)', () => {
  const density = (x: number) => Math.exp(-0.5 * x * x) / Math.sqrt(2 * Math.PI);
  const n = 1000;
  const h = Z_95 / n;
  let area = density(0) + density(Z_95);
  for (let i = 1; i < n; i++) area += (i % 2 === 1 ? 4 : 2) * density(i * h);
  expect((area * h) / 3).toBeCloseTo(0.475, 5);
});
