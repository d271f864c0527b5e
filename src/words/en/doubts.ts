import type { Limits } from '../../job/setup.ts';
import type { DisplayUnits, Format } from '../create-format.ts';

/** What speaks against going to another stage; said before the step, recorded with its reason. */
export type DoubtCode =
  | 'urgent-alarm'
  | 'pressure-unknown'
  | 'over-ceiling'
  | 'over-working'
  | 'under-floor'
  | 'under-working'
  | 'was-over-rated'
  | 'packer-not-inspected'
  | 'cure-not-met'
  | 'cure-not-judged'
  | 'no-witness'
  | 'under-pressure'
  | 'no-rebound'
  | 'rebound-unseen'
  | 'not-zeroed'
  | 'line-pressed'
  | 'reads-low'
  | 'loss-suspected'
  | 'reading-jumped'
  | 'supply-over-ceiling'
  | 'supply-creeps'
  | 'checklist-open';

export const STAGE_DOUBT: Record<DoubtCode, string> = {
  'urgent-alarm': 'An urgent alarm is on.',
  'pressure-unknown': 'The pressure is not known now.',
  'over-ceiling': 'The pressure is over the ceiling.',
  'over-working': 'The pressure is over the working pressure, and cure heat raises it further.',
  'under-floor': 'The pressure is under the hold floor: the sleeve may come off the wall.',
  'under-working':
    'The pressure is far under the working pressure: the sleeve may not lie against the wall, and what is topped up later is not told from a leak.',
  'was-over-rated':
    'The packer was over its rated pressure in this run: overstretched rubber may burst below it.',
  'packer-not-inspected':
    'The packer was over its rated pressure in an earlier run, and no inspection is logged since: inspect it before it goes on a hose.',
  'cure-not-met': 'The data-sheet cure time is not reached at the coldest likely spot (cautious count).',
  'cure-not-judged':
    'Cure is not judged here: the resin cures by light. That it is hard is told by the witness sample and by looking.',
  'no-witness': 'The witness sample kept at pipe temperature was not noted as hard.',
  'under-pressure': 'The line is not seen at zero.',
  'no-rebound':
    'The rebound test was not passed: a line at zero is not an empty packer. Shut the vent, wait, see that it stays at zero.',
  'rebound-unseen': 'The sensor does not see the packer here: a line that stays at zero says nothing of it.',
  'line-pressed':
    'The line is under pressure before any air was announced: the supply valve leaks or stands open, or the packer was not empty.',
  'reads-low':
    'The sensor reads too low: it jumped down, or the dial gauge shows more. There is more air than the number says.',
  'loss-suspected': 'Pressure was lost, and nobody has found where: a hose may be off or the packer torn.',
  'reading-jumped':
    'The sensor has jumped, and the dial gauge was not compared since: its number may be wrong.',
  'supply-over-ceiling':
    'The supply was seen to stand over the ceiling: lower the regulator and prove it again.',
  'supply-creeps': 'The supply creeps: left open, it passes the ceiling.',
  'checklist-open': 'Safety items of the checklist are not answered.',
  'not-zeroed': 'The zero of the sensor was not taken with the coupling seen open.',
};

/** What a doubt is seen by; as much of the moment as it needs. */
export interface DoubtAt {
  readonly bar: number | null;
  /** The highest of the run, bar. */
  readonly peakBar: number | null;
  readonly limits: Pick<Limits, 'ratedBar' | 'ceilingBar' | 'workingBar' | 'floorBar'> | null;
}

export function doubts(f: Format) {
  /** What is read beside what it is held against: '1.20 bar, working 1.50'; null: it has no figures, or they are not known. */
  function doubtFigures(code: DoubtCode, { bar, peakBar, limits }: DoubtAt, u: DisplayUnits): string | null {
    const beside = (what: string, limit: number | null | undefined): string | null =>
      bar === null || limit == null ? null : `${f.pressure(bar, u)}, ${what} ${f.pressureNumber(limit, u)}`;
    switch (code) {
      case 'over-working':
      case 'under-working':
        return beside('working', limits?.workingBar);
      case 'under-floor':
        return beside('hold floor', limits?.floorBar);
      case 'over-ceiling':
        return beside('ceiling', limits?.ceilingBar);
      case 'was-over-rated':
        return peakBar === null || limits === null
          ? null
          : `${f.pressure(peakBar, u)}, rated ${f.pressureNumber(limits.ratedBar, u)}`;
      case 'under-pressure':
      case 'line-pressed':
        return bar === null ? null : f.pressure(bar, u);
      default:
        return null;
    }
  }

  return {
    STAGE_DOUBT,
    doubtFigures,
    /** The doubt with its figures before it. */
    doubtText(code: DoubtCode, at: DoubtAt, u: DisplayUnits): string {
      const figures = doubtFigures(code, at, u);
      return figures === null ? STAGE_DOUBT[code] : `${figures}. ${STAGE_DOUBT[code]}`;
    },
    /** A reason as it is recorded, with the figures in spite of which the step was taken. */
    reasonWith: (reason: string, figures: readonly string[]): string =>
      figures.length === 0 ? reason : `${reason} (${figures.join('; ')})`,
  };
}
