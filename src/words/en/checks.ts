import type { CheckCode, Moment } from '../../job/checklist.ts';
import { itemNamed } from '../said/check-item.ts';

/** Items of the built-in list, as a line to tick. */
export const CHECK: Record<CheckCode, string> = {
  permit: 'Entry permit and confined-space rules seen to',
  'flow-stopped': 'Flow stopped or bypassed',
  'camera-before': 'Surveyed by camera, position measured',
  'diameter-measured': 'Inner diameter measured, not only nominal',
  'packer-inspected': 'Packer without cut, abrasion or wear; even a superficial cut rejects it',
  'fittings-locked': 'Couplings click and lock',
  'relief-fitted': 'Relief valve fitted, set at or under the rated pressure',
  'regulator-fitted': 'Regulator fitted',
  'gauge-fitted': 'Dial gauge fitted, reads zero with the line open',
  'line-zero': 'Sensor zeroed with the coupling seen open',
  'probe-warmed': 'Each probe warmed in the hand beside a thermometer',
  'rope-fixed': 'Retrieval rope fixed, its tail clear of the sleeve',
  'film-fitted': 'Film square, not twisted, fastened at the end fittings',
  'sleeve-marks': 'Sleeve inside the marks of the usable length',
  'batches-noted': 'Batch numbers noted',
  'witness-kept': 'Witness sample kept at pipe temperature',
  ventilation: 'Gas tested, opening ventilated',
  protection: 'Gloves, eyes, breathing as the safety data sheet asks',
  'area-clear': 'Nobody in line with the packer or over the opening',
  'camera-after': 'Camera after the repair',
  cleaned: 'Packer cleaned and inspected again',
};

/** When items are asked, as the heading over them. */
export const MOMENT: Record<Moment, string> = {
  arrival: 'At the site',
  mixing: 'Before mixing',
  air: 'Before air goes in',
  'let-down': 'Before letting down',
  after: 'After the repair',
};

/** An item by its own words, or by ours where it is one of the built-in list. @param text null: ours */
export const itemName = (id: string, text: string | null): string =>
  itemNamed(id, text, CHECK, LIST.unknownItem);

/** Reasons at hand for going on without a safety item. */
export const CHECK_REASONS: readonly string[] = [
  'Does not apply on this site.',
  'Seen to by others on the site.',
  'Cannot be done here, the risk was looked at.',
];

export const LIST = {
  title: 'Checklist',
  builtIn: 'Built-in checklist',
  named: (name: string, revision: number) => `${name}, version ${revision}`,
  safety: 'Safety',
  /** Beside an answer. */
  seen: (when: string, by: string) => (by === '' ? when : `${when}, ${by}`),
  noTime: 'time not kept',
  goOn: 'Go on without',
  without: (item: string) => `Go on without: ${item}`,
  why: 'Press the reason. It is kept with the item, and stands on the certificate.',
  passed: (reason: string) => `Gone on without: ${reason}`,
  value: (text: string, unit: string) => (unit === '' ? text : `${text} ${unit}`),
  inUnit: (name: string, unit: string) => `${name}, ${unit}`,
  unknownItem: (id: string) => `Item ${id}, no longer in the list`,
  others: 'No longer in the list',
  by: 'At the computer',
  nobodyText:
    'Tick who is here today under Settings, People: answers and what is pressed then carry initials.',
  which: 'Checklist of this job',
  keeps: 'It was answered already: this job keeps its list.',
  answered: (n: number, of: number) => `${n} of ${of} answered`,
  noSheet: 'This run has no job sheet, and no checklist with it.',
  nothingNow: 'Nothing is asked at this stage.',
  before: 'Asked before',
  later: 'Asked later',
  open: 'Open the checklist',
  /** On the key that opens the list. */
  due: (n: number) => `Checklist: ${n}`,
  /** The same in the hand. */
  dueShort: (n: number) => `List: ${n}`,
  number: 'Number',
  text: 'Answer',
};
