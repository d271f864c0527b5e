import type { SecondPressure } from '../../job/codes.ts';
import type { Line, PipeSetup, Tap } from '../../job/setup.ts';

/** Terms of pipe, tap and line, as the user reads them. */

export const TAP: Record<Tap, string> = {
  packer: 'Packer (eigene Messleitung)',
  hose: 'Schlauch (hinter dem letzten Hahn)',
  supply: 'Zuluft (Reglerausgang, oder hinter einem Rückschlagventil)',
  unknown: 'Nicht bekannt',
};

/** Where a second pressure sits. */
export const SECOND_PLACE: Record<SecondPressure, string> = {
  'outlet-pressure': 'Reglerausgang',
  'check-pressure': 'Packer, zweite Messleitung',
};

export const TAP_MEANS: Record<Tap, string> = {
  packer: 'Der Messwert ist der Druck im Packer selbst.',
  hose: 'Solange Luft strömt, liegt der Messwert über dem Druck im Packer; ohne Strömung ist er es.',
  supply: 'Der Messwert ist nicht der Druck im Packer: nur Druckwarnung, keine Leckprüfung.',
  unknown: 'Gilt nicht als Druck im Packer: nur Druckwarnung, keine Leckprüfung.',
};

export const LINE: Record<Line, string> = {
  closed: 'Hahn zu',
  'supplied-relieving': 'Gespeist, Druckregler entlastet',
  'supplied-nonrelieving': 'Gespeist, Druckregler entlastet nicht',
  unknown: 'Nicht bekannt',
};

export const LINE_MEANS: Record<Line, string> = {
  closed: 'Ein Leck ist zu sehen. Reaktionswärme hebt den Druck.',
  'supplied-relieving':
    'Der Druckregler füllt nach und lässt ab: ein Leck ist nicht zu sehen, was die Reaktionswärme zugibt, wird abgelassen.',
  'supplied-nonrelieving':
    'Der Druckregler füllt nach, lässt aber nicht ab: ein Leck ist nicht zu sehen, Reaktionswärme hebt den Druck.',
  unknown: 'Weder ein Leck noch ein Anstieg durch Reaktionswärme ist sicher zu beurteilen.',
};

export const MATERIAL: Record<PipeSetup['material'], string> = {
  clay: 'Steinzeug',
  concrete: 'Beton',
  pvc: 'PVC',
  pe: 'PE',
  iron: 'Guss',
  grp: 'GFK',
  unknown: 'Nicht bekannt',
};
