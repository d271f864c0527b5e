import type { CautionCode } from '../../job/checklist.ts';

export type ShownCaution = CautionCode | 'empty' | 'witness' | 'plugs';

/** Which cautions stand where, in every language. */
export const CAUTIONS_AT: Record<
  'sheet' | 'prepare' | 'inflate' | 'let-down' | 'air-test' | 'card' | 'about',
  readonly ShownCaution[]
> = {
  sheet: ['not-a-safety-device', 'unrestrained', 'big-packer', 'engineer-design'],
  prepare: ['stored-energy', 'hose-whip', 'no-warning'],
  inflate: ['stored-energy', 'unrestrained', 'no-warning'],
  'let-down': ['empty', 'witness', 'dammed-water', 'hose-whip'],
  'air-test': ['plugs', 'hose-whip', 'confined-space', 'no-warning'],
  card: ['not-a-safety-device', 'stored-energy', 'confined-space'],
  about: [
    'not-a-safety-device',
    'no-warning',
    'stored-energy',
    'big-packer',
    'unrestrained',
    'hose-whip',
    'dammed-water',
    'explosive-gas',
    'resin-hazard',
    'confined-space',
    'engineer-design',
    'empty',
    'witness',
    'plugs',
  ],
};
