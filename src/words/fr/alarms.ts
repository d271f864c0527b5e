import type { AlarmCode, LossCause } from '../../watch/codes.ts';
import type { AlarmValues } from '../../watch/events.ts';
import type { AlarmView } from '../../watch/view.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';
import {
  afterFall,
  afterJump,
  areSwapped,
  hasCase,
  inHose,
  isNow,
  isOver,
  isUnderNow,
  leftFull,
  roundedDown,
  SEEN_BAR,
  type Texts,
  unannounced,
} from '../said/alarm-cases.ts';
import { cureAlarms } from './alarms-cure.ts';
import { deviceFault } from './device-faults.ts';
import { STORE_CAUSE } from './link.ts';

const NO_WARNING = 'Danger possible sans alerte.';

/** Why the reading is lost, and why it was. */
const LOSS: Record<LossCause, { readonly is: string; readonly was: string }> = {
  silence: { is: 'le boîtier se tait', was: 'le boîtier se taisait' },
  port: { is: 'le câble ou le port a disparu', was: 'le câble ou le port avait disparu' },
  range: { is: 'le capteur indique loin sous zéro', was: 'le capteur indiquait loin sous zéro' },
  fault: { is: 'le capteur ou son fil est en défaut', was: 'le capteur ou son fil était en défaut' },
  reset: { is: 'le boîtier a redémarré', was: 'le boîtier avait redémarré' },
  garbage: { is: 'seuls des parasites arrivent', was: 'seuls des parasites arrivaient' },
  'other-device': {
    is: 'un autre boîtier répond : remettre le premier',
    was: 'un autre boîtier répondait',
  },
  rescaled: {
    is: 'le boîtier a une autre échelle : il n’est pas lu',
    was: 'le boîtier avait une autre échelle',
  },
};

function lossCause(cause: string | undefined, tense: 'is' | 'was'): string {
  if (cause === undefined) return '';
  return ` (${hasCase(LOSS, cause) ? LOSS[cause][tense] : cause})`;
}

function storeCause(cause: string | undefined): string {
  if (cause === undefined) return '';
  return ` (${hasCase(STORE_CAUSE, cause) ? STORE_CAUSE[cause] : cause})`;
}

const GAUGE_FIRST = 'Le capteur a sauté : voir d’abord le manomètre, ne pas mettre d’air';
const LOSS_FIRST = 'Chercher d’abord la perte. Rester à l’écart';
const HOSE_ALONE =
  'fermer la vanne d’air, puis ouvrir la purge : tenir le flexible, ne rien raccorder, baisser le détendeur';
/** What a packer over its rating asks for; a hose alone sends nobody away who has to hold it. */
const ventIt = (v: AlarmValues): string =>
  inHose(v) ? HOSE_ALONE : 'fermer la vanne d’air, puis ouvrir la purge, tous à l’écart';

export function alarms(f: Format) {
  /** ' 1,46 bar' when known, else nothing: a text never shows an empty slot. */
  const with_ = (label: string, bar: number | undefined, u: DisplayUnits): string => {
    return bar === undefined ? '' : `${label}${f.pressure(bar, u)}`;
  };

  /** Just under the floor both are one number in print: then it is said once. */
  const underFloor = ({ bar, floorBar }: AlarmValues, u: DisplayUnits): string => {
    const floor = with_(' ', floorBar, u);
    const now = with_(' ', bar, u);
    return `Pression${now === floor ? '' : now} sous le plancher${floor}`;
  };

  const range = (low: number | undefined, high: number | undefined, u: DisplayUnits): string => {
    if (low === undefined || high === undefined) return '';
    return ` (${f.pressureNumber(low, u)} à ${f.pressureNumber(high, u)})`;
  };

  const number = (label: string, bar: number | undefined, u: DisplayUnits): string => {
    return bar === undefined ? '' : `${label}${f.pressureNumber(bar, u)}`;
  };

  const seconds = (label: string, s: number | undefined, after = ''): string => {
    return s === undefined ? '' : `${label}${f.duration(s)}${after}`;
  };

  const rate = (label: string, mbarPerMin: number | undefined, u: DisplayUnits): string => {
    return mbarPerMin === undefined ? '' : `${label}${f.pressureRate(mbarPerMin, u)}`;
  };

  /** A time to danger, never longer than it is: ' dans 8 s (7 s à 10 s)'. */
  const soon = (v: AlarmValues): string => {
    if (v.inS === undefined) return '';
    const range =
      v.inLowS === undefined || v.inHighS === undefined
        ? ''
        : ` (${f.duration(roundedDown(v.inLowS))} à ${f.duration(v.inHighS)})`;
    return isNow(v.inS) ? ' en moins d’une seconde' : ` dans ${f.duration(roundedDown(v.inS))}${range}`;
  };

  /** 'lâcher jusqu’à 1,35, pas sous 0,90': advice with a floor, or with the floor said to be unknown; it may be the aim itself. */
  const advice = (v: AlarmValues, u: DisplayUnits): string => {
    if (v.adviceHighBar === undefined) return 'ouvrir un peu la purge et lâcher un peu d’air';
    const floor =
      v.adviceLowBar === undefined
        ? ' ; le plancher est inconnu'
        : f.pressureNumber(v.adviceLowBar, u) === f.pressureNumber(v.adviceHighBar, u)
          ? ', pas plus bas'
          : `, pas sous ${f.pressureNumber(v.adviceLowBar, u)}`;
    return `ouvrir un peu la purge, lâcher jusqu’à ${f.pressure(v.adviceHighBar, u)}${floor}`;
  };

  /** ' 5 fois par seconde au lieu de 50'. */
  const perSecond = (v: AlarmValues): string => {
    if (v.cause === 'late' && v.seconds !== undefined) return ` avec ${f.fixed(v.seconds, 1)} s de retard`;
    const { perSecond: now, perSecondBefore: before } = v;
    return now === undefined || before === undefined
      ? ' plus rarement qu’avant'
      : ` ${f.fixed(now, now < 2 ? 1 : 0)} fois par seconde au lieu de ${f.fixed(before, before < 2 ? 1 : 0)}`;
  };

  const rising: Texts = {
    now: (v, u) => {
      if (v.kind === 'settle' && v.settleBar !== undefined)
        return `La ligne va s’arrêter à ${f.pressure(v.settleBar, u)}${range(v.settleLowBar, v.settleHighBar, u)}${number(', plafond ', v.ceilingBar, u)} : fermer la vanne d’air maintenant, puis baisser le détendeur`;
      const ceiling = `${with_(' ', v.ceilingBar, u)}${soon(v)}`;
      const act = 'fermer la vanne d’air maintenant ; si elle monte encore, ouvrir la purge';
      if (v.kind === 'left-band')
        return `La pression${with_(' ', v.bar, u)} a quitté la plage de travail et ne ralentit pas, plafond${ceiling} : ${act}`;
      if (v.kind === 'opened')
        return `La pression${with_(' ', v.bar, u)} monte vite, vanne d’air dite fermée, plafond${ceiling} : ${act}`;
      if (v.kind === 'hand-time') return `Plafond${ceiling}, plus tôt qu’une main ne réagit : ${act}`;
      return `Plafond${ceiling} : ${act}`;
    },
    was: (v, u) => {
      if (v.kind === 'settle' && v.settleBar !== undefined)
        return `la ligne allait s’arrêter à ${f.pressure(v.settleBar, u)}${range(v.settleLowBar, v.settleHighBar, u)}${number(', plafond ', v.ceilingBar, u)}`;
      const when = seconds(', à ', v.inS, ' de là');
      const limit = `plafond${with_(' ', v.ceilingBar, u)}`;
      if (v.kind === 'opened')
        return `la pression montait vite${with_(' à ', v.bar, u)}, vanne d’air dite fermée, ${limit}${when}`;
      return v.kind === 'left-band'
        ? `la pression avait quitté la plage de travail${with_(' à ', v.bar, u)} et ne ralentissait pas, ${limit}${when}`
        : `la pression montait${with_(' à ', v.bar, u)}, ${limit}${when}`;
    },
  };

  const TEXT: Record<AlarmCode, Texts> = {
    'over-range': {
      now: (v, u) =>
        `Plus de${v.spanBar === undefined ? ' ce que lit le capteur' : `${with_(' ', v.spanBar, u)}, fin du capteur`}, personne ne voit de combien : ${ventIt(v)}`,
      was: (v, u) => `au-delà de l’étendue du capteur${with_(', ', v.spanBar, u)}`,
    },
    'over-rated': {
      now: (v, u) =>
        v.overBar !== undefined && v.overBar < SEEN_BAR
          ? `À la pression admissible${with_(' ', v.ratedBar, u)} : ${ventIt(v)}`
          : `Admissible dépassée${with_(' de ', v.overBar, u)}${with_(', admissible ', v.ratedBar, u)} : ${ventIt(v)}`,
      was: (v, u) =>
        `pression admissible${with_(' ', v.ratedBar, u)} dépassée${with_(', au plus ', v.bar, u)}`,
    },
    'over-test': {
      now: (v, u) =>
        `Entre les obturateurs il y a plus que l’essai ne permet${v.ceilingBar === undefined ? '' : `, ${f.testPressure(v.ceilingBar, u)}`} : fermer la vanne d’air, puis ouvrir la purge, personne près des obturateurs`,
      was: (v, u) =>
        `plus entre les obturateurs que l’essai ne permettait${v.ceilingBar === undefined ? '' : `, ${f.testPressure(v.ceilingBar, u)}`}${v.bar === undefined ? '' : `, au plus ${f.testPressure(v.bar, u)}`}`,
    },
    ceiling: {
      now: (v, u) =>
        `La pression${with_(' ', v.bar, u)} est au plafond${with_(' ', v.ceilingBar, u)} : ${inHose(v) ? HOSE_ALONE : 'fermer la vanne d’air, puis ouvrir la purge, rester à l’écart'}`,
      was: (v, u) => `au plafond${with_(' ', v.ceilingBar, u)}${with_(', au plus ', v.bar, u)}`,
    },
    rising,
    'supply-over': {
      now: (v, u) =>
        `${
          isUnderNow(v)
            ? `La sortie du détendeur${with_(', maintenant ', v.secondBar, u)}, dépasse peut-être le plafond${with_(' ', v.ceilingBar, u)}`
            : `L’arrivée${with_(' ', v.secondBar, u)} à la sortie du détendeur dépasse le plafond${with_(' ', v.ceilingBar, u)}`
        } : vanne d’air fermée, ne rien raccorder, baisser le détendeur`,
      was: (v, u) =>
        `la sortie du détendeur ${isUnderNow(v) ? 'dépassait peut-être' : 'dépassait'} le plafond${with_(' ', v.ceilingBar, u)}${with_(' ; elle était à ', v.secondBar, u)}`,
    },
    'supply-moved': {
      now: (v, u) =>
        v.secondBar !== undefined
          ? `L’arrivée${with_(' ', v.secondBar, u)} à la sortie du détendeur dépasse sa valeur d’avant${with_(', ', v.lockUpBar, u)} : le détendeur a bougé. Fermer la vanne d’air, rester à l’écart`
          : `La pression${with_(' ', v.bar, u)} dépasse la valeur éprouvée de l’arrivée${with_(', ', v.lockUpBar, u)} : le détendeur a bougé. Fermer la vanne d’air, rester à l’écart`,
      was: (v, u) =>
        v.secondBar !== undefined
          ? `la sortie du détendeur dépassait sa valeur d’avant${with_(', ', v.lockUpBar, u)}${with_(' ; elle était à ', v.secondBar, u)}`
          : `au-dessus de la valeur éprouvée de l’arrivée${with_(', ', v.lockUpBar, u)}${with_(' ; elle était à ', v.bar, u)}`,
    },
    'pressure-lost': {
      now: (v) =>
        `Mesure de pression perdue${lossCause(v.cause, 'is')} : tenir le packer pour plein, fermer la vanne d’air, rester à l’écart`,
      was: (v) => `mesure de pression perdue${lossCause(v.cause, 'was')}`,
    },
    'device-trip': {
      now: (v, u) =>
        `La limite propre du boîtier${with_(' ', v.ceilingBar, u)} s’est déclenchée : fermer la vanne d’air, rester à l’écart, voir le manomètre ; s’il est haut aussi, ouvrir la purge`,
      was: (v, u) => `la limite propre du boîtier${with_(' ', v.ceilingBar, u)} s’était déclenchée`,
    },
    'fast-fall': {
      now: (v, u) =>
        `${v.cause === 'unseen' ? 'De la pression s’est perdue sans que personne le voie' : 'La pression chute vite'}${with_(', maintenant ', v.bar, u)}. Sauf dégonflage : fermer la vanne d’air, rester à l’écart, ne pas mettre d’air. Flexible parti ou packer éclaté ?`,
      was: (v, u) =>
        v.cause === 'unseen'
          ? `de la pression s’était perdue sans que personne le voie${with_(', elle était à ', v.bar, u)}`
          : `la pression chutait vite${with_(', elle était à ', v.bar, u)}`,
    },
    'below-floor': {
      now: (v, u) =>
        afterJump(v)
          ? `La mesure${with_(' ', v.bar, u)} est sous le plancher${with_(' ', v.floorBar, u)}. ${GAUGE_FIRST}`
          : afterFall(v)
            ? `${underFloor(v, u)} après une perte de pression. ${LOSS_FIRST}`
            : `${underFloor(v, u)}, la manchette peut se décoller : compléter doucement à la vanne d’air, personne au packer`,
      was: (v, u) => `sous le plancher${with_(' ', v.floorBar, u)}${with_(', au moins ', v.bar, u)}`,
    },
    leaking: {
      now: (v, u) =>
        afterJump(v)
          ? `Le packer ou la ligne fuit selon la mesure${rate(' ', v.mbarPerMin, u)}. ${GAUGE_FIRST}`
          : afterFall(v)
            ? `Le packer ou la ligne fuit${rate(' ', v.mbarPerMin, u)} après une perte de pression. ${LOSS_FIRST}`
            : `Le packer ou la ligne fuit${rate(' ', v.mbarPerMin, u)} : regarder et écouter le long du flexible dehors, ne toucher aucun raccord sous pression ; compléter à la vanne d’air avant le plancher`,
      was: (v, u) => `le packer ou la ligne fuyait${rate(' ', v.mbarPerMin, u)}`,
    },
    'band-exit': {
      now: (v, u) =>
        afterJump(v)
          ? `La pression passera sous le plancher${with_(' ', v.floorBar, u)}${soon(v)} selon la mesure. ${GAUGE_FIRST}`
          : afterFall(v)
            ? `La pression passera sous le plancher${with_(' ', v.floorBar, u)}${soon(v)}, après une perte de pression. ${LOSS_FIRST}`
            : `La pression passera sous le plancher${with_(' ', v.floorBar, u)}${soon(v)} : compléter doucement à la vanne d’air, personne au packer`,
      was: (v, u) =>
        `la pression allait passer sous le plancher${with_(' ', v.floorBar, u)}${seconds(', ', v.inS, ' plus tard')}`,
    },
    lift: {
      now: (v, u) =>
        `La chaleur de réaction va faire monter la pression${with_(' à ', v.settleBar, u)}${range(v.settleLowBar, v.settleHighBar, u)}${number(', plafond ', v.ceilingBar, u)}${soon(v)} : ${advice(v, u)}`,
      was: (v, u) =>
        `la chaleur de réaction allait faire monter la pression${with_(' à ', v.settleBar, u)}${range(v.settleLowBar, v.settleHighBar, u)}${number(', plafond ', v.ceilingBar, u)}${seconds(', ', v.inS, ' plus tard')}`,
    },
    'device-unarmed': {
      now: () =>
        'Limite du boîtier inactive. Contrôler câble et boîtier ; rester à portée de voix de cet ordinateur',
      was: () => 'la limite propre du boîtier était inactive',
    },
    'device-deaf': {
      now: () =>
        'Le boîtier ne prend aucune commande, sa limite est peut-être une autre ou aucune. Contrôler le câble, rester à portée de voix de cet ordinateur',
      was: () => 'le boîtier ne prenait aucune commande, sa limite ne pouvait lui être donnée',
    },
    'device-fault': { now: (v) => deviceFault(v.cause).now, was: (v) => deviceFault(v.cause).was },
    'device-reset': {
      now: () =>
        'Le boîtier a redémarré, des mesures manquent (une lacune est marquée) : contrôler son courant et son câble',
      was: () => 'le boîtier avait redémarré, des mesures manquent (une lacune a été marquée)',
    },
    'supply-low': {
      now: () =>
        'La tension du capteur est trop basse ou inconnue, la mesure est peut-être trop basse : suivre le manomètre, contrôler le courant du boîtier',
      was: () => 'la tension du capteur était trop basse ou inconnue, la mesure était peut-être trop basse',
    },
    'slow-readings': {
      now: (v) =>
        `Les mesures viennent${perSecond(v)}, un gonflage trop poussé se voit plus tard : freiner à la vanne d’air, contrôler câble et boîtier`,
      was: (v) => `les mesures venaient${perSecond(v)}, un gonflage se voyait plus tard`,
    },
    stuck: {
      now: () => 'La mesure est figée, ne pas la suivre : fermer la vanne d’air, comparer avec le manomètre',
      was: () => 'la mesure était figée',
    },
    'reading-jump': {
      now: (v, u) =>
        isOver(v)
          ? `La mesure a sauté${with_(' de ', v.jumpBar, u)}, ce qu’aucun air ne fait, et le packer dépasse peut-être son plafond, quoi qu’affiche l’écran : fermer la vanne d’air, puis ouvrir la purge, rester à l’écart`
          : `La mesure a sauté${with_(' de ', v.jumpBar, u)}, ce qu’aucun air ne fait, ne pas la suivre : fermer la vanne d’air, comparer avec le manomètre`,
      was: (v, u) => `la mesure avait sauté${with_(' de ', v.jumpBar, u)}, ce qu’aucun air ne fait`,
    },
    'line-contradicted': {
      now: () =>
        'Les mesures ne vont pas avec la ligne ou la prise déclarée : voir la vanne d’air, corriger la fiche de chantier. D’ici là, maintien et fuite ne sont pas jugés',
      was: () => 'les mesures n’allaient pas avec la ligne ou la prise déclarée',
    },
    'gauge-differs': {
      now: (v, u) =>
        isOver(v)
          ? `Selon le manomètre${with_(', ', v.gaugeBar, u)} où le capteur indiquait${with_(' ', v.bar, u)}, le packer dépasse son plafond, quoi qu’affiche l’écran : fermer la vanne d’air, puis ouvrir la purge, rester à l’écart`
          : `Manomètre${with_(' ', v.gaugeBar, u)} et capteur${with_(' ', v.bar, u)} divergeaient au-delà de leur incertitude : croire le plus haut, trouver lequel est faux avant de continuer`,
      was: (v, u) =>
        `manomètre${with_(' ', v.gaugeBar, u)} et capteur${with_(' ', v.bar, u)} divergeaient au-delà de leur incertitude`,
    },
    'sensors-differ': {
      now: (v, u) => {
        const two = `Packer${with_(' ', v.bar, u)}, deuxième capteur${with_(' ', v.secondBar, u)}`;
        if (areSwapped(v))
          return `${two} : celui du packer s’est rempli d’abord. Échangés, le deuxième hors ligne, ou un packer plein ? N’ouvrir aucune vanne, corriger câbles ou fiche de chantier`;
        return v.cause === 'against-flow'
          ? `${two} : l’air ne va pas du bas vers le haut, l’un est faux. Croire le plus haut, comparer avec le manomètre`
          : `${two} : ils divergent au-delà de leur incertitude. Croire le plus haut, comparer avec le manomètre`;
      },
      was: (v, u) => {
        const two = `packer${with_(' ', v.bar, u)}, deuxième capteur${with_(' ', v.secondBar, u)}`;
        if (areSwapped(v)) return `les deux capteurs de pression semblaient échangés : ${two}`;
        return v.cause === 'against-flow'
          ? `l’air semblait aller du bas vers le haut : ${two}`
          : `les deux capteurs de pression divergeaient au-delà de leur incertitude : ${two}`;
      },
    },
    'second-lost': {
      now: (v) =>
        v.cause === 'check-pressure'
          ? 'Le deuxième capteur au packer ne donne pas de mesure, ou une mesure figée : la surveillance continue avec l’autre seul, contrôler son câble'
          : 'Le capteur à la sortie du détendeur ne donne pas de mesure, ou une mesure figée : la surveillance continue avec l’autre seul, contrôler son câble',
      was: (v) =>
        v.cause === 'check-pressure'
          ? 'le deuxième capteur au packer ne donnait pas de mesure, ou une mesure figée : la surveillance continuait avec l’autre seul'
          : 'le capteur à la sortie du détendeur ne donnait pas de mesure, ou une mesure figée : la surveillance continuait avec l’autre seul',
    },
    rebound: {
      now: (v, u) =>
        unannounced(v)
          ? `De l’air arrive${with_(', maintenant ', v.bar, u)}, et aucun gonflage n’était annoncé : fermer la vanne d’air, ouvrir la purge, rester à l’écart`
          : leftFull(v)
            ? `Encore sous pression${with_(', maintenant ', v.bar, u)}, et le travail est dit terminé : ne pas tirer ni débrancher, fermer la vanne d’air, ouvrir la purge, rester à l’écart`
            : `La pression est revenue${with_(' à ', v.bar, u)}, le packer n’est pas vide : ne pas tirer ni débrancher, fermer la vanne d’air, ouvrir la purge, attendre plus longtemps`,
      was: (v, u) =>
        unannounced(v)
          ? `de l’air arrivait qu’aucune étape n’avait annoncé${with_(', jusqu’à ', v.bar, u)}`
          : leftFull(v)
            ? `le packer était sous pression${with_(', à ', v.bar, u)}, et le travail était dit terminé`
            : `la pression était revenue après avoir été purgée${with_(', à ', v.bar, u)}`,
    },
    ...cureAlarms(f),
    'store-fault': {
      now: (v) =>
        `La surveillance continue, mais rien ne peut être enregistré${storeCause(v.cause)} : noter pression et heure à la main, libérer de la place sur cet ordinateur`,
      was: (v) => `rien ne pouvait être enregistré${storeCause(v.cause)}`,
    },
    'clock-jump': {
      now: (v) =>
        `L’ordinateur était en veille${seconds(' pendant ', v.seconds)}, rien n’était surveillé pendant ce temps : garder l’ordinateur éveillé et sur secteur`,
      was: (v) =>
        `l’ordinateur était en veille${seconds(' pendant ', v.seconds)}, rien n’était surveillé pendant ce temps`,
    },
    garbage: {
      now: () =>
        'Des octets arrivent qui ne sont pas des mesures : contrôler câble et terre, chercher un moteur ou un groupe électrogène à côté',
      was: () => 'des octets arrivaient qui n’étaient pas des mesures',
    },
  };

  return {
    NO_WARNING,

    /**
     * What is so and what to do, one sentence.
     * @param values as the event carries them (bar, s, °C, mbar/min); any may be missing.
     */
    alarmText: (code: AlarmCode, values: AlarmValues, units: DisplayUnits = METRIC): string =>
      TEXT[code].now(values, units),

    /** What was so, behind a word and a colon: the numbers are those of its moment, and it orders nothing. */
    alarmWas: (code: AlarmCode, values: AlarmValues, units: DisplayUnits = METRIC): string =>
      TEXT[code].was(values, units),

    /** The sentence of an alarm as it stands: one that is over is told as what was. */
    alarmSentence: (
      { alarm, state, values }: Pick<AlarmView, 'alarm' | 'state' | 'values'>,
      units: DisplayUnits = METRIC,
    ): string =>
      state === 'returned' ? `C’était : ${TEXT[alarm].was(values, units)}` : TEXT[alarm].now(values, units),
  };
}
