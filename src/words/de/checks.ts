import type { CheckCode } from '../../job/checklist.ts';

/** What is looked at before mixing and after the repair, as a line to tick. */
export const CHECK: Record<CheckCode, string> = {
  permit: 'Erlaubnisschein und Regeln für enge Räume erledigt',
  'flow-stopped': 'Abfluss abgesperrt oder umgeleitet',
  'camera-before': 'Mit der Kamera befahren, Station gemessen',
  'diameter-measured': 'Innendurchmesser gemessen, nicht nur Nennweite',
  'packer-inspected':
    'Packer ohne Schnitt, Abrieb oder Verschleiß; schon ein oberflächlicher Schnitt scheidet ihn aus',
  'fittings-locked': 'Kupplungen rasten ein und sitzen fest',
  'relief-fitted': 'Sicherheitsventil dran, höchstens auf den Höchstdruck eingestellt',
  'regulator-fitted': 'Druckregler dran',
  'gauge-fitted': 'Manometer dran, zeigt null bei offener Leitung',
  'line-zero': 'Sensor bei sichtbar offener Kupplung genullt',
  'probe-warmed': 'Jeder Fühler neben einem Thermometer in der Hand gewärmt',
  'rope-fixed': 'Rückholseil fest, sein Ende frei vom Kurzliner',
  'film-fitted': 'Folie gerade, nicht verdreht, an den Endstücken fest',
  'sleeve-marks': 'Kurzliner innerhalb der Marken der nutzbaren Länge',
  'batches-noted': 'Chargennummern notiert',
  'witness-kept': 'Rückstellprobe bei Rohrtemperatur gelagert',
  ventilation: 'Gas gemessen, Öffnung belüftet',
  protection: 'Handschuhe, Augen, Atem wie im Sicherheitsdatenblatt',
  'area-clear': 'Niemand in Rohrachse oder über der Öffnung',
  'camera-after': 'Kamera nach der Sanierung',
  cleaned: 'Packer gereinigt und nochmal begutachtet',
};
