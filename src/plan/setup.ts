import type { JobBundle } from '../job/bundle.ts';
import type { CautionCode } from '../job/checklist.ts';
import { dialGaugeU, USUAL_GAUGE_U_BAR } from '../job/dial-gauge.ts';
import type { JobDocument } from '../job/job-document.ts';
import type { Derivation, PlanNote, RefusalCode, WarningCode } from '../job/plan-codes.ts';
import { DEFAULT_REACTION, safeReaction } from '../job/reaction.ts';
import type { SensorRun } from '../job/sensor-check.ts';
import type { SettingsDocument } from '../job/settings-document.ts';
import type { Limits, PipeSetup, Setup } from '../job/setup.ts';
import { type Budget, pressureBudget } from '../sensing/uncertainty.ts';
import { type AirTestPlan, planAirTest } from './airtest.ts';
import { planChannels } from './channels.ts';
import { planCup } from './cup.ts';
import type { DeviceDescription } from './device.ts';
import { input, Notes } from './notes.ts';
import { overRatedUninspected, planPackerHistory } from './packer-history.ts';
import { planPressure } from './pressure.ts';
import { planProbeWorth } from './probe-worth.ts';
import { planResin, type ResinPlan, resinSetup } from './resin.ts';
import { planSensorHistory } from './sensor-history.ts';
import { diameterOf, planAir, planEnergy, planGround, planVolume } from './site.ts';
import { planSleeve, type SleevePlan } from './sleeve.ts';

export interface PlanRequest {
  readonly bundle: Omit<JobBundle, 'jobId'> & { readonly jobId: string | null };
  readonly settings: SettingsDocument | null;
  /** The connected device's own description; null without one. */
  readonly device: DeviceDescription | null;
  /** Number of this Setup: one more than the last of the run. */
  readonly number: number;
  readonly practice: boolean;
  /** Zero was taken for this job: the uncertainty no longer holds what an open zero may be off. */
  readonly zeroed?: boolean;
  /** Runs with their checks of sensors, any order: what the sensors of this job showed before. */
  readonly earlier?: readonly SensorRun[];
  /** The run's last Setup: within a run the ceiling only falls, and a limit once set is not taken away. */
  readonly before?: Setup | null;
}

export interface Plan {
  readonly setup: Setup;
  readonly sleeve: SleevePlan;
  readonly resin: ResinPlan;
  readonly airTest: AirTestPlan | null;
  /** What the plan would work at, bar; null without a limit. */
  readonly proposalBar: number | null;
  /** Expected lift by warmth at the working pressure, bar. */
  readonly liftBar: number;
  readonly derivations: readonly Derivation[];
  readonly warnings: readonly PlanNote<WarningCode>[];
  /** Before mixing the work stops here; after mixing these are warnings. */
  readonly refusals: readonly PlanNote<RefusalCode>[];
  /** Cautions that this job makes matter. */
  readonly cautions: readonly CautionCode[];
  /** Uncertainty of a pressure reading at rated (at half the span without a limit), as a table; null: no sensor. */
  readonly budget: Budget | null;
}

const USUAL_GROUND_C = 10;
const BIG_PACKER_MM = 300;

/** Defects where no sound wall holds the packer in. */
const UNRESTRAINED: Readonly<Record<JobDocument['defect']['kind'], boolean>> = {
  hole: true,
  'missing-wall': true,
  lateral: true,
  joint: true,
  crack: false,
  roots: false,
  other: false,
};

function cautionsOf(bundle: PlanRequest['bundle'], diameterMm: number | null): CautionCode[] {
  const { job, resin } = bundle;
  const out: CautionCode[] = [
    'stored-energy',
    'not-a-safety-device',
    'hose-whip',
    'no-warning',
    'dammed-water',
  ];
  if (diameterMm !== null && diameterMm >= BIG_PACKER_MM) out.push('big-packer');
  if (UNRESTRAINED[job.defect.kind]) out.push('unrestrained');
  if (resin !== null) out.push('resin-hazard');
  out.push('explosive-gas', 'confined-space');
  if (job.thickness !== null) out.push('engineer-design');
  return out;
}

/**
 * A sheet that is filled in during the run may make the sensor better or the diameter known; that raises no ceiling
 * under pressure. The rest of the new limits counts.
 */
function keepCeiling(limits: Limits | null, before: Limits | null, notes: Notes): Limits | null {
  if (before === null || (limits !== null && limits.ceilingBar <= before.ceilingBar)) return limits;
  notes.warn('ceiling-kept', [input('ceiling', before.ceilingBar, 'bar')]);
  if (limits === null) return before;
  const { ceilingBar } = before;
  return {
    ...limits,
    ceilingBar,
    workingBar: Math.min(limits.workingBar, ceilingBar),
    noMargin: before.noMargin === null ? null : limits.noMargin,
  };
}

/** From the job with its packer, resin, sensors and the device to the Setup, every number with its derivation. Pure. */
export function makeSetup(request: PlanRequest): Plan {
  const { bundle, device } = request;
  const { job } = bundle;
  const packer = bundle.packer?.document ?? null;
  const resin = bundle.resin?.document ?? null;
  const notes = new Notes();

  if (packer !== null) planPackerHistory(packer, notes);
  const air = planAir(job, notes);
  const ground = planGround(job, notes);
  const groundC = ground?.c ?? USUAL_GROUND_C;
  const diameterMm = diameterOf(job, notes);
  const planned = planChannels(job, bundle.sensors, device, notes);
  const dialGauge = request.settings?.dialGauge;
  const gaugeUBar = dialGauge === undefined ? undefined : dialGaugeU(dialGauge);
  planSensorHistory(job, bundle.sensors, request.earlier ?? [], gaugeUBar ?? USUAL_GAUGE_U_BAR, notes);
  const zeroed = request.zeroed ?? false;
  const pressure = planPressure(job, packer, resin, planned, air, ground, diameterMm, zeroed, notes);
  const sleeve = planSleeve(job, packer, diameterMm, groundC, notes);
  const resinPlan = planResin(job, resin, sleeve, ground, notes);
  const cup = planCup(resin, job.resin, planned.channels, notes);
  planProbeWorth(planned.channels, resin, ground, notes);
  const volume = planVolume(job, packer, diameterMm, sleeve.usableMm, notes);
  if (pressure.limits !== null) planEnergy(pressure.limits.workingBar, air.bar, volume, diameterMm, notes);
  const headBar = pressure.limits?.headBar ?? null;
  const airTest = planAirTest(job, diameterMm, planned.pressure, planned.supplied, headBar, notes);
  if (
    planned.channels.length > 0 &&
    !planned.channels.some((c) => c.role === 'temperature' && c.place === 'sleeve')
  )
    notes.warn('no-sleeve-place');

  const pipe: PipeSetup | null =
    diameterMm === null
      ? null
      : {
          innerMm: diameterMm,
          wallMm: job.pipe.wallMm,
          material: job.pipe.material,
          sleeveMm: sleeve.thicknessMm ?? job.thickness?.thicknessMm ?? null,
        };
  const shared = job.packersOnLine === 'two';
  const most = device?.hello.maxRateHz;
  const setup: Setup = {
    number: request.number,
    practice: request.practice,
    jobId: bundle.jobId,
    limits: keepCeiling(pressure.limits, request.before?.limits ?? null, notes),
    tap: job.tap,
    line: job.line,
    channels: planned.channels,
    ...(device?.beside === undefined ? {} : { besideId: device.beside.hello.deviceId }),
    air,
    ground,
    infiltration: job.defect.infiltration,
    heating: job.heating.by,
    wetness: job.wetness,
    ...(packer !== null && overRatedUninspected(packer) !== null ? { inspectFirst: true } : {}),
    ...(airTest === null ? {} : { airTest: airTest.setup }),
    ...(shared ? { sharedLine: true } : {}),
    // Two packers share their air: the volume of one is not the line's.
    volume: shared ? null : volume,
    pipe,
    resin: resinSetup(resin, resinPlan, job.resin.mixC, cup),
    reaction: safeReaction(request.settings?.reaction ?? DEFAULT_REACTION),
    ...(gaugeUBar === undefined ? {} : { gaugeUBar }),
    rateHz: most === undefined || most <= 0 ? job.device.rateHz : Math.min(job.device.rateHz, most),
  };
  return {
    setup,
    sleeve,
    resin: resinPlan,
    airTest,
    proposalBar: pressure.proposalBar,
    liftBar: pressure.liftBar,
    derivations: notes.derivations,
    warnings: notes.warnings,
    refusals: notes.refusals,
    cautions: cautionsOf(bundle, diameterMm),
    budget:
      planned.pressure === null
        ? null
        : pressureBudget(
            planned.pressure,
            pressure.limits?.ratedBar ?? (planned.pressure.rangeLo + planned.pressure.rangeHi) / 2,
            planned.supplied,
            { zeroed, airU: air.uBar },
          ),
  };
}
