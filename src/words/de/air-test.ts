import type { AirTestReason, AirTestVerdict } from '../../watch/codes.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';

/** Air test of the finished repair: what came of it, and why not. */

/** Within a sentence. */
const REASON: Record<AirTestReason, string> = {
  'not-in-stage': 'nur in ihrem eigenen Abschnitt',
  'no-plan': 'das Auftragsblatt nennt keine, oder eine Angabe fehlt',
  'no-reading': 'es gibt keinen Messwert',
  'sensor-too-coarse': 'die Messunsicherheit des Sensors liegt über einem Zehntel des erlaubten Druckabfalls',
  'over-plugs': 'Grundwasser verlangt mehr Druck, als man auf Rohrverschlüsse gibt',
  stopped: 'von Hand abgebrochen',
  'not-held': 'der Prüfdruck bleibt nicht stehen',
  'air-came-in': 'Luft kam herein, während der Druckabfall gemessen wurde',
  gap: 'Messwerte fehlen',
  device: 'anderer Sensor, andere Skala oder Prüfung',
  stage: 'die Arbeit ging weiter',
  end: 'der Lauf endete',
  near: 'der Druckabfall liegt näher am erlaubten, als er bekannt ist',
  rose: 'der Druck stieg: Wärme, oder eine Zuluft, die nicht zu ist',
};

const VERDICT: Record<AirTestVerdict, string> = {
  passed: 'Bestanden',
  failed: 'Nicht bestanden',
  'cannot-say': 'Nicht zu sagen',
};

/** Words of its task on the live page. */
const TASK = {
  title: 'Luftprüfung',
  none: 'Keine geplant: das Auftragsblatt nennt das Verfahren.',
  method: (method: string) => (method === 'F1417' ? 'ASTM F1417' : `EN 1610, Verfahren ${method}`),
  testPressure: 'Prüfdruck',
  first: 'Erst, zur Beruhigung',
  most: 'Nie über',
  time: 'Prüfzeit',
  allowed: 'Erlaubter Druckabfall',
  drop: 'Druckabfall',
  attempts: 'Versuche',
  noAttempt: 'Noch keiner. Ausgelassen, steht es so im Nachweis.',
  probe:
    'Ein Fühler „Luft“, der zwischen den Rohrverschlüssen im Rohr liegt, lässt den Druckabfall bei gleicher Temperatur angeben. Anderswo macht er ihn falsch.',
  codes:
    'Prüfablauf, Rohrverschlüsse und wer sie benutzen darf: nach den örtlichen Regeln. Diese Seite ersetzt keine.',
};

export function airTest(f: Format) {
  const mbar = (value: number | null, u: DisplayUnits): string =>
    f.testPressure(value === null ? null : value / 1000, u);

  type Told = Extract<WatchEvent, { e: 'air-test' }>;

  /** 'Bestanden: Druckabfall 3,2 mbar ± 1,4 mbar in 3 min 00 s von 101,0 mbar, erlaubt 15,0 mbar (EN 1610, Verfahren LC)'. */
  function judgedText(e: Told, u: DisplayUnits = METRIC): string {
    const why = e.reason === null ? '' : ` (${REASON[e.reason]})`;
    const warmed =
      e.warmedK === null
        ? ''
        : `, die Luft ${e.warmedK < 0 ? 'kälter' : 'wärmer'} um ${f.quantity('temperatureDifference', Math.abs(e.warmedK), u)}, eingerechnet`;
    return `${VERDICT[e.verdict ?? 'cannot-say']}${why}: Druckabfall ${mbar(e.dropMbar, u)} ± ${mbar(e.uMbar, u)} in ${f.duration(e.seconds)} von ${mbar(e.startMbar, u)}, erlaubt ${mbar(e.allowedMbar, u)}${e.method === null ? '' : ` (${TASK.method(e.method)})`}${warmed}`;
  }

  function airTestEvent(e: Told, u: DisplayUnits = METRIC): string {
    const why = e.reason === null ? '' : `: ${REASON[e.reason]}`;
    switch (e.what) {
      case 'begun':
        return `Luftprüfung ${e.attempt} begonnen${e.method === null ? '' : `, ${TASK.method(e.method)}`}`;
      case 'refused':
        return `Luftprüfung nicht begonnen${why}`;
      case 'stabilised':
        return `Luftprüfung ${e.attempt}: ${f.duration(e.seconds)} beruhigt`;
      case 'timed':
        return `Luftprüfung ${e.attempt}: gemessen von ${mbar(e.startMbar, u)} an für ${f.duration(e.seconds)}`;
      case 'judged':
        return `Luftprüfung ${e.attempt}: ${judgedText(e, u)}`;
      case 'broken-off':
        return `Luftprüfung ${e.attempt} abgebrochen${why}`;
      case 'vented':
        return 'Leitung nach der Luftprüfung wieder leer';
    }
  }

  return { AIR: TASK, AIR_REASON: REASON, AIR_VERDICT: VERDICT, airTestEvent, judgedText };
}
