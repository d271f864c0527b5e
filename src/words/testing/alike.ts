/** Texts that are the same as in English, each group with its reason: nobody forgot them. */

const EVERYWHERE = {
  'the program’s own name': ['Steadybar'],
  'units and their signs': ['bar', 'mbar', 'kPa', 'psi', 'Pa', 'MPa', 'mm, m', 'in, ft', '1 min', '10 min'],
  'names of standards and of plastics': [
    'EN 1610, LA',
    'EN 1610, LB',
    'EN 1610, LC',
    'EN 1610, LD',
    'ASTM F1417',
    'PVC',
    'PE',
  ],
  'the trade says it so in all four': ['Packer', 'Packers', 'packer', '+ Packer', '+ packer'],
  'said of a page, a lamp, a part of a device all over the world': [
    'Live',
    'Rec',
    'Bus',
    'Firmware',
    'Start',
  ],
};

/** By language. */
export const SAME_IN: Readonly<Record<string, Readonly<Record<string, readonly string[]>>>> = {
  de: {
    ...EVERYWHERE,
    'a word of both languages': [
      'normal',
      'Sensor',
      '+ Sensor',
      'Drift',
      'Name',
      'Signal',
      'Text',
      'Polyester',
      'Digital',
      'Position',
      'Plus',
    ],
  },
  es: {
    ...EVERYWHERE,
    'a word of both languages': ['normal', 'rectangular', 'Sensor', 'Digital', 'Material', '+ Sensor', 'no'],
  },
  fr: {
    ...EVERYWHERE,
    'a word of both languages': [
      'Pages',
      'Menu',
      'Note',
      'Air',
      'Notes',
      'Source',
      'Gain',
      'Volume',
      'Minutes',
      'Date',
      'Signal',
      'Correction',
      'Cycle',
      'Polyester',
      'Silicate',
      'Thermocouple',
      'Cycles',
      'Position',
      'Type',
      'Plus',
      'Point (1.5)',
      'Client',
      'Signatures',
    ],
  },
};

/** Texts whose figures stand otherwise than in English, by language and place. */
export const FIGURES_OTHERWISE: Readonly<Record<string, readonly string[]>> = {
  // Countries of Spanish differ in their decimal mark: where a text has one of its own, it is told in words or left out.
  es: ['demo.DEMO_NAMES.title', 'maps.REGISTERS.scaleHint'],
  // One day is 'un jour'; a bit that is set is said to be at 1.
  fr: ['due.DUE.overdueBy', 'maps.REGISTERS.goodHint'],
};
