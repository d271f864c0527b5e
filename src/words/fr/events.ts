import type { Setup } from '../../job/setup.ts';
import { DEVICE_FAULTS } from '../../link/frames.ts';
import type { GapReason } from '../../watch/codes.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { type Format, METRIC } from '../create-format.ts';
import { hasCase } from '../said/alarm-cases.ts';
import type { airTest } from './air-test.ts';
import { ALARM_STATE, ALARM_TITLE, alarmTitle, PRIORITY } from './alarm-titles.ts';
import type { alarms } from './alarms.ts';
import { itemName } from './checks.ts';
import type { cup } from './cup.ts';
import { deviceFault } from './device-faults.ts';
import type { hold } from './hold.ts';
import { STORE_CAUSE } from './link.ts';
import { overrideText } from './overrides.ts';
import type { supply } from './supply.ts';
import { PLACE, STAGE } from './terms.ts';
import { ZERO } from './zero.ts';

const GAP: Record<GapReason, string> = {
  silence: 'Le boîtier se taisait',
  port: 'Le câble ou le port avait disparu',
  reset: 'Le boîtier a redémarré',
  dropped: 'Le câble était trop lent, des mesures ont été perdues',
  clock: 'L’ordinateur était en veille',
  resumed: 'La session a été interrompue et reprise',
  garbage: 'Des parasites au lieu de mesures',
  'out-of-order':
    'Des mesures sont venues dans un autre ordre que celui où elles ont été prises ; les tardives ne servent pas',
  'device-clock': 'L’horloge du boîtier a sauté',
};

const CURE_START: Record<Extract<WatchEvent, { e: 'cure-start' }>['from'], string> = {
  seat: 'Le durcissement compte à partir d’ici (plaqué)',
  inflate: 'Le durcissement compte à partir d’ici (gonflé)',
  hold: 'Le durcissement compte à partir d’ici (maintien)',
};

/** What the sample contradicts, and what is asked; the age in per cent of the data sheet's time. */
const SAMPLE: Record<Extract<WatchEvent, { e: 'sample' }>['doubt'], (age: string) => string> = {
  'hard-early': (age) =>
    `Échantillon dur à ${age} % du temps de la fiche technique : gardé plus au chaud que la conduite, ou d’une autre résine ?`,
  'soft-late': (age) =>
    `Échantillon pas dur à ${age} % du temps de la fiche technique : mélange lent, ou échantillon gardé plus au froid ? Le compte l’attend`,
};

const SEGMENT_WHY: Record<Extract<WatchEvent, { e: 'segment' }>['why'], string> = {
  still: 'stable',
  'top-up': 'complété',
  flow: 'l’air passe',
  gap: 'lacune dans les mesures',
  stage: 'changement d’étape',
  end: 'fin de la session',
};

const REBOUND: Record<Extract<WatchEvent, { e: 'rebound' }>['what'], string> = {
  started: 'Purge fermée, attente d’une remontée de la pression',
  stayed: 'Restée à zéro, purge fermée. Un pli ou un clapet peut cacher de l’air',
  'came-back': 'La pression est revenue, purge fermée : le packer n’est pas vide',
  'broken-off': 'Test de remontée interrompu',
};

const DEVICE: Record<Extract<WatchEvent, { e: 'device' }>['what'], string> = {
  greeted: 'Boîtier connecté',
  reset: 'Le boîtier a redémarré',
  other: 'Un autre boîtier a répondu',
  rescaled: 'Le boîtier est revenu avec une autre échelle',
  taken: 'L’autre boîtier a été pris pour la session ; son zéro n’est pas encore fait',
  button: 'Bouton du boîtier appuyé',
  trip: 'La limite propre du boîtier s’est déclenchée',
  return: 'La limite propre du boîtier est revenue',
  fault: 'Le boîtier signale un défaut',
  hostlost: 'Le boîtier n’entend rien de cet ordinateur',
  hostback: 'Le boîtier entend de nouveau cet ordinateur',
};

function zeroTaken(
  offset: string,
  second: Extract<WatchEvent, { e: 'zero' }>['second'],
  pressure: (bar: number) => string,
): string {
  if (second === undefined) return `Zéro fait, décalage ${offset}`;
  const { reason } = second;
  switch (reason) {
    case 'ok':
      return `Zéro fait des deux capteurs, décalages ${offset} et ${pressure(second.offsetBar)}`;
    case 'too-far':
      return `Zéro fait, décalage ${offset} ; pas celui du deuxième capteur, qui indiquait ${pressure(second.offsetBar)}`;
    case 'noisy':
      return `Zéro fait, décalage ${offset} ; pas celui du deuxième capteur, qui ne tenait pas`;
    case 'no-reading':
      return `Zéro fait, décalage ${offset} ; pas celui du deuxième capteur, qui ne donnait pas de mesure`;
    default:
      return reason satisfies never;
  }
}

/** @param time how long nothing had come */
const BESIDE: Record<Extract<WatchEvent, { e: 'beside' }>['what'], (time: string) => string> = {
  greeted: () => 'Deuxième adaptateur connecté : ses températures sont lues à côté de la pression',
  other: () =>
    'Un autre deuxième adaptateur a répondu que celui que nomme la fiche de chantier ; il n’est pas lu',
  rescaled: () => 'Le deuxième adaptateur est revenu avec une autre échelle ; il n’est pas lu',
  port: () => 'Deuxième adaptateur disparu : ses températures s’arrêtent, la pression continue',
  closed: () => 'Deuxième adaptateur déconnecté : ses températures s’arrêtent, la pression continue',
  silent: (time) =>
    `Rien du deuxième adaptateur depuis ${time} : ses températures s’arrêtent, la pression continue`,
  back: (time) => `Deuxième adaptateur revenu, après ${time}`,
};

function checkLine({ item, said, how, text, by }: Extract<WatchEvent, { e: 'check' }>): string {
  const who = by === '' ? '' : ` (${by})`;
  const name = itemName(item, said);
  switch (how) {
    case 'done':
      return text === '' ? `Contrôlé : ${name}${who}` : `Contrôlé : ${name} : ${text}${who}`;
    case 'passed':
      return `Poursuivi sans ceci : ${name}. Motif : ${text}${who}`;
    case 'taken-back':
      return `Réponse retirée : ${name}${who}`;
    default:
      return how satisfies never;
  }
}

function storeFault(code: string): string {
  const known = hasCase(STORE_CAUSE, code) ? STORE_CAUSE[code] : code;
  return `Défaut d’enregistrement (${known})`;
}

function agreement(agrees: boolean | null): string {
  if (agrees === null) return 'ne peuvent être comparés';
  return agrees ? 'concordent dans leur incertitude' : 'divergent au-delà de leur incertitude';
}

export function events(
  f: Format,
  { alarmWas }: ReturnType<typeof alarms>,
  { leakText }: ReturnType<typeof hold>,
  { supplyEvent }: ReturnType<typeof supply>,
  { airTestEvent }: ReturnType<typeof airTest>,
  { cupMark, cupText }: ReturnType<typeof cup>,
) {
  return {
    GAP,

    /** One line a record's event, for the list beside a trace. */
    eventText(event: WatchEvent, units = METRIC): string {
      switch (event.e) {
        case 'stage':
          return `${STAGE[event.stage]}${event.attempt > 1 ? `, tentative ${event.attempt}` : ''}${event.by === 'data' ? ' (vu dans les mesures)' : ''}`;
        case 'alarm':
          if (event.to === 'unacknowledged')
            return `${PRIORITY[event.priority]} : ${alarmWas(event.alarm, event.values, units)}`;
          return `${alarmTitle(event)} : ${ALARM_STATE[event.to]}`;
        case 'acknowledge-refused':
          return `${ALARM_TITLE[event.alarm]} : un appui pour une alarme passée est venu tard et n’a rien acquitté`;
        case 'cue':
          return `Signal : fermer la vanne dans ${f.duration(event.closeInS)}`;
        case 'too-fast':
          return `Trop vite : à ${f.pressureSlope(event.rateBarPerS, units)} une main arrive trop tard de ${f.pressure(event.lateBar, units)}, jusqu’à ${f.pressureSlope(event.mostBarPerS, units)} elle arrive à temps`;
        case 'gap':
          return `Lacune de ${f.duration((event.toUs - event.fromUs) / 1e6)} : ${GAP[event.reason]}`;
        case 'limits':
          return event.ceilingBar === null
            ? 'Aucune limite : pas d’alerte de surpression'
            : `Limites : plafond ${f.pressure(event.ceilingBar, units)}, travail ${f.pressure(event.workingBar, units)}, plancher ${event.floorBar === null ? 'inconnu' : f.pressure(event.floorBar, units)}`;
        case 'setup-refused':
          return event.reason === 'ceiling-raised'
            ? 'Modification de la fiche de chantier refusée : pendant une session le plafond peut être baissé, jamais relevé'
            : 'Modification de la fiche de chantier refusée : elle n’est pas plus récente';
        case 'zero':
          return event.taken
            ? zeroTaken(f.pressure(event.offsetBar, units, 1), event.second, (bar) =>
                f.pressure(bar, units, 1),
              )
            : ZERO[event.reason];
        case 'gauge':
          return `Manomètre ${f.pressure(event.gaugeBar, units)}, capteur ${f.pressure(event.readingBar, units)} : ${agreement(event.agrees)}`;
        case 'warm-check':
          return `Sonde ${PLACE[event.place]} ${f.temperature(event.readingC, units)}, thermomètre ${f.temperature(event.thermometerC, units)} : ${agreement(event.agrees)}`;
        case 'segment':
          return `Ligne fermée : ${event.what === 'opened' ? 'début' : 'fin'} (${SEGMENT_WHY[event.why]})`;
        case 'leak':
          return leakText(event.leak, units);
        case 'hold':
          return `Maintien : ${f.fixed(event.minutesInBand, 1)} min dans la plage de maintien, ${f.pressure(event.minBar, units)} à ${f.pressure(event.maxBar, units)}. ${leakText(event.leak, units)}`;
        case 'knee':
          return `Le packer touche la paroi à ${f.pressure(event.freeInflationBar, units)} (${f.pressureNumber(event.low, units)} à ${f.pressureNumber(event.high, units)})`;
        case 'lift':
          return `La chaleur de réaction va faire monter la pression à ${f.pressure(event.peakBar.value, units)} (${f.pressureNumber(event.peakBar.low, units)} à ${f.pressureNumber(event.peakBar.high, units)})`;
        case 'cure-start':
          return event.before === undefined
            ? CURE_START[event.from]
            : `${CURE_START[event.from]}, avec ${f.fixed(event.before.minutes, 1)} min depuis le mélange à ${f.temperature(event.before.coldestC, units)} ou plus`;
        case 'cure-met':
          return 'Temps de durcissement de la fiche technique atteint au point le plus froid probable (compte prudent)';
        case 'question':
          if (event.answer === null) return 'Demandé : dégonflage ou perte ?';
          if (event.answer === 'held') return 'Question retirée : la chute est finie et la pression a tenu';
          return event.answer === 'let-down' ? 'Répondu : on dégonfle' : 'Répondu : perte de pression';
        case 'rebound':
          return REBOUND[event.what];
        case 'supply':
          return supplyEvent(event, units);
        case 'air-test':
          return airTestEvent(event, units);
        case 'outlet-stood':
          return `La sortie du détendeur est à ${f.pressure(event.bar, units)}`;
        case 'cup':
          return event.heatAge === null
            ? cupText(event)
            : `${cupText(event)}. ${cupMark(event.heatAge, f.quantity('temperatureDifference', event.riseK, units))}`;
        case 'mixed':
          return 'Résine mélangée';
        case 'witness':
          return `Échantillon témoin ${event.hard ? 'dur' : 'pas dur'}, ${event.atPipeTemperature ? 'gardé à la température de la conduite' : 'pas gardé à la température de la conduite'}`;
        case 'sample':
          return SAMPLE[event.doubt](f.fixed(event.age * 100, 0));
        case 'override':
          return `Poursuivi malgré l’avis (${overrideText(event.what)}) : ${event.reason}`;
        case 'check':
          return checkLine(event);
        case 'operator':
          return event.by === '' ? 'À l’ordinateur : personne d’indiqué' : `À l’ordinateur : ${event.by}`;
        case 'note':
          return event.text;
        case 'device':
          return event.what === 'fault'
            ? `${DEVICE.fault} : ${deviceFault(DEVICE_FAULTS[(event.value ?? 0) - 1]).was}`
            : DEVICE[event.what];
        case 'beside':
          return BESIDE[event.what](f.duration(event.seconds ?? 0));
        case 'store':
          return event.ok ? 'L’enregistrement fonctionne de nouveau' : storeFault(event.code);
        case 'end':
          return 'Fin de la session';
      }
    },

    /** What a run's limits say in one line. */
    limitsText(setup: Setup | null, units = METRIC): string {
      const limits = setup?.limits ?? null;
      if (limits === null) return 'Aucune limite : pas d’alerte de surpression';
      return `Admissible ${f.pressure(limits.ratedBar, units)}, plafond ${f.pressure(limits.ceilingBar, units)}, travail ${f.pressure(limits.workingBar, units)}`;
    },
  };
}
