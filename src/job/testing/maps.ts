import {
  blankColumnMap,
  blankRegister,
  blankRegisterMap,
  type ColumnMap,
  type RegisterMap,
} from '../reading-map.ts';

/**
 * An invented bus: unit 1 has the pressure as a float in register 0 with its status beside it, unit 2 a temperature as whole
 * tenths in input register 10.
 */
export const busMap = (part: Partial<RegisterMap> = {}): RegisterMap => ({
  ...blankRegisterMap('Bus of a test'),
  channels: [
    { ...blankRegister('pressure'), status: { register: 2, mask: 0x000f, good: 0 } },
    {
      ...blankRegister('temperature'),
      place: 'sleeve',
      address: 2,
      fn: 4,
      register: 10,
      type: 'int16',
      scale: 0.1,
      everyMs: 500,
    },
  ],
  ...part,
});

/** An invented sketch: a pressure in bar, then a temperature. */
export const lineMap = (part: Partial<ColumnMap> = {}): ColumnMap => {
  const blank = blankColumnMap('Line of a test');
  const [pressure] = blank.channels;
  return {
    ...blank,
    cells: 2,
    channels: [
      pressure!,
      { ...pressure!, quantity: 'temperature', unit: 'C', place: 'sleeve', lo: 0, hi: 150, column: 2 },
    ],
    ...part,
  };
};
