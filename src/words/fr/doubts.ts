import type { Limits } from '../../job/setup.ts';
import type { DisplayUnits, Format } from '../create-format.ts';

/** What speaks against going to another stage; said before the step, recorded with its reason. */
export type DoubtCode =
  | 'urgent-alarm'
  | 'pressure-unknown'
  | 'over-ceiling'
  | 'over-working'
  | 'under-floor'
  | 'under-working'
  | 'was-over-rated'
  | 'packer-not-inspected'
  | 'cure-not-met'
  | 'cure-not-judged'
  | 'no-witness'
  | 'under-pressure'
  | 'no-rebound'
  | 'rebound-unseen'
  | 'not-zeroed'
  | 'line-pressed'
  | 'reads-low'
  | 'loss-suspected'
  | 'reading-jumped'
  | 'supply-over-ceiling'
  | 'supply-creeps'
  | 'checklist-open';

export const STAGE_DOUBT: Record<DoubtCode, string> = {
  'urgent-alarm': 'Une alarme urgente est présente.',
  'pressure-unknown': 'La pression est inconnue en ce moment.',
  'over-ceiling': 'La pression est au-dessus du plafond.',
  'over-working':
    'La pression est au-dessus de la pression de travail, et la chaleur de réaction la fait encore monter.',
  'under-floor': 'La pression est sous le plancher : la manchette peut se décoller de la paroi.',
  'under-working':
    'La pression est loin sous la pression de travail : la manchette peut ne pas être contre la paroi, et ce qu’on complète plus tard ne se distingue pas d’une fuite.',
  'was-over-rated':
    'Le packer a dépassé sa pression admissible dans cette session : un caoutchouc trop étiré peut éclater en dessous.',
  'packer-not-inspected':
    'Le packer a dépassé sa pression admissible dans une session passée, et aucune inspection n’est notée depuis : l’inspecter avant de le raccorder.',
  'cure-not-met':
    'Le temps de durcissement de la fiche technique n’est pas atteint au point le plus froid probable (compte prudent).',
  'cure-not-judged':
    'Le durcissement n’est pas jugé ici : la résine durcit à la lumière. Qu’elle soit dure, l’échantillon témoin et l’œil le disent.',
  'no-witness': 'L’échantillon témoin gardé à la température de la conduite n’a pas été noté dur.',
  'under-pressure': 'La ligne n’est pas vue à zéro.',
  'no-rebound':
    'Le test de remontée n’est pas passé : une ligne à zéro n’est pas un packer vide. Fermer la purge, attendre, voir qu’elle reste à zéro.',
  'rebound-unseen': 'Le capteur ne voit pas le packer d’ici : une ligne qui reste à zéro n’en dit rien.',
  'line-pressed':
    'La ligne est sous pression avant que de l’air soit annoncé : la vanne d’air fuit ou est ouverte, ou le packer n’était pas vide.',
  'reads-low':
    'Le capteur indique trop bas : il a sauté vers le bas, ou le manomètre indique plus. Il y a plus d’air que le chiffre ne dit.',
  'loss-suspected':
    'De la pression s’est perdue, et personne n’a trouvé où : un flexible est peut-être parti ou le packer déchiré.',
  'reading-jumped':
    'Le capteur a sauté, et le manomètre n’a pas été comparé depuis : sa valeur est peut-être fausse.',
  'supply-over-ceiling':
    'L’arrivée d’air a été vue au-dessus du plafond : baisser le détendeur et l’éprouver de nouveau.',
  'supply-creeps': 'L’arrivée d’air monte lentement : laissée ouverte, elle passe le plafond.',
  'checklist-open': 'Des points de sécurité de la liste sont sans réponse.',
  'not-zeroed': 'Le zéro du capteur n’a pas été fait raccord vu ouvert.',
};

/** What a doubt is seen by; as much of the moment as it needs. */
export interface DoubtAt {
  readonly bar: number | null;
  /** The highest of the run, bar. */
  readonly peakBar: number | null;
  readonly limits: Pick<Limits, 'ratedBar' | 'ceilingBar' | 'workingBar' | 'floorBar'> | null;
}

export function doubts(f: Format) {
  /** What is read beside what it is held against; null: it has no figures, or they are not known. */
  function doubtFigures(code: DoubtCode, { bar, peakBar, limits }: DoubtAt, u: DisplayUnits): string | null {
    const beside = (what: string, limit: number | null | undefined): string | null =>
      bar === null || limit == null ? null : `${f.pressure(bar, u)}, ${what} ${f.pressureNumber(limit, u)}`;
    switch (code) {
      case 'over-working':
      case 'under-working':
        return beside('travail', limits?.workingBar);
      case 'under-floor':
        return beside('plancher', limits?.floorBar);
      case 'over-ceiling':
        return beside('plafond', limits?.ceilingBar);
      case 'was-over-rated':
        return peakBar === null || limits === null
          ? null
          : `${f.pressure(peakBar, u)}, admissible ${f.pressureNumber(limits.ratedBar, u)}`;
      case 'under-pressure':
      case 'line-pressed':
        return bar === null ? null : f.pressure(bar, u);
      default:
        return null;
    }
  }

  return {
    STAGE_DOUBT,
    doubtFigures,
    /** The doubt with its figures before it. */
    doubtText(code: DoubtCode, at: DoubtAt, u: DisplayUnits): string {
      const figures = doubtFigures(code, at, u);
      return figures === null ? STAGE_DOUBT[code] : `${figures}. ${STAGE_DOUBT[code]}`;
    },
    /** A reason as it is recorded, with the figures in spite of which the step was taken. */
    reasonWith: (reason: string, figures: readonly string[]): string =>
      figures.length === 0 ? reason : `${reason} (${figures.join(' ; ')})`,
  };
}
