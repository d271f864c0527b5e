import type { Account, OpenPoint } from '../../record/account.ts';
import { type DisplayUnits, type Format, METRIC, type RunClock } from '../create-format.ts';
import type { supply } from './supply.ts';

/** What a run was, in whole sentences of facts, and what is still open. Nothing here promises anything. */

/** Of all holds together; null is not known. */
interface Held {
  readonly holdS: number | null;
  readonly inBandS: number | null;
  readonly floorKnown: boolean;
  readonly lowestHoldBar: number | null;
}

/** A hold that left the band for less held all the time: a reading's own grain, s. */
const WHOLE_S = 5;

const OPEN: Record<OpenPoint, string> = {
  'no-limit': 'Aucune limite n’était fixée',
  'no-hold': 'Aucun maintien enregistré',
  'not-held': 'Sorti de la plage de maintien',
  'zero-none': 'Zéro non fait',
  'supply-went-on': 'Gonflé d’une arrivée éprouvée trop forte',
  'supply-moved': 'Au-dessus de la valeur éprouvée de l’arrivée, ou de celle d’avant',
  'supply-over': 'Gonflé alors que l’arrivée dépassait le plafond',
  'sensors-differ': 'Les deux capteurs de pression ont divergé',
  'gauge-none': 'Manomètre non comparé',
  'gauge-differs': 'Manomètre et capteur divergent',
  'batch-slow': 'Mélange lent selon le gobelet témoin',
  'cup-doubted': 'Le gobelet témoin n’a rien pu dire',
  'witness-none': 'Échantillon témoin non enregistré',
  'witness-soft': 'Échantillon témoin pas dur',
  'witness-warm': 'Échantillon témoin pas gardé à la température de la conduite',
  'rebound-none': 'Pas vu rester à zéro, purge fermée',
  'rebound-back': 'La pression est revenue, purge fermée',
  'checks-passed': 'Poursuivi sans des points de sécurité de la liste',
  'air-test-failed': 'Essai à l’air échoué',
  'air-test-unsaid': 'L’essai à l’air ne dit rien',
  'air-test-none': 'Essai à l’air prévu, pas fait',
};

const ACCOUNT = {
  label: 'Ce que fut cette session',
  open: 'Encore ouvert',
  nothingOpen: 'Rien d’ouvert',
  reading: 'Lecture de l’enregistrement …',
  yes: 'concordent',
  no: 'divergent',
  cannot: 'ne peuvent être comparés',
  supply: 'Arrivée avant le raccordement',
  supplyNone: 'non éprouvée',
  gauge: 'Manomètre et capteur',
  witness: 'Échantillon témoin',
  witnessNone: 'non enregistré',
  atCeiling: 'Au plafond',
  never: 'jamais',
  reached: 'atteint',
  noCeiling: 'aucune limite fixée',
  over: 'Au-delà de l’admissible',
};

export function account(f: Format, { SUPPLY_REASON, supplyText }: ReturnType<typeof supply>) {
  const pressureSentence = (a: Account, n: Held, units: DisplayUnits): string => {
    if (n.holdS === null || n.inBandS === null) return 'Aucun maintien n’a été enregistré.';
    const low = f.pressure(n.lowestHoldBar, units);
    const time = f.duration(n.inBandS);
    const whole = f.duration(n.holdS);
    if (!n.floorKnown)
      return a.atCeiling === false
        ? `Gonflé pendant ${time}, au plus bas ${low}, jamais au plafond ; le plancher est inconnu.`
        : `Gonflé pendant ${time}, au plus bas ${low} ; le plancher est inconnu.`;
    const isWhole = n.holdS - n.inBandS <= WHOLE_S;
    if (a.atCeiling === false)
      return isWhole
        ? `Maintenu ${whole} dans la plage de maintien, au plus bas ${low}, jamais au plafond.`
        : `Dans la plage de maintien ${time} sur ${whole}, au plus bas ${low}, jamais au plafond.`;
    if (a.atCeiling === true && a.overRated === null)
      return isWhole
        ? `Maintenu ${whole} dans la plage de maintien, au plus bas ${low} ; le plafond a été atteint.`
        : `Dans la plage de maintien ${time} sur ${whole}, au plus bas ${low} ; le plafond a été atteint.`;
    return isWhole
      ? `Maintenu ${whole} dans la plage de maintien, au plus bas ${low}.`
      : `Dans la plage de maintien ${time} sur ${whole}, au plus bas ${low}.`;
  };

  const floorSentence = ({ underFloor }: Account, clock: RunClock): readonly string[] => {
    if (underFloor === null) return [];
    const { spans, when } = underFloor;
    const [first] = spans;
    if (first === undefined) return [];
    const [from, to] = [clock(first.fromS), clock(first.toS)];
    const total = f.duration(spans.reduce((t, s) => t + s.toS - s.fromS, 0));
    const cure =
      when === null
        ? ''
        : when === 'before-cure'
          ? ', avant le temps de durcissement'
          : ', après le temps de durcissement';
    if (spans.length > 1)
      return [`Sous le plancher ${spans.length} fois, d’abord de ${from} à ${to}, ${total} en tout${cure}.`];
    return [
      from === to
        ? `Sous le plancher à ${from} pendant ${total}${cure}.`
        : `Sous le plancher de ${from} à ${to}${cure}.`,
    ];
  };

  const cureSentence = ({ cure }: Account): string => {
    switch (cure.state) {
      case 'met':
        return cure.afterS === null
          ? 'Le temps de durcissement de la fiche technique a été atteint au point le plus froid probable.'
          : `Le temps de durcissement de la fiche technique a été atteint après ${f.duration(cure.afterS)} au point le plus froid probable.`;
      case 'not-met':
        return `Le temps de durcissement de la fiche technique n’a pas été atteint : ${f.duration(cure.countedS)} ont été comptés.`;
      case 'not-started':
        return 'Le temps de durcissement de la fiche technique n’a pas commencé à compter.';
      case 'not-followed':
        return 'Aucun temps de durcissement n’a été suivi : pas de résine avec ses temps sur la fiche de chantier.';
      case 'not-judged':
        return 'Le durcissement n’a pas été jugé : la résine durcit à la lumière.';
      default:
        return cure satisfies never;
    }
  };

  return {
    ACCOUNT,
    OPEN_POINT: OPEN,

    /**
     * The worst first.
     * @param clock names a time of the run, seconds from its first sample: by the clock, or by the run's own where none is known
     */
    accountText(a: Account, n: Held, clock: RunClock, units = METRIC): readonly string[] {
      const over =
        a.overRated === null
          ? []
          : a.overRated.forS === null
            ? [`Admissible dépassée de ${f.pressure(a.overRated.byBar, units)}.`]
            : [
                `Admissible dépassée de ${f.pressure(a.overRated.byBar, units)} pendant ${f.duration(a.overRated.forS)}.`,
              ];
      return [...over, ...floorSentence(a, clock), pressureSentence(a, n, units), cureSentence(a)];
    },

    /** What the supply was proved at, what it is good for, and why that held no longer. */
    supplyProved({ supply }: Account, units = METRIC): string {
      if (supply === null) return ACCOUNT.supplyNone;
      const text = supplyText(supply.proved, units);
      return supply.voidBy === null ? text : `${text} N’a plus valu : ${SUPPLY_REASON[supply.voidBy]}.`;
    },

    /** Two readings beside each other, and whether they agree. */
    gaugeText(a: Account, units = METRIC): string {
      const { gauge } = a;
      if (gauge === null) return 'non comparé';
      const how = gauge.agrees === null ? ACCOUNT.cannot : gauge.agrees ? ACCOUNT.yes : ACCOUNT.no;
      return `${f.pressureNumber(gauge.gaugeBar, units)}, ${f.pressure(gauge.readingBar, units)} : ${how}`;
    },

    witnessText(a: Account): string {
      const { witness } = a;
      if (witness === null) return ACCOUNT.witnessNone;
      if (!witness.atPipeTemperature)
        return witness.hard
          ? `dur à ${f.stopwatch(witness.atS)}, pas gardé à la température de la conduite`
          : `pas dur à ${f.stopwatch(witness.atS)}, pas gardé à la température de la conduite`;
      return witness.hard ? `dur à ${f.stopwatch(witness.atS)}` : `pas dur à ${f.stopwatch(witness.atS)}`;
    },

    overText(a: Account, units = METRIC): string {
      if (a.overRated === null) return ACCOUNT.never;
      return a.overRated.forS === null
        ? f.pressure(a.overRated.byBar, units)
        : `${f.pressure(a.overRated.byBar, units)}, ${f.duration(a.overRated.forS)}`;
    },
  };
}
