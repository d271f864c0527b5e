import type { Check, DrillCode, Outcome } from '../../practice/codes.ts';
import type { Checked, Sign } from '../../practice/shapes.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';

/**
 * Words of the drills on the practice rig and of their debrief. Title and goal are read before it is played and give nothing away;
 * what went wrong is told behind it.
 */

type DrillWords = { readonly title: string; readonly goal: string; readonly fault: string };

const DRILL: Record<DrillCode, DrillWords> = {
  'drill-stuck-open': {
    title: 'Inflate: not over the rating',
    goal: 'The packer stays under its rated pressure, and the supply valve stays shut once you shut it.',
    fault: 'The regulator stuck open and passed the full supply.',
  },
  'drill-creep': {
    title: 'Inflate: stop where you mean to',
    goal: 'Inflate to the working pressure, shut the valve yourself, and stay under the ceiling.',
    fault: 'The regulator crept upwards.',
  },
  'drill-unplug': {
    title: 'Inflate: quick at the valve, one',
    goal: 'As soon as the pressure is not known any more, the supply valve is shut within ten seconds.',
    fault: 'The cable came out; the air went on.',
  },
  'drill-blown-hose': {
    title: 'Inflate: quick at the valve, two',
    goal: 'As soon as something is wrong, the supply valve is shut within ten seconds and stays shut.',
    fault: 'The hose flew off its coupling.',
  },
  'drill-burst': {
    title: 'Inflate: quick at the valve, three',
    goal: 'As soon as something is wrong, the supply valve is shut within ten seconds and stays shut, and the line is emptied.',
    fault: 'The packer burst.',
  },
  'drill-relief': {
    title: 'Inflate: when it does not rise',
    goal: 'Do not inflate against it: supply valve shut within twenty seconds, no hold, and the line emptied.',
    fault: 'The relief valve lifted far under what it is set to.',
  },
  'drill-leak': {
    title: 'Hold: keep it up',
    goal: 'From the moment that it goes wrong, keep the packer near its working pressure for twenty minutes.',
    fault: 'A leak began.',
  },
  'drill-kink': {
    title: 'Let-down: empty is empty',
    goal: 'Show by the vent test that the packer is empty, before you uncouple or end the run.',
    fault: 'The hose kinked while the packer was let down: the line read zero and the packer was full.',
  },
  'drill-moved': {
    title: 'Seat: before you open again',
    goal: 'Open the valve for the working pressure only on a supply that stands under the ceiling, and inflate.',
    fault: 'The regulator was turned up during the seat pause.',
  },
  'drill-differ': {
    title: 'Seat: whom to believe',
    goal: 'Where two readings disagree, compare the dial gauge before more air goes in; then inflate.',
    fault: 'The second sensor read far too low.',
  },
  'drill-open-probe': {
    title: 'Cure: the hours that count',
    goal: 'Let down no sooner than the cure time is reached, and end the run on an empty packer.',
    fault: 'The probe at the sleeve broke.',
  },
  'drill-slow-batch': {
    title: 'Cure: this very batch',
    goal: 'Press “Resin is mixed” at once. Let down no sooner than the cure time of this batch is reached, and end the run on an empty packer.',
    fault: 'The batch was slow; only the cup showed it.',
  },
};

const OUTCOME: Record<Outcome, { readonly word: string; readonly means: string }> = {
  met: { word: 'Goal met', means: 'Everything that the goal asks for was done.' },
  'not-met': { word: 'Goal not met', means: 'What was missing stands below.' },
  'not-played': {
    word: 'Not played',
    means:
      'The run ended before anything went wrong. It counts for nothing: play it again, and go on with the work.',
  },
  'broken-off': {
    word: 'Broken off',
    means: 'The run has no end of its own, or was gone on with at another site. It counts for nothing.',
  },
};

/** By the name that the rig gives to what is heard. */
const SENSED: Readonly<Record<Extract<Sign, { by: 'ear' }>['sensed'], string>> = {
  'hose-blows': 'Air roars out of the open hose',
  burst: 'A bang: air roars out of the packer',
  'relief-blows': 'The relief valve blows',
};

const PRACTICE = {
  title: 'Practice',
  lead: 'Twelve drills on the practice rig, with a goal each. Something goes wrong in each of them, sooner or later: what and when is not told before. Behind it comes the debrief.',
  who: 'Who practises?',
  nobody: 'Nobody named',
  whoText: 'Initials come from Settings, People. The results stay on this computer.',
  play: 'Play',
  again: 'Play again',
  running: 'A run is under way. End it first.',
  notYet: 'Not yet played',
  played: (n: number, met: number) =>
    n === 1 ? (met === 1 ? 'Met at once' : 'Played once, not met') : `Met ${met} of ${n} times`,
  progress: (met: number, all: number) => `${met} of ${all} met`,
  last: (outcome: string, date: string) => `${outcome}, ${date}`,
  free: 'Free practice',
  freeText: 'The whole job with all well; faults are yours to make. More sites stand on the live page.',
  certificateNote:
    'A run that has ended can be sealed as a practice record with a practice certificate: in its review.',
  toList: 'All drills',
  // in the drawer of the live page
  goal: 'Goal',
  dial: 'Dial gauge',
  atSite: 'At the site',
  quiet: 'Nothing to be heard',
};

const DEBRIEF = {
  title: 'Debrief',
  plotLabel: 'Pressure over the run time, with the numbers of the list',
  keyRead: 'read by the sensor',
  keyTruth: 'in the packer itself',
  keyRated: 'rated',
  lead: 'Practice rig: nothing here is of a real line.',
  none: 'This run was not played on the practice rig: there is nothing to be told of it.',
  playedBy: (who: string) => `Played by ${who}`,
  goalIs: 'Goal',
  checks: 'What the goal asks for',
  wentWrong: 'What went wrong',
  happened: 'What happened',
  when: 'Run time',
  what: 'What',
  who: { rig: 'went wrong', sign: 'seen', ear: 'heard', hand: 'hand' },
  figures: 'In figures',
  faultAt: 'It went wrong at',
  firstSign: 'First sign',
  signAfter: (after: string, what: string) => `${after} later: ${what}`,
  noSign: 'none',
  action: 'First hand that helped',
  actionAfter: (after: string) => `${after} after the sign`,
  actionBefore: 'before any sign',
  noAction: 'none',
  peak: 'Highest in the packer',
  margin: 'Left to the rated pressure',
  overBy: (over: string) => `over it by ${over}`,
  could: 'A ready hand (three seconds)',
  couldPeak: (peak: string) => `would have stopped at ${peak}`,
  print: 'Print or save as PDF',
  review: 'Trace and review',
  open: 'Debrief',
  more: (n: number) => `${n} more stand in the record.`,
  truth: 'The packer’s own pressure, which no sensor shows, is known on the practice rig alone.',
};

const GAUGED: Readonly<Partial<Record<Check, 'bar' | 'seconds'>>> = {
  'under-rated': 'bar',
  'under-ceiling': 'bar',
  filled: 'bar',
  'held-up': 'bar',
  vented: 'bar',
  'empty-opened': 'bar',
  'shut-in-time': 'seconds',
  'held-long': 'seconds',
};

const CHECK: Record<Check, string> = {
  'under-rated': 'Packer under its rated pressure',
  'under-ceiling': 'Packer under the ceiling',
  'shut-in-time': 'Supply valve shut after the first sign',
  'stays-shut': 'Supply valve stayed shut',
  vented: 'Line emptied by the vent',
  'turned-down': 'Regulator turned down before the valve was opened',
  'gauge-compared': 'Dial gauge compared before more air went in',
  filled: 'Inflated to the working pressure',
  'held-up': 'Packer kept up while it leaked',
  'held-long': 'Held for twenty minutes with the leak',
  'not-held': 'No hold begun on it',
  'empty-opened': 'Packer empty when it was uncoupled or the run ended',
  'tested-empty': 'Vent test stayed at zero',
  'cure-waited': 'Cure time reached before the let-down',
};

export const practice = (f: Format) => ({
  DRILL,
  OUTCOME,
  SENSED,
  PRACTICE,
  DEBRIEF,

  /** A check with its figure against its limit, and whether it was met. */
  checkText({ check, ok, value, limit }: Checked, units: DisplayUnits = METRIC): string {
    const kind = GAUGED[check];
    const show = (x: number): string => (kind === 'bar' ? f.pressure(x, units) : f.duration(x));
    const figure =
      kind === undefined || value === null
        ? ''
        : limit === null
          ? ` (${show(value)})`
          : ` (${show(value)}, limit ${show(limit)})`;
    return `${ok ? 'Yes' : 'No'}: ${CHECK[check]}${figure}`;
  },

  /** What a hand did, by the rig's name for it. @param value 0 to 1, or bar */
  handText(name: string, value: number | null, units: DisplayUnits = METRIC): string {
    switch (name) {
      case 'valve':
        return value === 0 ? 'Supply valve shut' : `Supply valve opened, ${f.percent(value ?? 0)}`;
      case 'regulator':
        return `Regulator set to ${f.pressure(value, units)}`;
      case 'vent':
        return value === 0 ? 'Vent shut' : 'Vent opened';
      case 'couple':
        return value === 0 ? 'Hose uncoupled' : 'Hose coupled';
      case 'end':
        return value === 0 ? 'Hose end opened' : 'Hose end shut';
      case 'warm':
        return value === 0 ? 'Probes let go' : 'Probes in the hand';
      default:
        return name;
    }
  },
});
