import type { ResinDocument } from '../job/resin-document.ts';
import type { Calibration, ChannelSetup, Setup } from '../job/setup.ts';
import { activationEnergy, arrhenius } from '../physics/cure.ts';
import { POINT_REPEATS_K } from '../sensing/calibration.ts';
import { temperatureBudget } from '../sensing/uncertainty.ts';
import { input, type Notes } from './notes.ts';

/**
 * What one comparison of a probe, in melting ice or beside a thermometer, is worth to this job: how much sooner the
 * cautious count of the cure ends, where the probe is what it goes by.
 */

/** Standard uncertainty of stirred melting ice as a reference, K (common practice, no source). */
export const ICE_U_K = 0.1;
/** A comparison in it, as fitCalibration makes one point a calibration. */
const ICE: Pick<Calibration, 'asFound' | 'asLeft' | 'offset' | 'gain' | 'uReference' | 'uResidual'> = {
  asFound: [{ indicated: 0, reference: 0 }],
  asLeft: [],
  offset: 0,
  gain: 1,
  uReference: ICE_U_K,
  uResidual: POINT_REPEATS_K,
};
/** The cautious count waits by so many standard uncertainties of the temperature (docs/science.md, cure) ... */
const WAITS_BY = 1.6;
/** ... beside which the placing of the probe leaves so much open, 1 s, K. */
const PLACING_K = 0.4;
/** Activation energy where the sheet has one temperature only, J/mol: the middle of what thermosets show. */
const EA = 60_000;
const ZERO_C = 273.15;
/** Less is not worth a line on the sheet, %. */
const LEAST_PERCENT = 3;
const USUAL_C = 10;

/** Activation energy by the sheet's outer points, J/mol. */
function energyOf(resin: ResinDocument): number {
  const [first] = resin.curePoints;
  const last = resin.curePoints.at(-1);
  if (first === undefined || last === undefined || last.c - first.c < 5) return EA;
  const ea = activationEnergy(first.minutes / last.minutes, first.c + ZERO_C, last.c + ZERO_C);
  return ea > 0 ? ea : EA;
}

/**
 * Share of the cautious count's wait that a comparison in ice takes away at c °C, %; 0 of a probe that is compared
 * already. Groundwater and other probes may make it less, never more.
 */
export function worthOfComparing(
  probe: ChannelSetup,
  junction: ChannelSetup | null,
  ea: number,
  c: number,
): number {
  if (probe.calibration !== null) return 0;
  const none = { deviceId: '', channel: probe.index, sensorSerial: '', date: '' };
  const compared = { ...probe, calibration: { ...ICE, ...none } };
  const sd = (ch: ChannelSetup) => Math.hypot(temperatureBudget(ch, c, junction).combined, PLACING_K);
  const colder = (ch: ChannelSetup) => c + ZERO_C - WAITS_BY * sd(ch);
  return 100 * (1 - arrhenius(ea, colder(probe), colder(compared)));
}

/** One line for all probes that the cure may go by: with the most that one of them takes away. */
export function planProbeWorth(
  channels: readonly ChannelSetup[],
  resin: ResinDocument | null,
  ground: Setup['ground'],
  notes: Notes,
): void {
  if (resin === null || resin.curedBy === 'light' || resin.curePoints.length === 0) return;
  const ea = energyOf(resin);
  const worth = channels
    .filter((ch) => ch.role === 'temperature' && ch.place !== null && ch.place !== 'ground')
    .map((ch) => {
      const junction = channels.find((j) => j.index === ch.partner && j.role === 'junction') ?? null;
      const percent = worthOfComparing(ch, junction, ea, ground?.c ?? USUAL_C);
      return { percent, name: ch.sensorSerial ?? `${ch.index}` };
    })
    .filter(({ percent }) => percent >= LEAST_PERCENT);
  if (worth.length === 0) return;
  const most = Math.max(...worth.map((w) => w.percent));
  notes.warn(
    'probe-uncompared',
    [input('sooner', Math.round(most), '%')],
    worth.map((w) => w.name).join(', '),
  );
}
