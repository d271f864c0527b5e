import type { BenchPoint, ReasonOf, RefusedLine, Verdict } from '../../job/bench-codes.ts';
import type { DisplayUnits, Format } from '../create-format.ts';

/** What was found, as its sentence tells it. */
export interface Told {
  readonly value: number | null;
  readonly against: number | null;
  readonly more: number | null;
}

/** Under it a device lets its limit be raised or taken away (firmware-protocol/SPEC.md, 7). */
const SMALL_BAR = 0.1;

type Sentence = (told: Told, units: DisplayUnits) => string;

export const BENCH = {
  title: 'Banc',
  lead: 'Mettre à l’épreuve un boîtier construit ou acheté avant qu’il surveille un packer : ce que dit sa ligne, ce que montrent ses capteurs, si sa propre alarme s’entend. Aucun packer n’est sur la ligne pendant ce temps.',
  connectTitle: 'Connecter le boîtier à éprouver',
  connect: 'Connecter un boîtier',
  connectOther: 'Choisir un autre port',
  practice: 'Éprouver le simulateur',
  disconnect: 'Déconnecter',
  inRun:
    'Une session est en cours. Le banc ne prend aucun port et n’éprouve rien pendant ce temps : continuer quand elle sera close.',
  toLive: 'Voir le direct',
  limitSet:
    'Une limite est en vigueur pour un packer peut-être plein. Le banc regarde seulement ; finir d’abord cela.',
  listening: (device: string, firmware: string) => `${device}, micrologiciel ${firmware}`,
  nobody: 'Personne n’a encore dit qui il est.',
  listened: (time: string) => `Écouté pendant ${time}.`,
  again: 'Recommencer',
  points: 'Ce qui a été trouvé',
  channel: (index: number) => `voie ${index}`,
  tries: 'À éprouver à la main',
  zeroText: 'Ouvrir la ligne à l’air, attendre un instant.',
  zero: 'Faire le zéro ici',
  spanText: 'Pomper à une pression stable et saisir ce qu’indique l’étalon.',
  reference: 'L’étalon indique',
  compare: 'Comparer',
  warmText: 'Prendre le bout d’une sonde dans la main chaude, puis appuyer ; tenir une minute.',
  warm: (index: number, place: string | null) =>
    place === null ? `Dans ma main : voie ${index}` : `Dans ma main : voie ${index}, ${place}`,
  warmPractice: 'Exercice : prendre toutes les sondes en main',
  warmPracticeEnd: 'Exercice : lâcher les sondes',
  guardText: (bar: string) =>
    `Sa limite propre est mise à ${bar} et le boîtier le confirme. Pomper alors à la main, sans packer, jusqu’à ce qu’il sonne. Cet ordinateur donne l’alarme aussi, comme il se doit.`,
  arm: (bar: string) => `Mettre sa limite à ${bar}`,
  pump: 'Elle est active. Pomper lentement au-dessus de la limite.',
  heardAsk: 'Il s’est déclenché. Son buzzer a-t-il été entendu ?',
  heard: 'Entendu',
  notHeard: 'Pas entendu',
  takeAway: 'Retirer la limite',
  putBack: 'Remettre sa limite d’avant',
  stillArmed: (bar: string) =>
    `Le boîtier garde encore la limite de ce test, ${bar}. Lâcher d’abord la pression, puis la retirer ; une session fixe la sienne.`,
  taken: 'La limite du test est retirée.',
  lines: 'Lignes telles que venues',
  linesText: 'La plus récente d’abord. Une ligne refusée porte son motif ; rien n’en a été lu.',
  linesMade: 'Cette source ne parle pas le protocole : les lignes sont ce qui a été fait de ce qui est venu.',
  noLines: 'Rien n’est venu par le câble.',
  read: 'lue',
  baud: (n: number) => `${n} bauds`,
  refusedTitle: 'Lignes refusées',
  refusedCount: (n: number) => (n === 1 ? '1 ligne' : `${n} lignes`),
  keepTitle: 'Le garder comme relevé du boîtier',
  by: 'Éprouvé par (initiales)',
  notes: 'Notes',
  keep: 'Garder ce relevé',
  kept: 'Gardé avec les capteurs du boîtier.',
  keptPractice: 'Gardé comme exercice. Ce n’est pas le relevé d’un vrai boîtier.',
  records: 'Relevés de banc',
  noRecords: 'Aucun gardé encore. Un boîtier éprouvé ci-dessus peut être gardé ici.',
  open: 'Ouvrir un fichier de relevé',
  imported: 'Ajouté. Il est marqué comme venu d’un fichier.',
  fileRefused: (what: string) => `Non repris : ${what}`,
  gone: 'Ce relevé n’est plus ici.',
  recordTitle: (device: string) => `Relevé de banc de ${device}`,
  practiceMark: 'EXERCICE : pas un vrai boîtier',
  fileMark: 'Venu d’un fichier : pas éprouvé sur cet ordinateur',
  device: 'Boîtier',
  firmware: 'Micrologiciel',
  when: 'Gardé',
  byRow: 'Éprouvé par',
  speed: 'Vitesse',
  listenedRow: 'Écouté',
  said: 'Ce qu’il dit de lui-même',
  print: 'Imprimer',
  export: 'Enregistrer dans un fichier',
  notProved: 'Il dit comment était ce boîtier ce jour-là, sur cet ordinateur. Ce n’est pas un étalonnage.',
  toBench: 'L’éprouver au banc',
  fromSensors: 'Banc : éprouver un boîtier',
  sensorNone: 'Aucun relevé de banc du boîtier de ce capteur n’est gardé.',
  sensorNoDevice: 'Saisir le boîtier ci-dessus : ses relevés de banc seront ici.',
};

export const VERDICT: Readonly<Record<Verdict, string>> = {
  good: 'Bon',
  doubtful: 'Douteux',
  bad: 'Mauvais',
  'not-tried': 'Pas éprouvé',
};

export const POINT: Readonly<Record<BenchPoint, string>> = {
  lines: 'Lignes lues',
  rate: 'Cadence',
  lost: 'Mesures perdues',
  clock: 'Horloge',
  restarts: 'Redémarrages',
  step: 'Plus petit pas',
  noise: 'Bruit',
  drift: 'Dérive',
  zero: 'Zéro',
  span: 'Étendue',
  supply: 'Tension du capteur',
  warm: 'Main chaude',
  guard: 'Son alarme propre',
};

export const REFUSED: Readonly<Record<RefusedLine, string>> = {
  garbage: 'pas une ligne du protocole : lettre inconnue, ou octets qui ne sont pas du texte',
  crc: 'son contrôle ne correspond pas : perturbée, ou calculée autrement',
  form: 'son contrôle est juste et sa forme non : un champ hors de sa plage, absent ou en trop',
  long: 'plus de 128 octets sans fin',
  partial: 'une demi-ligne, coupée à l’ouverture du port : pas un défaut',
  unknown: 'd’une version plus récente du protocole : pas un défaut',
};

/** The sentence of each reason. */
export function benchReasons(f: Format) {
  const n = (value: number | null): string => (value === null ? '–' : f.count(value));
  const fixed = (value: number | null, digits: number): string =>
    value === null ? '–' : f.fixed(value, digits);
  const small = (mbar: number | null, units: DisplayUnits): string =>
    f.quantity('smallPressure', mbar, units, 1);
  const smallBar = (bar: number | null, units: DisplayUnits): string =>
    f.quantity('smallPressure', bar === null ? null : bar * 1000, units);
  const kelvin = (k: number | null, units: DisplayUnits): string =>
    f.quantity('temperatureDifference', k, units);

  const refused: Sentence = (t) => `${n(t.value)} lignes refusées sur ${n(t.against)}.`;
  const rate: Sentence = (t) =>
    t.against === null
      ? `${fixed(t.value, 1)} mesures par seconde.`
      : `${fixed(t.value, 1)} mesures par seconde ; le boîtier en annonce ${fixed(t.against, 0)}.`;
  const lost: Sentence = (t) => `${n(t.value)} mesures manquantes sur ${n(t.against)}.`;
  const clock: Sentence = (t) =>
    `${fixed(t.value, 0)} ± ${fixed(t.against, 0)} ppm par rapport à l’horloge de cet ordinateur.`;
  const step: Sentence = (t, u) => `${small(t.value, u)} par pas (${n(t.against)} bits).`;
  const noise: Sentence = (t, u) =>
    `${small(t.value, u)}, ${fixed(t.against, 1)} points (écart type) ; ${fixed(t.more, 0)} points du plus bas au plus haut en une seconde.`;
  const drift: Sentence = (t, u) =>
    `${f.pressureRate(t.value, u)} ± ${f.pressureRate(t.against, u)}, sur ${f.duration(t.more)} au repos.`;
  const zero: Sentence = (t, u) =>
    `La ligne ouverte indique ${smallBar(t.value, u)} ; on peut en retrancher au plus ${smallBar(t.against, u)}.`;
  const span: Sentence = (t, u) =>
    `Écart de ${smallBar(t.value, u)} à ${f.pressure(t.more, u)} ; les deux ensemble peuvent différer de ${smallBar(t.against, u)}.`;
  const supply: Sentence = (t) =>
    `Au plus bas ${fixed(t.against, 2)} V sur ${fixed(t.more, 2)} V, ${t.value === null ? '–' : f.percent(Math.max(0, t.value))} en dessous.`;
  const warm: Sentence = (t, u) =>
    `A bougé de ${kelvin(t.value, u)} depuis ${f.temperature(t.against, u)} en ${f.duration(t.more)}.`;
  const tripped: Sentence = (t, u) =>
    `Déclenché à ${f.pressure(t.value, u)}, limite ${f.pressure(t.against, u)}.`;
  const and =
    (first: Sentence, second: string): Sentence =>
    (t, u) =>
      `${first(t, u)} ${second}`;
  const only =
    (text: string): Sentence =>
    () =>
      text;

  const reasons: { readonly [P in BenchPoint]: Readonly<Record<ReasonOf<P>, Sentence>> } = {
    lines: {
      few: (t) => `${n(t.against)} lignes jusqu’ici : trop peu.`,
      clean: refused,
      some: and(refused, 'Une isolée est un claquement sur le câble ; à suivre.'),
      many: and(
        refused,
        'Changer le câble ; si le micrologiciel est nouveau, comparer une ligne avec le protocole.',
      ),
    },
    rate: {
      few: only('Écouter dix secondes.'),
      kept: rate,
      slow: and(rate, 'Lent : une prévision au gonflage a peu d’appui.'),
      'too-slow': and(rate, 'Trop lent pour un gonflage. Monter la vitesse, ou envoyer moins de voies.'),
    },
    lost: {
      few: only('Trop peu de mesures jusqu’ici.'),
      none: lost,
      some: and(lost, 'Chacune est une lacune dans l’enregistrement.'),
      many: and(lost, 'Le câble est trop lent pour la cadence, ou le boîtier trop occupé.'),
    },
    clock: {
      few: (t) => `${f.duration(t.more)} écoutés sur une minute.`,
      close: clock,
      off: and(clock, 'Oscillateur grossier : les vitesses en sont fausses d’autant.'),
      'far-off': and(clock, 'Sa période n’est pas 100 µs : corriger le micrologiciel.'),
    },
    restarts: {
      few: (t) => `${f.duration(t.against)} écoutés sur une minute.`,
      none: (t) => `Aucun en ${f.duration(t.against)}.`,
      restarted: (t) =>
        `Redémarré ${n(t.value)} fois : courant trop faible, chien de garde, ou prise retirée (alors recommencer).`,
    },
    step: {
      'no-channel': only('Il n’a pas de voie de pression.'),
      fine: step,
      coarse: and(step, 'Une petite fuite se voit tard.'),
      'too-coarse': and(
        step,
        'Trop gros pour un maintien : un convertisseur plus fin, ou un capteur de plus petite étendue.',
      ),
      'no-scale': only(
        'Sa ligne ne dit pas quel signal est le zéro et lequel la pleine échelle : saisir les deux dans le document du capteur.',
      ),
    },
    noise: {
      few: only('Laisser la ligne au repos dix secondes.'),
      quiet: noise,
      noisy: and(noise, 'Blinder le câble du capteur, ou moyenner davantage.'),
      'too-noisy': and(
        noise,
        'Trop pour voir une fuite ou une prévision : blinder, mettre à la terre, séparer le courant.',
      ),
      frozen: and(
        noise,
        'Pas un point n’a bougé : un pas est plus gros que le bruit, ou le capteur est bloqué. Pomper un peu.',
      ),
      'no-reading': only(
        'Le capteur ne donne pas de pression : fil coupé, capteur absent, mauvaise étendue.',
      ),
    },
    drift: {
      few: (t) => `${f.duration(t.more)} au repos sur trois minutes.`,
      steady: drift,
      drifts: and(drift, 'Le laisser chauffer un quart d’heure et recommencer.'),
      unsure: and(drift, 'Pas encore sûr : le laisser au repos plus longtemps.'),
      'drifts-far': and(
        drift,
        'Autant qu’une fuite annoncée. Le laisser chauffer et recommencer ; si cela reste, le capteur ne convient pas à un maintien.',
      ),
    },
    zero: {
      'not-taken': only('Pas encore fait.'),
      'not-still': only('La ligne a bougé. L’ouvrir, attendre, le refaire.'),
      near: zero,
      far: and(zero, 'Plus de la moitié : à suivre.'),
      'too-far': and(zero, 'Refusé : ligne sous pression, mauvaise étendue, ou capteur faux.'),
      'no-reading': only('Il n’y avait pas de pression pour le faire.'),
    },
    span: {
      'not-compared': only('Pas encore comparé.'),
      'not-still': only('La ligne a bougé. Attendre qu’elle tienne, comparer de nouveau.'),
      agrees: span,
      'too-low': and(span, 'Si bas que cela dit peu de l’étendue : comparer plus haut.'),
      'just-off': and(span, 'Juste au-delà : faire le zéro et comparer de nouveau.'),
      differs: and(span, 'Mauvaise étendue ou échelle, ou l’étalon est faux.'),
    },
    supply: {
      'not-measured': only('Le boîtier ne la mesure pas.'),
      few: only('Écouter dix secondes.'),
      steady: supply,
      sags: and(supply, 'Elle cède : port faible, câble long.'),
      'sags-far': and(supply, 'Trop basse : autre port, concentrateur alimenté.'),
      'told-low': and(supply, 'Le boîtier lui-même la dit trop basse.'),
    },
    warm: {
      'not-held': only('Pas encore tenue.'),
      holding: and(warm, 'Continuer à tenir.'),
      rises: warm,
      little: and(warm, 'Peu : le bout était-il dans la main ?'),
      none: and(warm, 'Elle n’a pas monté : court-circuit, ou une autre sonde était tenue.'),
      falls: and(warm, 'Elle a baissé : les deux fils sont inversés.'),
      'no-reading': only('Elle ne donne pas de température : coupée, ou pas branchée.'),
    },
    guard: {
      'not-armed': only('Pas encore éprouvée.'),
      refused: (_, u) =>
        `Refusé : il ne prend une autre limite que sous ${f.pressure(SMALL_BAR, u)}. Lâcher la pression et recommencer.`,
      armed: (t, u) => `Limite ${f.pressure(t.against, u)} ; au plus haut ${f.pressure(t.more, u)}.`,
      'not-asked': and(tripped, 'Dire si on l’a entendu.'),
      heard: and(tripped, 'Entendu.'),
      late: and(tripped, 'Entendu, mais tard : pomper lentement et recommencer.'),
      absent: only('Le boîtier n’a pas d’alarme propre : seul cet ordinateur avertit.'),
      'no-answer': only(
        'Il n’a pas répondu à la commande : il n’entend rien, ou aucune limite ne peut lui être donnée.',
      ),
      'not-kept': only('Il ne garde pas la limite qui lui a été donnée.'),
      silent: (t, u) =>
        `Pompé à ${f.pressure(t.more, u)}, au-dessus d’une limite de ${f.pressure(t.against, u)}, et il ne s’est pas déclenché.`,
      mute: and(tripped, 'Il ne dit pas que son buzzer sonne.'),
      'not-heard': and(tripped, 'Pas entendu : buzzer plus fort, ou son fil.'),
    },
  };
  return {
    /** What was found at a point, with its numbers; empty where the point has no such reason. */
    foundText(point: BenchPoint, reason: string, told: Told, units: DisplayUnits): string {
      const of: Readonly<Record<string, Sentence>> = reasons[point];
      return Object.hasOwn(of, reason) ? of[reason]!(told, units) : '';
    },
  };
}
