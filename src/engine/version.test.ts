import { expect, it } from 'vitest';
import pkg from '../../package.json' with { type: 'json' };
import { VERSION } from './version.ts';

it('records name the version of the package', () => {
  expect(VERSION).toBe(pkg.version);
});
