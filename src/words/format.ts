import { chosen } from './chosen.ts';

export { type DisplayUnits, METRIC, NO_VALUE, type RunClock } from './create-format.ts';

export const {
  boundText,
  bytes,
  clockTime,
  count,
  dateTime,
  dateTimeZone,
  day,
  duration,
  fixed,
  percent,
  pressure,
  pressureNumber,
  pressureRate,
  pressureSlope,
  quantity,
  stopwatch,
  temperature,
  testPressure,
  testPressureNumber,
  testPressureUnit,
  typed,
  typedQuantity,
  zone,
} = chosen('format');
