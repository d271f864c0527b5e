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
  'the trade says it so in all four': ['Packer', 'packer', '+ Packer', '+ packer'],
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
  es: { ...EVERYWHERE },
  fr: { ...EVERYWHERE },
};
