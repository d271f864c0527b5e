import type { Check, DrillCode, Outcome } from '../../practice/codes.ts';
import type { Checked, Sign } from '../../practice/shapes.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';

/** Exercices au simulateur et leur bilan. Titre et but ne révèlent rien ; la panne est dite après. */

type DrillWords = { readonly title: string; readonly goal: string; readonly fault: string };

const DRILL: Record<DrillCode, DrillWords> = {
  'drill-stuck-open': {
    title: 'Gonfler : pas au-delà de l’admissible',
    goal: 'Le packer reste sous sa pression admissible, et la vanne d’air reste fermée une fois fermée.',
    fault: 'Le détendeur est resté bloqué ouvert et a laissé passer toute la pression.',
  },
  'drill-creep': {
    title: 'Gonfler : s’arrêter où il faut',
    goal: 'Gonfler jusqu’à la pression de travail, fermer la vanne soi-même et rester sous le plafond.',
    fault: 'Le détendeur est monté lentement.',
  },
  'drill-unplug': {
    title: 'Gonfler : vite à la vanne, un',
    goal: 'Dès que la pression n’est plus connue, la vanne d’air est fermée en dix secondes.',
    fault: 'Le câble s’est débranché ; l’air a continué.',
  },
  'drill-blown-hose': {
    title: 'Gonfler : vite à la vanne, deux',
    goal: 'Dès que quelque chose ne va pas, la vanne d’air est fermée en dix secondes et le reste.',
    fault: 'Le flexible a sauté de son raccord.',
  },
  'drill-burst': {
    title: 'Gonfler : vite à la vanne, trois',
    goal: 'Dès que quelque chose ne va pas, la vanne d’air est fermée en dix secondes et le reste, et la ligne est purgée.',
    fault: 'Le packer a éclaté.',
  },
  'drill-relief': {
    title: 'Gonfler : quand cela ne monte pas',
    goal: 'Ne pas gonfler contre : vanne d’air fermée en vingt secondes, pas de maintien, et la ligne purgée.',
    fault: 'La soupape de sûreté s’est ouverte bien au-dessous de son réglage.',
  },
  'drill-leak': {
    title: 'Maintien : tenir',
    goal: 'À partir du moment où cela se gâte, garder le packer près de sa pression de travail pendant vingt minutes.',
    fault: 'Une fuite a commencé.',
  },
  'drill-kink': {
    title: 'Dégonfler : vide, c’est vide',
    goal: 'Montrer par l’essai à la purge que le packer est vide, avant de débrancher ou de terminer la session.',
    fault: 'Le flexible s’est plié pendant le dégonflage : la ligne indiquait zéro et le packer était plein.',
  },
  'drill-moved': {
    title: 'Plaquer : avant de rouvrir',
    goal: 'N’ouvrir la vanne pour la pression de travail que si l’arrivée d’air est sous le plafond, et gonfler.',
    fault: 'Le détendeur a été monté pendant la pause.',
  },
  'drill-differ': {
    title: 'Plaquer : qui croire',
    goal: 'Si deux mesures se contredisent, comparer le manomètre avant de remettre de l’air ; puis gonfler.',
    fault: 'Le deuxième capteur indiquait beaucoup trop peu.',
  },
  'drill-open-probe': {
    title: 'Durcir : les heures qui comptent',
    goal: 'Ne dégonfler qu’une fois le temps de durcissement atteint, et terminer la session sur un packer vide.',
    fault: 'La sonde de la manchette s’est rompue.',
  },
  'drill-slow-batch': {
    title: 'Durcir : ce mélange-ci',
    goal: 'Dire tout de suite que la résine est mélangée. Ne dégonfler qu’une fois atteint le temps de durcissement de ce mélange, et terminer la session sur un packer vide.',
    fault: 'Le mélange était lent ; seul le gobelet le montrait.',
  },
};

const OUTCOME: Record<Outcome, { readonly word: string; readonly means: string }> = {
  met: { word: 'But atteint', means: 'Tout ce que le but demande a été fait.' },
  'not-met': { word: 'But manqué', means: 'Ce qui a manqué est dit plus bas.' },
  'not-played': {
    word: 'Pas joué',
    means:
      'La session s’est terminée avant toute panne. Elle ne compte pas : recommencer et poursuivre le travail.',
  },
  'broken-off': {
    word: 'Interrompu',
    means: 'La session n’a pas de fin, ou a été reprise sur un autre lieu. Elle ne compte pas.',
  },
};

/** Par le nom que le simulateur donne à ce qui s’entend. */
const SENSED: Readonly<Record<Extract<Sign, { by: 'ear' }>['sensed'], string>> = {
  'hose-blows': 'L’air sort à grand bruit du flexible ouvert',
  burst: 'Une détonation : l’air sort à grand bruit du packer',
  'relief-blows': 'La soupape de sûreté souffle',
};

const PRACTICE = {
  title: 'Exercices',
  lead: 'Douze exercices au simulateur, chacun avec un but. Dans chacun quelque chose se gâte, tôt ou tard : quoi et quand, on ne le dit pas avant. Ensuite vient le bilan.',
  who: 'Qui s’exerce ?',
  nobody: 'Personne de nommé',
  whoText: 'Les initiales viennent des réglages, Personnes. Les résultats restent sur cet ordinateur.',
  play: 'Jouer',
  again: 'Rejouer',
  running: 'Une session est en cours. La terminer d’abord.',
  notYet: 'Pas encore joué',
  played: (n: number, met: number) =>
    n === 1
      ? met === 1
        ? 'Atteint du premier coup'
        : 'Joué une fois, manqué'
      : `Atteint ${met} fois sur ${n}`,
  progress: (met: number, all: number) => `${met} sur ${all} atteints`,
  last: (outcome: string, date: string) => `${outcome}, ${date}`,
  free: 'Exercice libre',
  freeText:
    'Tout le chantier sans panne ; les pannes, on se les donne soi-même. D’autres lieux se trouvent à la page en direct.',
  certificateNote:
    'Une session terminée peut être scellée, dans sa revue, comme enregistrement d’exercice avec une attestation d’exercice.',
  toList: 'Tous les exercices',
  goal: 'But',
  dial: 'Manomètre',
  atSite: 'Sur le lieu',
  quiet: 'Rien à entendre',
};

const DEBRIEF = {
  title: 'Bilan',
  plotLabel: 'Pression au fil de la session, avec les numéros de la liste',
  keyRead: 'lu par le capteur',
  keyTruth: 'dans le packer même',
  keyRated: 'admissible',
  lead: 'Simulateur : rien ici ne vient d’une vraie ligne.',
  none: 'Cette session n’a pas été jouée au simulateur : il n’y a rien à en dire.',
  playedBy: (who: string) => `Joué par ${who}`,
  goalIs: 'But',
  checks: 'Ce que le but demande',
  wentWrong: 'Ce qui s’est gâté',
  happened: 'Ce qui s’est passé',
  when: 'Temps',
  what: 'Quoi',
  who: { rig: 'panne', sign: 'vu', ear: 'entendu', hand: 'main' },
  figures: 'En chiffres',
  faultAt: 'Panne à',
  firstSign: 'Premier signe',
  signAfter: (after: string, what: string) => `${after} après : ${what}`,
  noSign: 'aucun',
  action: 'Première main utile',
  actionAfter: (after: string) => `${after} après le signe`,
  actionBefore: 'avant tout signe',
  noAction: 'aucune',
  peak: 'Pic dans le packer',
  margin: 'Reste jusqu’à l’admissible',
  overBy: (over: string) => `dépassée de ${over}`,
  could: 'Une main prête (trois secondes)',
  couldPeak: (peak: string) => `se serait arrêtée à ${peak}`,
  print: 'Imprimer ou enregistrer en PDF',
  review: 'Tracé et revue',
  open: 'Bilan',
  more: (n: number) => `${n} de plus dans l’enregistrement.`,
  truth: 'La pression dans le packer même, qu’aucun capteur ne montre, n’est connue qu’au simulateur.',
};

const GAUGED: Readonly<Partial<Record<Check, 'bar' | 'seconds'>>> = {
  'under-rated': 'bar',
  'under-ceiling': 'bar',
  filled: 'bar',
  'held-up': 'bar',
  vented: 'bar',
  'empty-opened': 'bar',
  'shut-in-time': 'seconds',
  'held-long': 'seconds',
};

const CHECK: Record<Check, string> = {
  'under-rated': 'Packer sous sa pression admissible',
  'under-ceiling': 'Packer sous le plafond',
  'shut-in-time': 'Vanne d’air fermée après le premier signe',
  'stays-shut': 'Vanne d’air restée fermée',
  vented: 'Ligne purgée',
  'turned-down': 'Détendeur baissé avant d’ouvrir la vanne',
  'gauge-compared': 'Manomètre comparé avant de remettre de l’air',
  filled: 'Gonflé à la pression de travail',
  'held-up': 'Packer tenu malgré la fuite',
  'held-long': 'Maintenu vingt minutes avec la fuite',
  'not-held': 'Aucun maintien commencé',
  'empty-opened': 'Packer vide au débranchement ou à la fin',
  'tested-empty': 'Essai à la purge resté à zéro',
  'cure-waited': 'Temps de durcissement atteint avant de dégonfler',
};

export const practice = (f: Format) => ({
  DRILL,
  OUTCOME,
  SENSED,
  PRACTICE,
  DEBRIEF,

  /** Une exigence, son chiffre, sa limite, et si elle est remplie. */
  checkText({ check, ok, value, limit }: Checked, units: DisplayUnits = METRIC): string {
    const kind = GAUGED[check];
    const show = (x: number): string => (kind === 'bar' ? f.pressure(x, units) : f.duration(x));
    const figure =
      kind === undefined || value === null
        ? ''
        : limit === null
          ? ` (${show(value)})`
          : ` (${show(value)}, limite ${show(limit)})`;
    return `${ok ? 'Oui' : 'Non'} : ${CHECK[check]}${figure}`;
  },

  /** Ce qu’une main a fait, par le nom du simulateur. @param value 0 à 1, ou bar */
  handText(name: string, value: number | null, units: DisplayUnits = METRIC): string {
    switch (name) {
      case 'valve':
        return value === 0 ? 'Vanne d’air fermée' : `Vanne d’air ouverte, ${f.percent(value ?? 0)}`;
      case 'regulator':
        return `Détendeur réglé à ${f.pressure(value, units)}`;
      case 'vent':
        return value === 0 ? 'Purge fermée' : 'Purge ouverte';
      case 'couple':
        return value === 0 ? 'Flexible débranché' : 'Flexible raccordé';
      case 'end':
        return value === 0 ? 'Bout du flexible ouvert' : 'Bout du flexible fermé';
      case 'warm':
        return value === 0 ? 'Sondes lâchées' : 'Sondes dans la main';
      default:
        return name;
    }
  },
});
