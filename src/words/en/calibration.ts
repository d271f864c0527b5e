import type { CalibrationRefusal } from '../../sensing/calibration.ts';

/** What a sensor's calibration amounts to, beside its points. */
export const CALIBRATION = {
  title: 'What the points amount to',
  asLeftCounts: 'The calibration line runs through the points as left.',
  asFoundCounts: 'Nothing was adjusted: the calibration line runs through the points as found.',
  point: 'Reference',
  residual: 'Off the calibration line',
  gain: 'Gain',
  correction: (at: string) => `Correction at ${at}`,
  scatter: 'Scatter about the calibration line, standard uncertainty',
  assumed: 'Assumed: two points leave no scatter to measure. A third point tells.',
  assumedOne: 'Assumed: one comparison leaves no scatter to measure. A second one tells.',
  offset: 'Correction everywhere',
  byOffset: 'Corrected by an offset: points this close together say nothing of a slope.',
  far: 'More than 3 K off, which thermocouples are not. Was there still ice, the tip in it and still, and is it this probe? Compare once more.',
  worstFound: 'Largest error as found',
  worstLeft: 'Largest error as left',
  drift: (at: string) => `As found to as left, largest at ${at}`,
  series: 'Calibrations',
  sinceLast: 'Moved since the calibration before',
  due: (days: number) => (days < 0 ? `Overdue since ${-days} d.` : `Due in ${days} d.`),
};

/** Why the points make no calibration. The sensor is then judged by its own sheet. */
export const CALIBRATION_REFUSAL: Record<CalibrationRefusal, string> = {
  'too-few': 'No calibration yet: two points are the least; for a temperature, one.',
  'too-many': 'No calibration: more than eleven points.',
  'not-finite': 'No calibration: a point or the range is no number.',
  narrow: 'No calibration: the points cover less than half of the range.',
  gain: 'No calibration: the slope is more than a tenth off. Wrong range, or another unit?',
  offset: 'No calibration: the low end is more than a twentieth of the range off.',
  residual: 'No calibration: a point lies more than a hundredth of the range off the calibration line.',
  'far-off':
    'No calibration: more than 10 K off. Crossed wires, another type of thermocouple, or ice that was not stirred?',
  scattered:
    'No calibration: the points disagree by over 2 K. Compare again, stirred, and wait until it is still.',
};
