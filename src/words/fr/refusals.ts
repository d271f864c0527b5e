import type { InputCode, PlanNote, RefusalCode } from '../../job/plan-codes.ts';
import { type Format, METRIC } from '../create-format.ts';
import { planNumbers } from '../said/plan-numbers.ts';

/** What a plan refuses, and its numbers. */

/** `of` is what the refusal is about and its numbers, in brackets, or nothing. */
const REFUSAL: Record<RefusalCode, (of: string) => string> = {
  'working-over-rated': (of) => `La pression de travail dépasse la pression admissible${of}.`,
  'no-margin-reason': (of) =>
    `La pression de travail dépasse le plafond${of}. La baisser, ou donner un motif pour travailler à la pression admissible.`,
  'lift-past-rated': (of) =>
    `La chaleur de réaction ferait dépasser à cette ligne la pression admissible${of}. Baisser la pression de travail, ou prendre un détendeur à décharge.`,
  'floor-over-working': (of) =>
    `La pression de travail n’atteint pas le plancher : la manchette ne tiendrait pas contre la paroi${of}.`,
  'u-over-rated': (of) => `Le capteur est trop incertain pour surveiller ce packer${of}.`,
  'other-unrated': (of) =>
    `Deux packers sont sur cette ligne et la pression admissible de l’autre est inconnue${of}. La saisir sur la fiche de chantier.`,
  'rated-unread': (of) =>
    `La pression admissible est bien plus haute que celle d’un packer habituel${of}. Relire la plaque, puis corriger ou cocher dans le document du packer.`,
  'rated-over-range': (of) =>
    `L’étendue du capteur finit sous la pression admissible : il ne peut pas voir le plafond${of}.`,
  'packer-too-small': (of) => `La conduite est plus large que ce packer ne peut grossir${of}.`,
  'packer-too-large': (of) => `La conduite est trop étroite pour ce packer${of}.`,
  'packer-retired': (of) => `Le packer est réformé${of}.`,
  'sleeve-too-long': (of) =>
    `La manchette est plus longue que la longueur utile du packer à ce diamètre${of}.`,
  'pot-life-short': (of) => `La mise en œuvre dure plus longtemps que la vie en pot${of}.`,
};

const INPUT: Record<InputCode, string> = {
  diameter: 'diamètre intérieur',
  rated: 'admissible',
  u: 'incertitude',
  ceiling: 'plafond',
  working: 'travail',
  air: 'pression de l’air',
  rise: 'échauffement de l’air',
  ground: 'sol',
  lift: 'hausse',
  'after-rise': 'hausse après coup du flexible',
  vapour: 'vapeur d’eau dans la ligne',
  'other-rated': 'pression admissible de l’autre packer',
  density: 'masse volumique',
  'water-level': 'niveau d’eau',
  head: 'charge d’eau',
  'free-inflation': 'gonflage libre',
  margin: 'marge',
  altitude: 'altitude',
  'packer-volume': 'packer',
  'hose-volume': 'flexible',
  length: 'longueur',
  defect: 'défaut',
  overlap: 'recouvrement',
  'mark-below': 'repère du dessous',
  'mark-above': 'repère du dessus',
  'length-below': 'longueur du dessous',
  'length-above': 'longueur du dessus',
  thickness: 'épaisseur',
  lap: 'croisement',
  layers: 'couches',
  layer: 'couche',
  pressure: 'pression',
  modulus: 'module',
  strength: 'résistance',
  'safety-factor': 'coefficient de sécurité',
  poisson: 'coefficient de Poisson',
  enhancement: 'facteur K',
  ovality: 'ovalisation',
  'ovality-factor': 'facteur d’ovalisation',
  area: 'surface',
  fabric: 'tissu',
  ratio: 'rapport',
  waste: 'perte',
  'resin-mass': 'résine',
  parts: 'parts de résine',
  'hardener-parts': 'parts de durcisseur',
  'mix-temperature': 'température de mélange',
  'cup-mass': 'dans le gobelet',
  'lowest-temperature': 'température la plus basse de la fiche technique',
  'pot-life': 'vie en pot',
  handling: 'mise en œuvre',
  'start-pressure': 'pression de départ',
  drop: 'chute',
  'test-coefficient': 'coefficient',
  'sensor-span': 'plus large étendue qui suffirait',
  'sensor-step': 'pas le plus gros qui suffirait',
  leak: 'fuite',
  zero: 'zéro',
  days: 'jours restants',
  'off-gauge': 'mesure moins manomètre',
  'off-thermometer': 'mesure moins thermomètre',
  sooner: 'plus tôt de',
};

export function refusals(f: Format) {
  const numbers = planNumbers(f, INPUT, ' : ');
  return {
    ...numbers,
    refusalText: (note: PlanNote<RefusalCode>, units = METRIC): string =>
      numbers.noteText(REFUSAL[note.code], note, units),
  };
}
