/** Words of what is due, of the day's mix, and of a repair that is done once more. */
export const DUE = {
  title: 'To be seen to',
  damaged: 'Damage in its log: repair or retire it',
  'over-rated': 'It was over its rated pressure: inspect it before it goes in again',
  'not-inspected': 'Not inspected since its last run',
  overdueBy: (days: number) =>
    days === 1 ? 'Calibration overdue by 1 day' : `Calibration overdue by ${days} days`,
  dueIn: (days: number) =>
    days === 0
      ? 'Calibration due today'
      : days === 1
        ? 'Calibration due tomorrow'
        : `Calibration due in ${days} days`,
  'not-sealed': 'Run not sealed',
  'not-sent': 'Record file not sent',
  sentOtherwise: 'It was sent',
  more: (n: number) => `and ${n} more, in the archive`,
};

export const MIX = {
  title: 'Resin for today',
  sleeves: (n: number) => (n === 1 ? '1 sleeve' : `${n} sleeves`),
  masses: (whole: string, hardener: string | null) =>
    hardener === null ? `${whole} mixed` : `${whole} mixed, ${hardener} of it hardener`,
  noMass: (n: number) =>
    n === 1
      ? '1 sleeve has no mass yet: see its job sheet'
      : `${n} sleeves have no mass yet: see their job sheets`,
  each: (minutes: number) =>
    `Mix for each sleeve by itself, just before its wet-out: pot life ${minutes} min at the warmest mix.`,
  eachUnknown:
    'Mix for each sleeve by itself, just before its wet-out: its pot life does not wait for the one before.',
  packer: (name: string, n: number) => `${name}: ${n} repairs, one after the other`,
  least: (time: string) => `at least ${time} for handling and cure`,
  leastUnknown: 'time not known: handling or ground temperature is missing',
};

export const AGAIN = {
  title: 'The same again',
  what: (title: string) => `As ${title}: same line, packer, resin, sensors and device. New for this one:`,
  name: 'Title',
  position: 'Position (chainage)',
  length: 'Length of the defect',
  resinBatch: 'Resin batch',
  hardenerBatch: 'Hardener batch',
  sameBatch: (batches: string) => `From the same batches: ${batches}`,
  inspected: 'The packer was inspected since it came out: no cut, abrasion or wear',
  zero: 'The zero is taken anew before the run: the last one does not count.',
  rest: 'Infiltration, temperature at mixing and all checks are asked anew too.',
  make: 'Make the job sheet',
};
