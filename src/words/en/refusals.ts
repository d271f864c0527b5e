import type { InputCode, PlanNote, RefusalCode } from '../../job/plan-codes.ts';
import { type Format, METRIC } from '../create-format.ts';
import { planNumbers } from '../said/plan-numbers.ts';

/** What a plan refuses, and its numbers. */

/** `of` is what the refusal is about and its numbers, in brackets, or nothing. */
const REFUSAL: Record<RefusalCode, (of: string) => string> = {
  'working-over-rated': (of) => `The working pressure is over the rated pressure${of}.`,
  'no-margin-reason': (of) =>
    `The working pressure is over the ceiling${of}. Lower it, or give a reason for working at the rated pressure.`,
  'lift-past-rated': (of) =>
    `Cure heat would raise this line past the rated pressure${of}. Lower the working pressure, or use a relieving regulator.`,
  'floor-over-working': (of) =>
    `The working pressure does not reach the hold floor: the sleeve would not stay on the wall${of}.`,
  'u-over-rated': (of) => `The sensor is too uncertain to guard this packer${of}.`,
  'other-unrated': (of) =>
    `Two packers hang on this line and the rated pressure of the other one is not known${of}. Enter it on the job sheet.`,
  'rated-unread': (of) =>
    `The rated pressure is far higher than packers are usually rated${of}. Read the plate again, and put it right or tick it in the packer’s document.`,
  'rated-over-range': (of) =>
    `The sensor’s range ends under the rated pressure: it cannot see the ceiling${of}.`,
  'packer-too-small': (of) => `The pipe is wider than this packer may grow${of}.`,
  'packer-too-large': (of) => `The pipe is narrower than this packer fits${of}.`,
  'packer-retired': (of) => `The packer is retired${of}.`,
  'sleeve-too-long': (of) => `The sleeve is longer than the packer’s usable length at this diameter${of}.`,
  'pot-life-short': (of) => `Handling takes longer than the pot life${of}.`,
};

const INPUT: Record<InputCode, string> = {
  diameter: 'inner diameter',
  rated: 'rated',
  u: 'uncertainty',
  ceiling: 'ceiling',
  working: 'working',
  air: 'air pressure',
  rise: 'rise of the air',
  ground: 'ground',
  lift: 'lift',
  'after-rise': 'after-rise of the hose',
  vapour: 'vapour of water in the line',
  'other-rated': 'rated pressure of the other packer',
  density: 'density',
  'water-level': 'water level',
  head: 'head',
  'free-inflation': 'free inflation',
  margin: 'margin',
  altitude: 'altitude',
  'packer-volume': 'packer',
  'hose-volume': 'hose',
  length: 'length',
  defect: 'defect',
  overlap: 'overlap',
  'mark-below': 'mark below',
  'mark-above': 'mark above',
  'length-below': 'length below',
  'length-above': 'length above',
  thickness: 'thickness',
  lap: 'lap',
  layers: 'layers',
  layer: 'layer',
  pressure: 'pressure',
  modulus: 'modulus',
  strength: 'strength',
  'safety-factor': 'safety factor',
  poisson: 'Poisson’s ratio',
  enhancement: 'enhancement K',
  ovality: 'ovality',
  'ovality-factor': 'ovality factor',
  area: 'area',
  fabric: 'fabric',
  ratio: 'ratio',
  waste: 'waste',
  'resin-mass': 'resin',
  parts: 'parts of resin',
  'hardener-parts': 'parts of hardener',
  'mix-temperature': 'mixing temperature',
  'cup-mass': 'in the cup',
  'lowest-temperature': 'lowest temperature of the data sheet',
  'pot-life': 'pot life',
  handling: 'handling',
  'start-pressure': 'start pressure',
  drop: 'drop',
  'test-coefficient': 'coefficient',
  'sensor-span': 'widest span that would do',
  'sensor-step': 'coarsest step that would do',
  leak: 'leak',
  zero: 'zero',
  days: 'days left',
  'off-gauge': 'reading less dial gauge',
  'off-thermometer': 'reading less thermometer',
  sooner: 'sooner by up to',
};

export function refusals(f: Format) {
  const numbers = planNumbers(f, INPUT, ': ');
  return {
    ...numbers,
    refusalText: (note: PlanNote<RefusalCode>, units = METRIC): string =>
      numbers.noteText(REFUSAL[note.code], note, units),
  };
}
