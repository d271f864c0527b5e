import type { Finding, Remark, Verdict } from '../../record/findings.ts';
import type { ApartFrom, Reservations } from '../../record/reservations.ts';
import type { Format } from '../create-format.ts';
import {
  ADDITION,
  BESIDE_BY_MAP,
  CLOCK_APART,
  CLOCK_BACK,
  CONTAINER,
  ENTRIES,
  MANIFEST,
  NOT_JUDGED,
  PAGE,
  PAPERS_APART,
  PROOF,
  READ_BY_MAP,
  TERM,
} from './finding-parts.ts';

/** Words of sealing, verifying and keys. */
const THIS_BROWSER = 'ce navigateur';
const UNKNOWN_KEY = 'une clé inconnue ici';
/** What had become of the key before. */
const KEY_ENDED = { lost: 'perdue', changed: 'changée' } as const;

const EVIDENCE = {
  // seal
  sealTitle: 'Sceau',
  sealWhat:
    'Sceller signe cet enregistrement avec la clé de l’ordinateur. Dès lors rien n’y peut être changé sans que cela se voie. Contrôler d’abord la fiche de chantier : packer, résine, lots et capteurs sont scellés tels qu’ils sont maintenant.',
  seal: 'Sceller cet enregistrement',
  sealAsk: 'Sceller cet enregistrement ?',
  sealAskText:
    'Tracé, événements et fiche de chantier telle qu’elle est maintenant sont signés. Rien n’est réécrit ensuite ; les corrections sont des ajouts signés.',
  sealing: 'Scellement',
  practiceWhat:
    'Sceller en fait un enregistrement d’exercice avec un certificat d’exercice. Il se vérifie comme exercice et jamais comme chantier.',
  practiceSeal: 'Sceller comme exercice',
  practiceFile: 'Enregistrer l’exercice',
  practiceCertificate: 'Certificat d’exercice',
  practiceFileWhat: 'Ne va à aucun client et dans aucun dossier partagé.',
  openFirst: 'La session n’a pas encore de fin. La clore, au besoin comme interrompue, avant de la sceller.',
  sealedAt: 'Scellé',
  sealedBy: (date: string, who: string) => `Scellé le ${date} par ${who}`,
  key: 'Clé',
  keyOf: (who: string) => `Clé (${who})`,
  file: 'Enregistrer le fichier',
  fileWhat:
    'Un seul fichier pour le client : tracé, événements, certificat, et comment les contrôler à la main avec openssl et sha256sum.',
  building: 'Préparation du fichier',
  certificate: 'Certificat',
  newFirst:
    'Une clé de signature a été faite sur cet ordinateur. Donner son empreinte à l’entreprise : c’est par elle que d’autres reconnaissent vos enregistrements.',
  newAfterLoss:
    'La clé de signature précédente de cet ordinateur a disparu, une nouvelle a donc été faite. Les autres voient un nouveau signataire : donner son empreinte à l’entreprise.',

  // additions
  additions: 'Ajouts signés',
  additionsSay: 'Ce qui y a été ajouté',
  noAdditions:
    'Aucun. Ce qui est à corriger s’ajoute ici, avec des initiales ; l’enregistrement scellé reste tel quel.',
  addTitle: 'Ajouter à l’enregistrement scellé',
  addKind: 'Ce que c’est',
  kinds: { correction: 'Correction', note: 'Note' },
  addText: 'Texte',
  addBy: 'Initiales',
  add: 'Signer et ajouter',
  status: 'État',

  // review status
  reviewTitle: 'Décision',
  statuses: { open: 'Sans décision', released: 'Approuvé', rejected: 'Refusé' },
  statusNote: 'La décision reste dans ce navigateur, à côté de l’enregistrement. Elle n’y change rien.',
  release: 'Approuver',
  reject: 'Refuser',
  reopen: 'Rouvrir',
  reason: 'Motif',
  reasonNeeded: 'Un refus demande son motif.',
  acceptReasonNeeded: 'Cet enregistrement a des réserves : écrire pourquoi il est approuvé quand même.',
  reviewer: 'Nom',
  nameNeeded: 'Qui décide donne un nom.',
  history: 'Avant',

  // judge again
  judge: 'Rejuger avec le moteur d’aujourd’hui',
  judging: 'Jugement …',
  judgedSame: (n: number) => (n > 1 ? `Les ${n} événements sont les mêmes.` : `${n} événement, le même.`),
  judgedWhat:
    'L’enregistrement scellé reste. Ceci montre ce que le moteur d’aujourd’hui dit autrement des mêmes données.',
  judgedRecorded: 'Ceci montre ce que le moteur d’aujourd’hui dit autrement des mêmes données.',
  gone: 'Seulement dans l’enregistrement',
  fresh: 'Trouvé seulement maintenant',
  engines: (then: number, now: number) => `Enregistré par le moteur ${then}, rejugé par le moteur ${now}.`,

  // exports
  exportTitle: 'Exporter',
  savePicture: 'Image (SVG)',
  savePng: 'Image (PNG)',
  saveData: 'Données visibles (CSV)',

  // keys
  keyTitle: 'Clé de signature de cet ordinateur',
  keyNone: 'Pas encore de clé. Une est faite quand le premier enregistrement est scellé.',
  keyLost:
    'La clé qui signait ici a disparu (stockage effacé, ou sauvegarde d’un autre ordinateur). Le prochain scellement en fait une nouvelle, et les autres voient un nouveau signataire. Les enregistrements déjà signés valent autant qu’avant.',
  keyReady: 'Donner cette empreinte à l’entreprise. La clé elle-même ne quitte jamais l’ordinateur.',
  fingerprintSince: (date: string) => `Empreinte, depuis le ${date}`,
  knownSince: (name: string, date: string) => `${name}, depuis le ${date}`,
  keyChange: 'Changer la clé',
  keyChangeAsk: 'Changer la clé de signature ?',
  keyChangeText:
    'Une nouvelle clé signe désormais, et la présente répond d’elle. Les autres voient un nouveau signataire : donner la nouvelle empreinte à l’entreprise.',
  keyBefore: 'Clés précédentes',
  lost: 'perdue ; seule l’entreprise répond de la suivante',
  changed: 'changée ; elle répond de la suivante',
  knownTitle: 'Clés connues',
  knownText:
    'Les enregistrements signés par ces clés sont valides ici. Une clé ne vaut que par la voie dont son empreinte est venue.',
  knownNone: 'Aucune encore.',
  fingerprint: 'Empreinte',
  owner: 'À qui elle est',
  know: 'Ajouter aux clés connues',
  term: {
    open: 'Quand elle compte',
    title: (name: string) => `Quand compte la clé de ${name}`,
    from: 'Compte à partir du jour',
    until: 'Compte jusqu’à la fin du jour',
    revoked: 'Révoquée à partir du jour : en d’autres mains',
    what: 'Ce qu’elle a signé tant qu’elle comptait reste valide. Retirer une clé est autre chose : alors rien de ce qu’elle a signé ne compte. Qui tient une clé peut signer à n’importe quelle date : comparer donc les enregistrements tardifs avec un contresignataire.',
    save: 'Enregistrer',
    wrong: 'Le dernier jour est avant le premier.',
    replace: 'Une autre clé la remplace maintenant',
    replaceBy: 'Empreinte de la nouvelle clé',
    fromThe: (date: string) => `Compte à partir du ${date}.`,
    untilThe: (date: string) => `Compte jusqu’au ${date}.`,
    revokedThe: (date: string) => `Révoquée à partir du ${date}.`,
    replaced: 'Une autre clé signe à sa place.',
  },
  forget: 'Retirer',
  badFingerprint: 'Une empreinte a 64 signes, lettres a à f et chiffres.',

  // verify
  verifyTitle: 'Vérifier un fichier',
  verifyLead:
    'Un fichier d’enregistrement, ou l’envoi dans lequel il est venu, est vérifié octet par octet dans ce navigateur. Rien n’est envoyé.',
  choose: 'Choisir un fichier',
  drop: 'ou le déposer ici',
  inPacket: (packet: string, record: string) =>
    `Ceci concerne le fichier d’enregistrement ${record} contenu dans l’envoi ${packet}. Des copies à côté, certificat et photographies, il ne dit rien.`,
  checking: 'Vérification',
  FIRST: {
    valid: 'Jusqu’ici : signé par une clé connue ; tracé, chaîne et journal de contreseing tiennent.',
    'unknown-signer':
      'Jusqu’ici : tracé, chaîne et journal de contreseing tiennent, signé par une clé inconnue ici.',
    'not-derived': 'Jusqu’ici : signé par une clé connue ; tracé, chaîne et journal de contreseing tiennent.',
    changed: 'MODIFIÉ : signature, tracé, chaîne ou journal de contreseing ne tiennent pas.',
    incomplete: 'Jusqu’ici : une partie de l’enregistrement manque.',
    refused: 'Ce n’est pas un enregistrement qui puisse être vérifié ici.',
    practice: 'ENREGISTREMENT D’EXERCICE : fait sur le simulateur, pas celui d’un chantier.',
  },
  firstRest: 'Les autres fichiers sont refaits.',
  cancelled:
    'Annulé. Rien n’est dit de ce fichier, et rien n’en a été gardé. Le choisir de nouveau pour le vérifier.',
  expected: 'Empreinte que porte le certificat',
  expectedHint:
    'Les 64 signes au bas de sa première page, ou remplis par son code. Sans elle, tout enregistrement scellé n’est pris que pour lui-même.',
  expectedNone: 'Une empreinte a 64 signes, 0 à 9 et a à f.',
  expectedSame: 'La même empreinte : c’est l’enregistrement de ce certificat.',
  expectedOther:
    'AUTRE EMPREINTE : ce fichier n’est pas l’enregistrement de ce certificat, quoi qu’on en dise d’autre ici.',
  findings: 'Ce qui a été trouvé',
  remarks: 'Bon à savoir',
  openRecord: 'Ouvrir',
  keep: 'Garder aux archives',
  kept: 'Gardé aux archives.',
  alreadyKept: 'Il est déjà aux archives.',
  others: (n: number) =>
    n === 1
      ? 'Un autre fichier de la même session reste à côté.'
      : `${n} autres fichiers de la même session restent à côté.`,
  recorded: 'Enregistré',
  samples: 'Mesures',
  readOnly: 'Fichier d’ailleurs : rien ne peut y être changé ici.',
  changedNote: 'Ce fichier n’est pas l’enregistrement qui a été signé. Ce qu’il montre ne prouve rien.',
  unknownNote: 'Signé par une clé inconnue ici. Demander à l’entreprise à qui est cette clé.',

  // certificate
  print: 'Imprimer ou enregistrer en PDF',
  saveHtml: 'Enregistrer comme page (HTML)',
  certificateLanguage: 'Langue du certificat',
  /** @param language of the one that was sealed, its name in itself */
  certificateCopy: (language: string) =>
    `Une copie pour la lecture. Le certificat scellé\u00a0: ${language}.`,
};

const VERDICT: Record<Verdict, { readonly word: string; readonly means: string }> = {
  valid: { word: 'Valide', means: 'Signé par une clé connue, et chaque octet est tel qu’il a été signé.' },
  changed: {
    word: 'Modifié',
    means: 'Ce n’est pas l’enregistrement qui a été signé. Ne pas s’en servir comme preuve.',
  },
  refused: { word: 'Refusé', means: 'Ce n’est pas un enregistrement qui puisse être vérifié ici.' },
  'unknown-signer': {
    word: 'Signataire inconnu',
    means:
      'Entier et inchangé ; lui, ou un de ses ajouts, est signé par une clé inconnue ici, ou pas pour ce moment.',
  },
  'not-derived': {
    word: 'Non redérivé',
    means:
      'Signé par une clé connue, et chaque octet est tel qu’il a été signé. Que ce qu’il dit découle de ses mesures n’a pas été montré ici.',
  },
  incomplete: { word: 'Incomplet', means: 'Une partie de l’enregistrement manque.' },
  practice: {
    word: 'Enregistrement d’exercice',
    means: 'Fait sur le simulateur. Ce n’est pas celui d’un chantier, qui que ce soit qui l’ait signé.',
  },
};

const witnessOf = (name: string | null): string =>
  name === null
    ? 'un contresignataire inconnu ici'
    : name === ''
      ? 'ce navigateur lui-même'
      : `le contresignataire ${name}`;

/** What a good verdict does not vouch for, a sentence each. */
const APART_FROM: Record<ApartFrom, string> = {
  clock: 'Des horloges se contredisent : voir ci-dessous lesquelles, et de combien.',
  device: 'Ce que le boîtier a dit de lui-même contredit le Setup : voir ci-dessous.',
  papers: 'Les papiers ne sont pas ceux qui ont servi à juger la session : voir ci-dessous lesquels.',
};

const reservedText = ({ unjudged, failed, otherwise, notMade, apart }: Reservations): readonly string[] =>
  [
    failed
      ? 'La dérivation s’est interrompue : ou l’enregistrement contient ce qui ne peut être suivi, ou ce programme a un défaut. Rien n’est dit dans un sens ni dans l’autre.'
      : '',
    unjudged ? 'Les jugements n’ont pas été redérivés : ils sont la parole du signataire.' : '',
    otherwise.length === 0
      ? ''
      : `Tel que signé, et pas ce que cette version fait de l’enregistrement : ${otherwise.join(', ')}.`,
    notMade.length === 0
      ? ''
      : `Pas refait, si bien que seule la signature en répond : ${notMade.join(', ')}.`,
    ...apart.map((from) => APART_FROM[from]),
  ].filter((t) => t !== '');

export const evidence = (f: Format) => ({
  reservedText,
  EVIDENCE,
  VERDICT,

  /** Whose key it is: null is not known here, empty this browser's own. */
  signerText: (signer: string | null): string =>
    signer === null ? UNKNOWN_KEY : signer === '' ? THIS_BROWSER : signer,

  /** @param firstUs run clock of the first sample: places are told as in the trace, from it on */
  findingText(finding: Finding, firstUs: number): string {
    const at = (us: number): string => f.stopwatch(Math.max(0, us - firstUs) / 1e6);
    const span = (from: number | null, to: number | null): string => {
      const begins = from !== null && from > firstUs;
      const ends = to !== null && to > firstUs;
      if (begins)
        return ends
          ? `, du temps de session ${at(from)} à ${at(to)}`
          : `, à partir du temps de session ${at(from)}`;
      return ends ? `, jusqu’au temps de session ${at(to)}` : ', au début de la session';
    };
    switch (finding.f) {
      case 'refused':
        return `Non lu : ${CONTAINER[finding.why]} (octet ${finding.offset}).`;
      case 'container':
        return `Le fichier autour de l’enregistrement : ${CONTAINER[finding.why]} à l’octet ${finding.offset}${finding.file === null ? '' : `, ${finding.file}`}.`;
      case 'missing':
        return `Manque : ${finding.file}.`;
      case 'strange':
        return `N’appartient pas à l’enregistrement : ${finding.file}.`;
      case 'file':
        return `${finding.file} a été modifié${finding.offset === null ? '' : ` à l’octet ${finding.offset}`}.`;
      case 'practice':
        return 'Il dit de lui-même qu’il est un enregistrement d’exercice.';
      case 'manifest':
        return `manifest.json : ${MANIFEST[finding.why]}.`;
      case 'entries':
        return `Tracé : ${ENTRIES[finding.what](finding.count)} ; le premier dans le bloc ${finding.page}, temps de session ${at(finding.tUs)}.`;
      case 'scale':
        return `Le Setup du bloc ${finding.page} (temps de session ${at(finding.tUs)}) lit la voie ${finding.channel} avec une autre échelle que celle donnée par le boîtier : ses pressions ou températures ne sont pas ce qu’a dit le capteur.`;
      case 'translation':
        return `${finding.count} ${finding.count === 1 ? 'mesure n’est pas' : 'mesures ne sont pas'} ce que la table de lecture fait de ce qui est venu par le câble ; la première dans le bloc ${finding.page}, temps de session ${at(finding.tUs)}.`;
      case 'setup':
        if (finding.what === 'uncertainty')
          return `Le Setup du bloc ${finding.page} (temps de session ${at(finding.tUs)}) tient la mesure pour plus sûre à la pression admissible que ne la laissent son capteur et son étalonnage : aucun plan ne l’a fait.`;
        return finding.channel === null
          ? `Le Setup du bloc ${finding.page} (temps de session ${at(finding.tUs)}) a un plafond au-dessus de la pression admissible moins l’incertitude de la mesure, et n’en nomme aucun motif : aucun plan ne l’a fait.`
          : `Le Setup du bloc ${finding.page} (temps de session ${at(finding.tUs)}) lit la voie ${finding.channel} avec un gain ou un décalage qui ne sont pas ceux de ses propres points d’étalonnage : aucun plan ne l’a fait.`;
      case 'contradiction':
        return `Manifeste et tracé se contredisent dans : ${finding.members.join(', ')}.`;
      case 'pages': {
        const pages =
          finding.pages === 1
            ? finding.page === 0
              ? 'le premier bloc (bloc 0)'
              : `bloc ${finding.page}`
            : `blocs ${finding.page} à ${finding.page + finding.pages - 1}`;
        return `Tracé, ${pages} : ${PAGE[finding.why]}${span(finding.fromUs, finding.toUs)}.`;
      }
      case 'judgement':
        if (finding.moved > 0)
          return `${finding.moved} événements de l’enregistrement sont dans un autre ordre que celui de leur jugement (${finding.kinds.join(', ')}) : de deux semblables, le dernier compte.`;
        return `Ce que l’enregistrement a jugé ne découle pas de ses mesures : ${finding.recorded} de ses événements ne sont pas retrouvés, ${finding.again} autres le sont (${finding.kinds.join(', ')}).`;
      case 'witness':
        return `Journal de contreseing : ${PROOF[finding.why]}.`;
      case 'addition':
        return `Ajout ${finding.number} : ${ADDITION[finding.why]}.`;
      case 'addition-signer':
        return `L’ajout ${finding.number} est signé par une clé ${finding.why === undefined ? 'qui n’est pas parmi les connues' : TERM[finding.why]}.`;
      case 'signer':
        return finding.why === undefined
          ? 'La clé n’est pas parmi les connues.'
          : `La clé est ${TERM[finding.why]}.`;
    }
  },

  /** @param firstUs arrival of the first reading on the run clock, µs */
  remarkText(r: Remark, firstUs = 0): string {
    const utc = (ms: number | null): string => (ms === null ? '(non noté)' : f.dateTimeZone(ms));
    const at = (us: number): string => f.stopwatch(Math.max(0, us - firstUs) / 1e6);
    switch (r.r) {
      case 'interrupted':
        return 'La session a été interrompue : personne ne l’a close.';
      case 'resumed':
        return `La session a été interrompue et reprise (${r.times}) ; les lacunes sont marquées.`;
      case 'damaged-at-sealing':
        return r.pages === 1
          ? '1 bloc était abîmé sur l’ordinateur avant que l’enregistrement soit scellé.'
          : `${r.pages} blocs étaient abîmés sur l’ordinateur avant que l’enregistrement soit scellé.`;
      case 'no-job':
        return 'Aucune fiche de chantier n’appartient à cette session.';
      case 'not-logged':
        return 'Elle n’est notée dans aucun journal de contreseing : qu’elle ait été ouverte quand elle le dit ne repose que sur la parole de l’ordinateur.';
      case 'logged':
        return `Noté dans le journal de contreseing de l’ordinateur (${r.origin}) à l’horloge de l’ordinateur : ouverte ${utc(r.openedUtcMs)}, close ${utc(r.endedUtcMs)}, scellée ${utc(r.sealedUtcMs)} ; entre-temps la tête de la chaîne ${r.heads} fois.`;
      case 'no-witness':
        return 'Personne d’autre n’a encore vu ce journal : aucun contresignataire ne borne quand il a été écrit. Une photographie de son code le fait, ou le bureau.';
      case 'bounded':
        if (r.fingerprint === null)
          return `Scellé avant ${utc(r.utcMs)} : un horodatage le dit. Sa signature se contrôle avec openssl ts -verify, pas ici.`;
        return r.side === 'not-before'
          ? `Ouvert après ${utc(r.utcMs)} : un jalon que ${witnessOf(r.name)} a signé alors est dans le journal avant.`
          : `Scellé avant ${utc(r.utcMs)} : ${witnessOf(r.name)} a signé alors le journal, avec cet enregistrement dedans.`;
      case 'additions':
        return `${r.count} ${r.count === 1 ? 'ajout signé' : 'ajouts signés'}.`;
      case 'no-sums':
        return 'Pas de sommes signées : les autres fichiers ont été refaits et comparés.';
      case 'states-apart':
        return r.count === 1
          ? `Un état du programme conservé dans le bloc ${r.page} (temps de session ${at(r.tUs)}) n’est pas celui auquel mènent les mesures. Il n’a pas servi : le jugement a continué depuis ce qui le précède.`
          : `${r.count} états du programme conservés dans l’enregistrement, le premier dans le bloc ${r.page} (temps de session ${at(r.tUs)}), ne sont pas ceux auxquels mènent les mesures. Ils n’ont pas servi : le jugement a continué depuis ce qui les précède.`;
      case 'derived-otherwise':
        return `${r.file} est tel que signé ; cette version le ferait autrement.`;
      case 'not-judged':
        return r.page === undefined
          ? `Jugements non redérivés : ${NOT_JUDGED[r.why]}.`
          : `Jugements non redérivés, à partir du bloc ${r.page} : ${NOT_JUDGED[r.why]}.`;
      case 'not-derived':
        return r.failed
          ? `${r.file} est tel que signé ; le refaire s’est interrompu. Ou l’enregistrement contient ce qui ne peut être suivi, ou ce programme a un défaut.`
          : `${r.file} est tel que signé ; il n’a pas été refait ici.`;
      case 'clock-back':
        return `${CLOCK_BACK[r.what](r.at, r.times)}, de ${f.duration(r.seconds)}. L’horloge de l’ordinateur a été réglée, ou une heure n’est pas vraie.`;
      case 'clock-apart':
        return `${CLOCK_APART[r.what]} : ${f.duration(r.seconds)} d’écart${r.tUs === undefined ? '' : `, au temps de session ${at(r.tUs)}`}. Une horloge était fausse, ou une heure n’est pas vraie.`;
      case 'gaps':
        return `Des mesures manquent : ${r.count} ${r.count === 1 ? 'lacune' : 'lacunes'} d’une seconde ou plus, la plus longue de ${f.duration(r.seconds)} jusqu’au temps de session ${at(r.tUs)}.`;
      case 'read-by-map':
        return r.beside ? BESIDE_BY_MAP[r.map] : READ_BY_MAP[r.map];
      case 'device-limit':
        return `Le boîtier surveillait ${f.quantity('pressure', r.deviceBar)}, et le plafond du Setup est ${f.quantity('pressure', r.ceilingBar)} : une autre limite lui a été donnée, ou il n’en a pas pris de plus haute.`;
      case 'device-counts':
        return `Le boîtier surveillait ${r.counts} points comme ${f.quantity('pressure', r.mbar / 1000)}, ${r.lines} fois ; selon le Setup ce sont ${r.expected} points. Sa limite lui a été donnée avec une autre échelle ou un autre étalonnage que ne nomme le Setup.`;
      case 'papers-apart':
        return `Les papiers scellés avec lui ne sont pas ceux qui ont servi à juger la session : ${r.what.map((w) => PAPERS_APART[w]).join(', ')}.`;
      case 'key-followed':
        return `La clé a suivi une autre qui était ${KEY_ENDED[r.reason]} ; l’autre ${r.endorsed ? 'répond d’elle' : 'ne répond pas d’elle'}.`;
    }
  },

  progressText: (what: string, share: number): string =>
    share <= 0 ? `${what} …` : `${what} … ${Math.round(share * 100)} %`,

  holdLine: (inBandS: number | null, holdS: number | null, floorKnown: boolean): string =>
    inBandS === null || holdS === null
      ? '–'
      : `${f.duration(inBandS)} sur ${f.duration(holdS)}${floorKnown ? '' : ' (plancher inconnu)'}`,
});
