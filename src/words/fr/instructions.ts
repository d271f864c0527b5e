import type { Stage } from '../../watch/codes.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';

/** One sentence for the crew, and a second that stands in grey under it. */
export interface Instruction {
  readonly say: string;
  readonly besides: string;
}

/** What an instruction may name; each takes what it needs, in bar and seconds. */
export interface Told {
  readonly bar?: number | null;
  readonly s?: number | null;
  readonly units?: DisplayUnits;
}

type Say = (told?: Told) => Instruction;

/** Durations shorter than this have tenths of a second, s. */
const TENTHS_S = 3;
const NOBODY = 'Personne dans l’axe de la conduite ni au-dessus de l’ouverture.';
const NO_PLUG = 'Personne près des obturateurs : l’un peut être éjecté.';
const KINK =
  'Un pli peut cacher de l’air : tirer lentement par la corde, personne dans l’axe de la conduite.';
const LEAVE = 'Laisser la vanne fermée.';
/** Where it is only inferred that a hand has shut it. */
const SHUT_LEAVE = 'Fermer la vanne, la laisser fermée.';

/**
 * What to do now, by stage and state. 'Prêt à la vanne' and 'Laisser la vanne fermée' share no word but the valve. A count
 * stands first, so that an order read short does not mean 'now'. Nothing here says that anything is safe or cured.
 */
export function instructions(f: Format) {
  const always =
    (say: string, besides: string): Say =>
    () => ({ say, besides });
  const to = ({ bar, units = METRIC }: Told = {}): string | null =>
    bar === undefined || bar === null ? null : f.pressure(bar, units);
  /** A count goes by whole seconds, to its end: 'in 2.0 s' after 'in 3 s' looks like another number. */
  const time = ({ s }: Told = {}): string | null =>
    s === undefined || s === null ? null : s < TENTHS_S ? `${f.fixed(s, 0)}\u00a0s` : f.duration(s);
  /** Rounded down, to the minute where seconds would only draw the eye: as the time slot has it. */
  const timeLeft = ({ s }: Told = {}): string | null =>
    s === undefined || s === null
      ? null
      : s < 600
        ? f.duration(Math.floor(Math.max(0, s)))
        : `${Math.floor(s / 60)}\u00a0min`;
  const openTo: Say = (told) => {
    const bar = to(told);
    return {
      say: bar === null ? 'Ouvrir lentement la vanne.' : `Gonfler lentement à ${bar}.`,
      besides: NOBODY,
    };
  };
  const overRated =
    (say: string): Say =>
    (told) => {
      const bar = to(told);
      const was =
        bar === null ? 'Il a dépassé son admissible' : `Il a été à ${bar}, au-delà de son admissible`;
      return { say, besides: `${was} : inspecter le packer avant de le réutiliser.` };
    };
  const topUp =
    (besides: string): Say =>
    (told) => {
      const bar = to(told);
      return {
        say: bar === null ? 'Compléter doucement.' : `Compléter doucement à ${bar}.`,
        besides,
      };
    };
  const FIND_LOSS = always(
    'Chercher d’abord la perte.',
    'Ne pas mettre d’air, rester à l’écart : un flexible est peut-être parti ou le packer déchiré.',
  );
  const JUMPED = always('Voir le manomètre.', 'Le capteur a sauté : ne pas mettre d’air selon sa mesure.');
  const PROVE_FIRST = 'Avant, éprouver l’arrivée d’air (Plus, Contrôles), ou s’en passer.';
  const STANDS = always(
    'Fermer la vanne, voir le manomètre.',
    'La mesure ne bouge pas. Vanne ou ligne du capteur fermée ou bouchée ? L’arrivée est-elle ouverte ?',
  );
  const NOT_RISING = {
    blocked: always(
      'Fermer la vanne, voir le flexible.',
      'L’arrivée est au-dessus du packer et ne donne rien. Un robinet fermé, ou un pli ?',
    ),
    level: always(
      'Voir le détendeur.',
      'Arrivée et mesure sont égales : rien de plus ne vient. Est-il réglé ? Derrière un robinet au flexible, y a-t-il un pli ?',
    ),
    escapes: always(
      'Fermer la vanne, écouter l’air.',
      'L’air passe, rien ne monte : flexible parti, fuite, ligne de capteur bouchée, ou il se déplie.',
    ),
  };
  const stayed = (told?: Told): string => {
    const seen = time(told);
    return seen === null ? 'Resté à zéro.' : `Resté à zéro pendant ${seen}.`;
  };
  const LOW_ZERO = always(
    'Lire le manomètre.',
    'Peut contenir de l’air : le capteur indique trop bas, son zéro n’en est pas un. Personne au packer.',
  );
  /** How to pull, and what was seen, never that it is empty. */
  const pull: Say = (told) => ({
    say: 'Personne dans l’axe, tirer lentement.',
    besides: `${stayed(told)} ${KINK}`,
  });

  /** Of an air test: to a pressure in the small unit. */
  const slowly =
    (what: string, besides: string): Say =>
    ({ bar, units = METRIC } = {}) => ({
      say:
        bar === undefined || bar === null
          ? `${what} lentement.`
          : `${what} lentement à ${f.testPressure(bar, units)}.`,
      besides,
    });

  const INSTRUCTIONS = {
    prepare: {
      connect: always('Connecter le boîtier.', 'Non connecté : pas d’alarmes.'),
      'left-open': always(
        'Couper l’air, rester à l’écart.',
        'Un packer est peut-être plein et rien ne le surveille. Fermer la vanne d’air, voir le manomètre, connecter et reprendre.',
      ),
      'left-open-seen': always(
        'Couper l’air, rester à l’écart.',
        'Un packer est peut-être plein, et aucune limite n’est surveillée tant que la session ne reprend pas. Voir le manomètre, reprendre.',
      ),
      'left-full': always(
        'Couper l’air, rester à l’écart.',
        'Le packer d’une session passée n’a pas été vu vide. Fermer la vanne d’air, voir le manomètre.',
      ),
      resume: always('Reprendre, ou choisir le packer.', 'Une session d’exercice n’a pas été close.'),
      packer: always('Choisir le packer.', 'Aucune limite : pas d’alerte de surpression.'),
      'packer-limited': always(
        'Choisir le packer.',
        'Jusque-là, le plafond de la session précédente reste en vigueur.',
      ),
      zero: always(
        'Ouvrir le raccord, faire le zéro.',
        'Voir qu’il est ouvert. La mesure doit tenir près de zéro.',
      ),
      pressure: always(
        'Purger d’abord la ligne.',
        'Elle est sous pression : fermer la vanne d’air, ouvrir la purge, rester à l’écart. Ne jamais ouvrir un raccord maintenant.',
      ),
      'supply-failed': always(
        'Air non éprouvé : voir Contrôles.',
        'Laisser le flexible hors du packer jusqu’à savoir pourquoi.',
      ),
      'supply-open': always(
        'Ouvrir l’arrivée d’air.',
        'Flexible hors du packer, bout fermé. Ouvrir la vanne d’un coup et en grand ; tenir le flexible.',
      ),
      'supply-rises': always('Attendre : l’arrivée monte.', 'Elle doit se stabiliser.'),
      'supply-asked': always(
        'Voir si le packer est raccordé.',
        'La ligne se remplit moins vite qu’un flexible. S’il y est : fermer la vanne d’air aussitôt.',
      ),
      'supply-watch': ((told) => {
        const bar = to(told);
        const left = time(told);
        return {
          say: left === null ? 'Attendre : montée observée.' : `Attendre ${left} : montée observée.`,
          besides: bar === null ? 'Ne rien toucher.' : `Elle est à ${bar}. Ne rien toucher.`,
        };
      }) as Say,
      'supply-lower': ((told) => {
        const bar = to(told);
        return {
          say: 'Baisser le détendeur, ne pas raccorder.',
          besides:
            bar === null
              ? 'L’arrivée est au-dessus du plafond. Lâcher d’abord un peu d’air : elle est peut-être montée trop haut.'
              : `L’arrivée est à ${bar}, au-dessus du plafond. Lâcher d’abord un peu d’air : elle est peut-être montée trop haut.`,
        };
      }) as Say,
      'supply-shut': ((told) => {
        const bar = to(told);
        return {
          say: 'Fermer la vanne d’air, puis appuyer.',
          besides:
            bar === null
              ? 'La ligne doit tenir ce qu’elle a.'
              : `Elle était à ${bar}. La ligne doit le tenir.`,
        };
      }) as Say,
      'supply-tight': ((told) => {
        const left = time(told);
        return {
          say: 'Attendre : la vanne reste fermée.',
          besides: left === null ? 'La ligne tient-elle ?' : `La ligne tient-elle encore ${left} ?`,
        };
      }) as Say,
      'supply-vent': ((told) => {
        const bar = to(told);
        return {
          say: 'Ouvrir la purge : vider la ligne.',
          besides: bar === null ? 'L’arrivée est éprouvée.' : `L’arrivée est éprouvée, ${bar}.`,
        };
      }) as Say,
      checklist: always('Répondre à la liste de contrôle.', 'Des points y attendent, à voir avant l’air.'),
      sound: always('Tester le son de l’alarme.', 'Une fois par jour, avant l’air : écouter à la vanne.'),
      warm: always(
        'Chauffer les sondes dans la main.',
        'Avant de mélanger la résine, chacune à côté d’un thermomètre.',
      ),
      mix: always('Mélanger la résine, puis appuyer.', 'L’appui lance le temps de vie en pot.'),
      'mix-unproved': always(
        'Mélanger la résine, puis appuyer.',
        `${PROVE_FIRST} L’appui lance le temps de vie en pot.`,
      ),
      'ready-unproved': always('Raccorder le flexible, commencer.', `${PROVE_FIRST} ${NOBODY}`),
      ready: ((told) => {
        const left = timeLeft(told);
        return {
          // The time alone was read as an order to let air in.
          say: left === null ? 'Raccorder le flexible, commencer.' : `Commencer à plaquer sous ${left}.`,
          besides: `Raccorder le flexible, vanne fermée. ${NOBODY}`,
        };
      }) as Say,
    },
    seat: {
      open: (told) => ({ ...openTo(told), besides: `Le flexible est raccordé au packer. ${NOBODY}` }),
      'was-over-rated': overRated('Dégonfler le packer en entier.'),
      stands: STANDS,
      ...NOT_RISING,
      shut: always('Fermer la vanne.', 'La pression de plaquage est atteinte.'),
      'find-loss': FIND_LOSS,
      jumped: JUMPED,
      settle: ((told) => {
        const left = time(told);
        return {
          say: SHUT_LEAVE,
          besides: left === null ? 'Ça se stabilise.' : `Ça se stabilise. Lire le manomètre dans ${left}.`,
        };
      }) as Say,
      compare: always('Saisir ce que dit le manomètre.', 'Vanne fermée pendant ce temps.'),
      compared: always('Commencer le gonflage.', 'Manomètre et capteur concordent.'),
      differs: always('Trouver lequel est faux.', 'Manomètre ou capteur : d’ici là, croire le plus haut.'),
    },
    inflate: {
      open: openTo,
      stands: STANDS,
      ...NOT_RISING,
      'was-over-rated': overRated('Dégonfler le packer en entier.'),
      'find-loss': FIND_LOSS,
      jumped: JUMPED,
      ready: always('Prêt à la vanne.', 'Un décompte vient avant qu’elle soit à fermer.'),
      'count-down': ((told) => ({
        say: `Dans ${time(told) ?? 'un instant'} : fermer la vanne.`,
        besides: NOBODY,
      })) as Say,
      'shut-now': always('Fermer la vanne maintenant.', 'Puis la laisser fermée.'),
      'too-fast': ((told) => {
        const late = to(told);
        return {
          say: 'Trop vite : freiner à la vanne.',
          besides:
            late === null ? 'Une main arriverait trop tard.' : `Une main arriverait trop tard de ${late}.`,
        };
      }) as Say,
      uncounted: always(
        'Prêt à la vanne.',
        'Pas de décompte : la montée est irrégulière. Suivre la pression.',
      ),
      'reads-low': ((told) => {
        const bar = to(told);
        return {
          say: bar === null ? 'Suivre le manomètre.' : `Suivre le manomètre, à ${bar}.`,
          besides: 'Le capteur indique trop bas : sa valeur, son plafond et son décompte sont faux.',
        };
      }) as Say,
      'no-limit': always('Suivre la plaque du packer.', 'Aucune limite : pas d’alerte de surpression.'),
      'in-band': always(SHUT_LEAVE, 'Dans la plage de travail et stable : commencer le maintien.'),
      over: ((told) => {
        const bar = to(told);
        return {
          say: bar === null ? 'Ouvrir un peu la purge.' : `Lâcher lentement jusqu’à ${bar}.`,
          besides: 'Au-dessus de la plage de travail. Fermer d’abord la vanne d’air.',
        };
      }) as Say,
    },
    hold: {
      'was-over-rated': overRated('Dégonfler le packer en entier.'),
      'top-up': topUp('Sous le plancher : la manchette peut se décoller de la paroi.'),
      'top-up-soon': topUp('Elle descend vers le plancher. Chercher la fuite.'),
      'top-up-unknown': topUp('Ça fuit, et le plancher est inconnu. Chercher la fuite.'),
      'leak-slow': always(
        'Chercher la fuite.',
        'Ne pas compléter encore : le durcissement arrive avant le plancher.',
      ),
      'reads-low': always(
        'Lire le manomètre.',
        'Le capteur indique trop bas : pas d’air selon sa valeur. Saisir ce que dit le manomètre.',
      ),
      unread: always('Suivre le manomètre.', 'La mesure est figée : elle ne surveille rien.'),
      'leak-high': ((told) => {
        const bar = to(told);
        return {
          say: 'Chercher la fuite.',
          besides: bar === null ? 'Ne pas compléter.' : `Ne pas compléter : elle n’est pas sous ${bar}.`,
        };
      }) as Say,
      'find-loss': FIND_LOSS,
      jumped: JUMPED,
      'vent-open': always(
        'Fermer la purge, ou dire : dégonflage.',
        'La purge est dite ouverte : le packer se vide. Personne au packer.',
      ),
      keep: always(LEAVE, 'Regarder souvent cet écran.'),
      lift: ((told) => {
        const bar = to(told);
        return {
          say: LEAVE,
          besides:
            bar === null
              ? 'La chaleur de réaction va faire monter la pression.'
              : `La chaleur de réaction va faire monter la pression à ${bar}.`,
        };
      }) as Say,
      met: always('Tâter l’échantillon témoin.', 'Celui gardé à la température de la conduite. Est-il dur ?'),
      soft: always(LEAVE, 'L’échantillon témoin n’est pas dur. Le tâter encore plus tard.'),
      warm: always(
        'Tâter l’échantillon témoin.',
        'Celui qui a été noté n’était pas gardé à la température de la conduite.',
      ),
      early: always(LEAVE, 'Échantillon noté dur, le temps de durcissement n’est pas atteint.'),
      doubted: always(
        'Voir où l’échantillon était gardé.',
        'Dur bien trop tôt : gardé plus chaud que la conduite, ou d’une autre résine ? Laisser le packer sous pression.',
      ),
      hard: always(
        'Commencer à dégonfler.',
        'Échantillon noté dur, temps de durcissement de la fiche technique atteint.',
      ),
      'cure-not-judged': always(
        'Tâter l’échantillon témoin.',
        'La résine durcit à la lumière : regarder si tout est dur.',
      ),
    },
    'let-down': {
      open: always('Dégonfler lentement.', 'Une ligne à zéro n’est pas un packer vide.'),
      shut: always('Fermer la purge : tester.', 'Une ligne à zéro n’est pas un packer vide.'),
      wait: ((told) => {
        const left = time(told);
        return {
          say: 'Attendre : la purge reste fermée.',
          besides:
            left === null ? 'La mesure doit rester à zéro.' : `La mesure doit rester à zéro encore ${left}.`,
        };
      }) as Say,
      stayed: (told) => ({ say: stayed(told), besides: KINK }),
      back: always(
        'Rouvrir la purge.',
        'Le packer n’est pas vide : personne ne tire, personne ne débranche.',
      ),
      'reads-low': always(
        'Lire le manomètre.',
        'Le capteur indique trop bas : son zéro n’en est pas un. Continuer à dégonfler, saisir ce que dit le manomètre.',
      ),
      broken: always('Purger à zéro, puis retester.', 'Le test s’est interrompu et ne dit rien.'),
      lost: always('Rester à l’écart.', 'Pas de mesure : tenir le packer pour plein.'),
    },
    done: {
      stayed: pull,
      'was-over-rated': overRated('Peut contenir de l’air.'),
      'reads-low': LOW_ZERO,
      untested: always(
        'Purger, fermer la purge, tester.',
        'Peut contenir de l’air : aucun test ne l’a vu rester à zéro.',
      ),
      unseen: always(
        'Tenir le packer pour plein.',
        'Le capteur ne le voit pas d’ici : une ligne à zéro n’en dit rien.',
      ),
      pressure: always('Encore sous pression.', 'Dégonfler avant de bouger quoi que ce soit.'),
    },
    'air-test': {
      none: always(
        'Aucun essai à l’air prévu.',
        'La fiche de chantier en nomme la méthode. Terminer, ou en nommer une.',
      ),
      coarse: always(
        'Prendre un capteur plus fin.',
        'Son incertitude dépasse un dixième de la chute admise : le plan dit lequel suffirait.',
      ),
      plugs: always(
        'Ne pas essayer à l’air ici.',
        'La nappe demande plus d’air qu’on n’en met sur des obturateurs.',
      ),
      begin: always(
        'Poser et étayer les obturateurs.',
        'Packer sorti, conduite vide. Un obturateur peut être éjecté : personne dans son axe ni dans le regard.',
      ),
      fill: slowly('Mettre l’air', `Suivre ce chiffre jusqu’au bout. ${NO_PLUG}`),
      'top-up': slowly(
        'Compléter',
        `Sous la pression d’essai, le temps de stabilisation s’arrête. ${NO_PLUG}`,
      ),
      stabilise: always(SHUT_LEAVE, `L’air se stabilise. ${NO_PLUG}`),
      'let-out': slowly(
        'Lâcher',
        'Puis fermer purge et vanne d’air, retirer l’arrivée : le temps commence tout seul.',
      ),
      'bring-up': slowly('Mettre l’air', 'Puis fermer, retirer l’arrivée : le temps commence tout seul.'),
      settle: always('Ne rien toucher.', 'Elle est à la pression d’essai : le temps commence tout seul.'),
      timing: always('Ne rien toucher.', `La chute est chronométrée. ${NO_PLUG}`),
      vent: always('Ouvrir la purge : tout l’air sort.', NO_PLUG),
      passed: always(
        'Libérer lentement les obturateurs.',
        'Réussi. À zéro, un flexible plié peut encore cacher de l’air : rester hors de leur axe.',
      ),
      failed: always(
        'Chercher où l’air s’en va.',
        'Échoué. Obturateurs et flexibles fuient aussi : les savonner, refaire l’essai.',
      ),
      unsaid: always(
        'Attendre, puis refaire l’essai.',
        'On ne peut dire si ça tient : laisser l’air prendre la température de la conduite, mettre le capteur à l’ombre.',
      ),
      broken: always('Refaire l’essai, ou terminer.', 'L’essai s’est interrompu et ne dit rien.'),
    },
    abandoned: {
      pressure: always('Dégonfler lentement.', 'Avant de bouger quoi que ce soit. Personne au packer.'),
      'reads-low': LOW_ZERO,
      zero: always(
        'Fermer la purge, puis tester.',
        'Peut contenir de l’air : tester avant de bouger quoi que ce soit.',
      ),
      stayed: pull,
    },
  } satisfies Record<Stage, Record<string, Say>>;

  return { INSTRUCTIONS };
}
