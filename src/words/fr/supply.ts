import type { PairPath, SupplyReason, SupplyVerdict } from '../../watch/codes.ts';
import type { Bounded, WatchEvent } from '../../watch/events.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';

/** Why a proof of the supply was not begun, was broken off, is asked about or holds no longer. */
const REASON: Record<SupplyReason, string> = {
  'not-in-prepare': 'seulement avant de plaquer',
  'no-reading': 'il n’y a pas de mesure',
  'not-empty': 'la ligne était sous pression : la purger d’abord',
  'no-rise':
    'aucune pression n’est venue. L’arrivée était-elle ouverte ? Un capteur au packer ne la voit pas',
  'slow-rise': 'elle montait moins vite qu’un flexible ne se remplit',
  'never-still': 'elle ne s’est pas stabilisée : le flexible fuit ou son bout est ouvert',
  'end-leaks': 'elle a baissé vanne fermée : le bout du flexible est ouvert ou fuit',
  'packer-on': 'le packer était au flexible',
  stopped: 'arrêtée à la main',
  turned: 'le détendeur a été réglé de nouveau',
  stage: 'le travail a continué',
  gap: 'des mesures manquent',
  device: 'autre capteur, autre échelle ou autre endroit',
  'fill-as-fast': 'le packer s’est rempli aussi vite que le flexible : il y était donc déjà',
};

/** What a proved supply is good for, and what is done about it. */
const VERDICT: Record<SupplyVerdict, string> = {
  stands: 'Tient à la pression de travail',
  'under-working': 'Tient sous la pression de travail : aucun gonflage ne l’atteint',
  'over-working': 'Tient au-dessus de la pression de travail : baisser le détendeur',
  'over-ceiling': 'AU-DESSUS DU PLAFOND : baisser le détendeur, ne pas raccorder',
  creeps: 'Monte lentement : ne pas la laisser ouverte',
};

/** Words of the task on the live page. */
const TASK = {
  title: 'Éprouver l’arrivée d’air',
  text: 'Avant de raccorder le packer : fermer le bout du flexible, puis ouvrir l’arrivée. Elle monte et s’arrête à ce que laisse passer le détendeur.',
  beside:
    'Un bout de flexible ouvert ou qui fuit, ou un packer au flexible, se découvre ; une vanne qui reste ouverte, non.',
  shut: 'Bout de flexible fermé',
  uncoupled: 'Débranché, le raccord ferme',
  closed: 'Comment le bout du flexible est-il fermé ?',
  again: 'Pour l’éprouver de nouveau : comment le bout du flexible est-il fermé ?',
  underWay: 'En cours : la consigne dit la suite.',
  turned: 'Détendeur réglé de nouveau',
  stoodAt: 'Arrivée avant le gonflage',
  path: 'Entre arrivée et packer',
  outletTitle: 'Sortie du détendeur',
  outletText: (bar: string) =>
    `Elle était à ${bar} avant de mettre l’air. Si le détendeur a été tourné exprès depuis, le dire : elle est alors surveillée à partir d’où elle est.`,
  needsLimits: 'Sans limites il n’y a rien à quoi l’éprouver : choisir un packer.',
  skipped: 'Non éprouvée. Le certificat le dit.',
  notProved: (why: string) => `Non éprouvée : ${why}.`,
  slowValve: 'Non : une main était à la vanne ou au détendeur',
  packerOn: 'Le packer est au flexible',
};

/** What lies between regulator and packer, as the two pressures show it. */
const PATH: Record<PairPath, string> = {
  flows: 'l’air passe',
  level: 'les deux sont à la même pression, rien de plus ne vient',
  blocked: 'rien ne passe : une vanne fermée, ou un flexible plié',
  escapes: 'l’air passe et le packer ne monte pas',
};

export function supply(f: Format) {
  const range = ({ value, low, high }: Bounded, u: DisplayUnits): string =>
    `${f.pressure(value, u)} (${f.pressureNumber(low, u)} à ${f.pressureNumber(high, u)})`;

  /** '1,82 bar (1,81 à 1,83). Tient à la pression de travail. Montée lente ...' */
  function supplyText(
    told: {
      readonly lockUpBar: Bounded | null;
      readonly verdict: SupplyVerdict | null;
      readonly creepMbarPerMin: Bounded | null;
      readonly ceilingInS: Bounded | null;
    },
    u: DisplayUnits = METRIC,
  ): string {
    const { lockUpBar, verdict, creepMbarPerMin, ceilingInS } = told;
    const out: string[] = [];
    if (lockUpBar !== null) out.push(`${range(lockUpBar, u)}.`);
    if (verdict !== null) out.push(`${VERDICT[verdict]}.`);
    if (ceilingInS !== null) out.push(`Elle passe le plafond dans ${f.duration(ceilingInS.value)}.`);
    else if (creepMbarPerMin !== null) out.push(`Montée lente ${f.pressureRate(creepMbarPerMin.value, u)}.`);
    return out.join(' ');
  }

  function supplyEvent(e: Extract<WatchEvent, { e: 'supply' }>, u: DisplayUnits = METRIC): string {
    const why = e.reason === null ? '' : ` : ${REASON[e.reason]}`;
    switch (e.what) {
      case 'begun':
        return e.end === 'uncoupled'
          ? 'Épreuve de l’arrivée d’air commencée, flexible débranché'
          : 'Épreuve de l’arrivée d’air commencée, bout de flexible fermé';
      case 'refused':
        return `Épreuve de l’arrivée d’air non commencée${why}`;
      case 'asked':
        return `Demandé si le packer est au flexible${why}`;
      case 'locked':
        return `L’arrivée d’air tient à ${supplyText({ ...e, creepMbarPerMin: null }, u)}`;
      case 'proved':
        return `Arrivée d’air éprouvée : ${supplyText(e, u)}`;
      case 'broken-off':
        return `Épreuve de l’arrivée d’air interrompue${why}`;
      case 'vented':
        return 'Ligne de nouveau vide après l’épreuve de l’arrivée d’air';
      case 'void':
        return `L’épreuve de l’arrivée d’air ne vaut plus${why}`;
      case 'elsewhere':
        return `Le gonflage s’arrête à ${f.pressure(e.bar, u)}${e.lockUpBar === null ? '' : `, l’arrivée était éprouvée à ${f.pressure(e.lockUpBar.value, u)}`}`;
    }
  }

  return { PAIR_PATH: PATH, SUPPLY: TASK, SUPPLY_REASON: REASON, supplyText, supplyEvent };
}
