import { WARNINGS, type WarningCode } from '../../job/plan-codes.ts';
import type { Plan } from '../../plan/setup.ts';

/** The plan's remarks by rank: `look` is risky, `unknown` is to know. What is refused stands over both. */
export type Drawer = 'look' | 'unknown';

/**
 * Risky is what can hurt somebody or spoil the repair although the plan is kept; what nobody has said yet, and what the plan
 * does for want of it, is to know.
 */
const DRAWER: Readonly<Record<WarningCode, Drawer>> = {
  'no-packer': 'look',
  'no-rating': 'look',
  'diameter-unknown': 'unknown',
  'diameter-not-measured': 'unknown',
  'plate-says-working': 'unknown',
  'working-proposed': 'unknown',
  'ceiling-kept': 'unknown',
  'no-margin': 'look',
  'lift-past-ceiling': 'look',
  'rise-assumed': 'unknown',
  'heating-unknown': 'unknown',
  'heated-to-unknown': 'unknown',
  'not-gas': 'look',
  'wetness-unknown': 'unknown',
  'two-on-line': 'look',
  'no-relief': 'look',
  'relief-over-rated': 'look',
  'relief-under-working': 'look',
  'water-unknown': 'look',
  'free-inflation-unknown': 'unknown',
  'seat-over-working': 'look',
  'tap-no-hold': 'unknown',
  'second-left-out': 'unknown',
  'line-unknown': 'unknown',
  'u-large': 'look',
  'u-assumed': 'unknown',
  'device-not-described': 'unknown',
  'channel-missing': 'look',
  'sensor-missing': 'look',
  'beside-missing': 'look',
  'beside-pressure': 'look',
  'signal-differs': 'look',
  'span-unknown': 'look',
  'calibration-none': 'look',
  'calibration-refused': 'look',
  'calibration-other-device': 'look',
  'calibration-due': 'look',
  'sensor-retired': 'look',
  'zero-refused': 'look',
  'zero-jumped': 'look',
  'zero-drifting': 'look',
  'gauge-differed': 'look',
  'gauge-drifting': 'look',
  'probe-differed': 'look',
  'probe-uncompared': 'unknown',
  'cup-coarse': 'unknown',
  'no-sleeve-place': 'unknown',
  'air-assumed': 'unknown',
  'ground-unknown': 'unknown',
  'volume-estimated': 'unknown',
  'volume-unknown': 'unknown',
  'overlap-short': 'look',
  'usable-unknown': 'unknown',
  'defect-unknown': 'unknown',
  'thickness-short': 'look',
  'thickness-unknown': 'unknown',
  'thickness-differs': 'unknown',
  'fabric-unknown': 'unknown',
  'density-unknown': 'unknown',
  'pot-life-unknown': 'unknown',
  'mixing-uncounted': 'unknown',
  'pot-life-extrapolated': 'look',
  'pot-life-tight': 'look',
  'pot-mass': 'look',
  'no-resin': 'unknown',
  'light-cured': 'unknown',
  'no-cure-points': 'unknown',
  cold: 'look',
  'resin-expired': 'look',
  'batch-missing': 'unknown',
  'packer-damaged': 'look',
  'packer-over-rated': 'look',
  'packer-unseen': 'look',
  'rated-high': 'look',
  'packer-leak-grows': 'look',
  'air-test-refused': 'look',
  'air-test-unknown': 'unknown',
  'air-test-over-plugs': 'look',
};

/** Warnings of one drawer, the weightiest first: in the order of their codes. */
export function inDrawer(plan: Plan, drawer: Drawer): Plan['warnings'] {
  return plan.warnings
    .filter((w) => DRAWER[w.code] === drawer)
    .toSorted((a, b) => WARNINGS.indexOf(a.code) - WARNINGS.indexOf(b.code));
}
