import type { AirTestReason, AirTestVerdict } from '../../watch/codes.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';

/** Air test of the finished repair: what came of it, and why not. */

/** Within a sentence. */
const REASON: Record<AirTestReason, string> = {
  'not-in-stage': 'seulement dans sa propre étape',
  'no-plan': 'la fiche de chantier n’en nomme aucun, ou il y manque une entrée',
  'no-reading': 'il n’y a pas de mesure',
  'sensor-too-coarse': 'l’incertitude du capteur dépasse un dixième de la chute admise',
  'over-plugs': 'la nappe demande plus d’air qu’on n’en met sur des obturateurs',
  stopped: 'arrêté à la main',
  'not-held': 'elle ne reste pas à la pression d’essai',
  'air-came-in': 'de l’air est entré pendant le chronométrage',
  gap: 'des mesures manquent',
  device: 'autre capteur, autre échelle ou autre essai',
  stage: 'le travail a continué',
  end: 'la session a pris fin',
  near: 'la chute est plus près de l’admise qu’on ne la connaît',
  rose: 'la pression a monté : chaleur, ou arrivée d’air non fermée',
};

const VERDICT: Record<AirTestVerdict, string> = {
  passed: 'Réussi',
  failed: 'Échoué',
  'cannot-say': 'Ne peut être dit',
};

/** Words of its task on the live page. */
const TASK = {
  title: 'Essai à l’air',
  none: 'Aucun n’est prévu : la fiche de chantier en nomme la méthode.',
  method: (method: string) => (method === 'F1417' ? 'ASTM F1417' : `EN 1610, méthode ${method}`),
  testPressure: 'Pression d’essai',
  first: 'D’abord, se stabiliser',
  most: 'Jamais au-dessus de',
  time: 'Temps',
  allowed: 'Chute admise',
  drop: 'Chute',
  attempts: 'Tentatives',
  noAttempt: 'Aucune encore. S’il est sauté, le certificat le dit.',
  probe:
    'Une sonde « air » posée dans la conduite entre les obturateurs permet de dire la chute à température constante. Ailleurs, elle la fausse.',
  codes:
    'Mode opératoire, obturateurs et qui peut les utiliser : selon les règles locales. Cette page n’en remplace aucune.',
};

export function airTest(f: Format) {
  const mbar = (value: number | null, u: DisplayUnits): string =>
    f.testPressure(value === null ? null : value / 1000, u);

  type Told = Extract<WatchEvent, { e: 'air-test' }>;

  /** 'Réussi : chute 3,2 mbar ± 1,4 mbar en 3 min 00 s depuis 101,0 mbar, admise 15,0 mbar (EN 1610, méthode LC)'. */
  function judgedText(e: Told, u: DisplayUnits = METRIC): string {
    const why = e.reason === null ? '' : ` (${REASON[e.reason]})`;
    const warmed =
      e.warmedK === null
        ? ''
        : `, l’air ${e.warmedK < 0 ? 'refroidi' : 'réchauffé'} de ${f.quantity('temperatureDifference', Math.abs(e.warmedK), u)}, corrigé`;
    return `${VERDICT[e.verdict ?? 'cannot-say']}${why} : chute ${mbar(e.dropMbar, u)} ± ${mbar(e.uMbar, u)} en ${f.duration(e.seconds)} depuis ${mbar(e.startMbar, u)}, admise ${mbar(e.allowedMbar, u)}${e.method === null ? '' : ` (${TASK.method(e.method)})`}${warmed}`;
  }

  function airTestEvent(e: Told, u: DisplayUnits = METRIC): string {
    const why = e.reason === null ? '' : ` : ${REASON[e.reason]}`;
    switch (e.what) {
      case 'begun':
        return `Essai à l’air ${e.attempt} commencé${e.method === null ? '' : `, ${TASK.method(e.method)}`}`;
      case 'refused':
        return `Essai à l’air non commencé${why}`;
      case 'stabilised':
        return `Essai à l’air ${e.attempt} : stabilisé pendant ${f.duration(e.seconds)}`;
      case 'timed':
        return `Essai à l’air ${e.attempt} : chronométré depuis ${mbar(e.startMbar, u)} pendant ${f.duration(e.seconds)}`;
      case 'judged':
        return `Essai à l’air ${e.attempt} : ${judgedText(e, u)}`;
      case 'broken-off':
        return `Essai à l’air ${e.attempt} interrompu${why}`;
      case 'vented':
        return 'Ligne de nouveau vide après l’essai à l’air';
    }
  }

  return { AIR: TASK, AIR_REASON: REASON, AIR_VERDICT: VERDICT, airTestEvent, judgedText };
}
