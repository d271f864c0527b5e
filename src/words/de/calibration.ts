import type { CalibrationRefusal } from '../../sensing/calibration.ts';

/** What a sensor's calibration amounts to, beside its points. */
export const CALIBRATION = {
  title: 'Was die Punkte ergeben',
  asLeftCounts: 'Die Kalibriergerade geht durch die hinterlassenen Punkte.',
  asFoundCounts: 'Nichts wurde justiert: die Kalibriergerade geht durch die vorgefundenen Punkte.',
  point: 'Bezug',
  residual: 'Neben der Kalibriergeraden',
  gain: 'Steigung',
  correction: (at: string) => `Berichtigung bei ${at}`,
  scatter: 'Streuung um die Kalibriergerade, Standardunsicherheit',
  assumed: 'Angenommen: zwei Punkte lassen keine Streuung messen. Ein dritter Punkt sagt es.',
  assumedOne: 'Angenommen: ein Vergleich lässt keine Streuung messen. Ein zweiter sagt es.',
  offset: 'Berichtigung überall',
  byOffset: 'Um einen Versatz berichtigt: so nahe Punkte sagen nichts über eine Steigung.',
  far: 'Mehr als 3 K daneben, so viel liegt kein Thermoelement. War noch Eis da, die Spitze darin und ruhig, und ist es dieser Fühler? Noch einmal vergleichen.',
  worstFound: 'Größte Abweichung vorgefunden',
  worstLeft: 'Größte Abweichung hinterlassen',
  drift: (at: string) => `Vorgefunden zu hinterlassen, am größten bei ${at}`,
  series: 'Kalibrierungen',
  sinceLast: 'Verschoben seit der Kalibrierung davor',
  due: (days: number) => (days < 0 ? `Überfällig seit ${-days} d.` : `Fällig in ${days} d.`),
};

/** Why the points make no calibration. The sensor is then judged by its own sheet. */
export const CALIBRATION_REFUSAL: Record<CalibrationRefusal, string> = {
  'too-few': 'Noch keine Kalibrierung: mindestens zwei Punkte; bei einer Temperatur einer.',
  'too-many': 'Keine Kalibrierung: mehr als elf Punkte.',
  'not-finite': 'Keine Kalibrierung: ein Punkt oder der Messbereich ist keine Zahl.',
  narrow: 'Keine Kalibrierung: die Punkte decken weniger als die Hälfte des Messbereichs.',
  gain: 'Keine Kalibrierung: die Steigung liegt mehr als ein Zehntel daneben. Falscher Messbereich oder andere Einheit?',
  offset: 'Keine Kalibrierung: das untere Ende liegt mehr als ein Zwanzigstel des Messbereichs daneben.',
  residual:
    'Keine Kalibrierung: ein Punkt liegt mehr als ein Hundertstel des Messbereichs neben der Kalibriergeraden.',
  'far-off':
    'Keine Kalibrierung: mehr als 10 K daneben. Gekreuzte Adern, anderer Thermoelementtyp oder nicht gerührtes Eis?',
  scattered:
    'Keine Kalibrierung: die Punkte liegen über 2 K auseinander. Neu vergleichen, gerührt, und warten, bis es ruhig steht.',
};
