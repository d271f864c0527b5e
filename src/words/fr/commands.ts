import type { MapKind } from '../../job/reading-map.ts';
import type { Finding, Remark, Verdict } from '../../record/findings.ts';
import type { ApartFrom, Reservations } from '../../record/reservations.ts';
import type { Format } from '../create-format.ts';
import { answerClock } from '../said/figures.ts';

/** Words of the commands: usage, faults of what was given, and what they print. */

/** Bad input: one line each that says what and where. */
export const FAULT = {
  internal: 'un défaut du programme lui-même : rien n’a été trouvé. Merci de transmettre ce qui suit.',
  // options
  unknownOption: (given: string, usage: string) => `option inconnue ${given} ; ${usage}`,
  needsValue: (option: string, usage: string) => `${option} demande une valeur ; ${usage}`,
  takesNoValue: (option: string, usage: string) => `${option} ne prend pas de valeur ; ${usage}`,
  twice: (option: string) => `${option} est donné deux fois`,
  missing: (option: string, usage: string) => `${option} manque ; ${usage}`,
  oneFile: (usage: string) => `un FILE, s’il vous plaît ; ${usage}`,
  notAPressure: (option: string, given: string, lo: number, hi: number) =>
    `${option} ${given} n’est pas une pression de ${lo} à ${hi} bar`,
  notOneOf: (option: string, given: string, choices: string) =>
    `${option} ${given} n’est pas parmi ${choices}`,
  needsLimit: (option: string) => `${option} demande --rated ou --job`,
  notBelow: (option: string, value: number, rated: number) =>
    `${option} ${value} n’est pas sous --rated ${rated}`,
  over: (option: string, value: number, rated: number) =>
    `${option} ${value} est au-dessus de --rated ${rated}`,

  // files
  noSuchFile: (name: string) => `${name} : fichier introuvable`,
  noSuchFileOrFolder: (name: string) => `${name} : fichier ou dossier introuvable`,
  notAFile: (name: string) => `${name} : pas un fichier`,
  unreadable: (name: string, code: string) => `${name} : ne peut être lu (${code})`,
  unwritable: (name: string, code: string) => `${name} : ne peut être écrit (${code})`,
  tooLarge: (name: string, bytes: number, most: number) =>
    `${name} : ${bytes} octets, c’est plus que ${most}`,
  emptyFile: 'le fichier est vide',
  /** @param why another fault */
  inFile: (name: string, why: string) => `${name} : ${why}`,

  // keys
  noFingerprint: (given: string) => `--key ${given} : pas une empreinte`,
  noKey: (given: string) => `--key ${given} : ni une empreinte ni un fichier avec une clé publique Ed25519`,
  noFingerprintInRow: (list: string, row: number) => `--keys ${list} ligne ${row} : pas une empreinte`,
  noTermInRow: (list: string, row: number) =>
    `--keys ${list} ligne ${row} : from=, until= et revoked= prennent une heure ISO 8601, until après from`,

  // witness log
  oneCheckpoint: (usage: string) => `un jalon, et ce à quoi le comparer ; ${usage}`,
  oneStamp: (usage: string) => `request ou take, avec le fichier d’un jalon ; ${usage}`,
  needsLogKey: (usage: string) =>
    `--key manque : la clé du journal, comme witness/log.pem d’un enregistrement ; ${usage}`,
  noProof: (name: string) =>
    `${name} : ne porte aucun journal de contreseing qui tienne ; verify dit pourquoi`,
  noLog: (name: string) => `${name} : pas un journal de contreseing enregistré, qui finit par une ligne`,
  noCheckpoint: (name: string) => `${name} : pas un jalon`,

  // job
  notAJob: (name: string) => `--job ${name} : le fichier : pas un fichier de fiche`,
  job: (name: string, why: string) => `--job ${name} : le fichier : ${why}`,
  jobEntry: (name: string, entry: string, why: string) => `--job ${name} : ${entry} : ${why}`,
  noRated: 'la fiche n’a pas de pression admissible ; donner --rated',
  noCeiling: (rated: number, u: number) =>
    `--rated ${rated} ne laisse aucun plafond au-dessus de zéro avec U ${u}`,
  workingOver: (working: number, rated: number) =>
    `la pression de travail ${working} dépasse l’admissible ${rated}`,

  // trace
  damagedLog: (page: number, byte: number, what: string) =>
    `la page ${page} (octet ${byte}) du journal d’entrée est abîmée : ${what}`,
  headlessLog: 'la première page du journal d’entrée n’est pas lisible',
  noTrace: (why: string) =>
    `ni un journal d’entrée, ni un CSV avec time_s et pressure_bar, ni une capture : ${why}`,
  noHello: 'la capture n’a pas d’annonce complète : rien ne dit ce que valent ses points ; donner --job',
  noFrame: 'aucune trame du protocole des boîtiers n’y est',
  noSample: 'la capture n’a pas de mesure',

  // CSV
  columnTwice: (column: string) => `ligne 1 : la colonne ${column} y est deux fois`,
  unknownColumn: (column: string, known: string) =>
    `ligne 1 : colonne inconnue ${column} ; connues : ${known}`,
  columnMissing: (column: string) => `ligne 1 : la colonne ${column} manque`,
  tooManyTemperatures: (most: number) => `ligne 1 : plus de ${most} colonnes de température`,
  notANumber: (row: number, what: string, given: string) =>
    `ligne ${row} : ${what} ${given} n’est pas un nombre`,
  outside: (row: number, what: string, given: string, lo: number, hi: number) =>
    `ligne ${row} : ${what} ${given} est hors de ${lo} à ${hi}`,
  temperature: 'température',
  noRows: 'ligne 2 : pas de ligne de données',
  columns: (row: number, n: number, header: number) =>
    `ligne ${row} : ${n} colonnes, l’en-tête en a ${header}`,
  noTime: (row: number) => `ligne ${row} : time_s est vide`,
  notLater: (row: number, given: string) =>
    `ligne ${row} : time_s ${given} n’est pas après la ligne précédente`,
  noPressure: 'lignes 2 à la fin : pressure_bar est vide dans chaque ligne',
};

export const REPLAY = {
  /** @param what the fault of a cell, with its row */
  unusable: (what: string) => `${what} ; jugé comme une mesure inutilisable`,
  moreUnusable: (cells: number) =>
    cells > 1 ? `${cells} cellules de plus sont inutilisables` : `${cells} cellule de plus est inutilisable`,
};

export const USAGE = {
  replay:
    'usage : replay --trace FILE [--job JOB.json] [--rated BAR] [--working BAR] [--u BAR] [--line LINE] [--tap TAP] [--out RESULT.json]',
  verify: 'usage : verify FILE [--key FINGERPRINT|KEY.pem[=NAME]]… [--keys LIST] [--quick] [--json]',
  checkpoint:
    'usage : checkpoint CHECKPOINT.txt [RECORD.steadybar.zip|OTHER.txt] [--log LEAVES.txt] [--key LOG.pem]',
  stamp: 'usage : stamp request CHECKPOINT.txt | stamp take CHECKPOINT.txt ANSWER.tsr',
  extract: 'usage : extract --to FOLDER [--key FINGERPRINT=NAME]… FILE|FOLDER…',
};

/** Names of keys that were given without one. */
export const KEYS = { given: 'clé donnée', listed: 'clé de la liste' };

export const EXTRACT = {
  refused: (file: string, why: string) => `refusé   ${file} : ${why}`,
  tooLarge: 'trop gros',
  cannotBeRead: 'ce qu’il contient ne peut être mis en tables',
  badRun: 'le nom de sa session n’est pas un nom',
  otherKey: 'une autre clé a scellé un enregistrement de la même session',
  again: (file: string, run: string) => `encore   ${file} : ${run}`,
  taken: (file: string, run: string) => `repris   ${file} : ${run}`,
  takenUnknown: (file: string, run: string) => `repris   ${file} : ${run}, signataire inconnu`,
  jobs: (n: number, to: string) => `${n} ${n > 1 ? 'chantiers' : 'chantier'} dans ${to}`,
  jobsRefused: (n: number, to: string, refused: number) =>
    `${n} ${n > 1 ? 'chantiers' : 'chantier'} dans ${to}, ${refused} ${refused > 1 ? 'fichiers refusés' : 'fichier refusé'}`,
};

export const LOG = {
  runs: (leaves: number, opened: number, unsealed: number, twice: number) =>
    `le journal : ${leaves} feuilles, ${opened} sessions ouvertes, dont ${unsealed} non scellées, ${twice} scellées plus d’une fois`,
  unsealed: (at: string) => `  non scellée : ouverte ${at}`,
};

export const STAMP = {
  requested: (query: string, text: string) =>
    `${query} est la demande : l’envoyer à une autorité (RFC 3161 ; curl -H "Content-Type: application/timestamp-query" --data-binary @${query} URL). ${text} est ce qui est horodaté.`,
  form: 'pas une réponse selon la RFC 3161, ou pas sur un SHA-256',
  refused: 'l’autorité n’a pas accordé d’horodatage',
  other: 'l’horodatage porte sur autre chose que ce jalon',
  notAsked: 'la réponse n’est pas pour cette demande : son nonce est autre',
  taken: (at: string, text: string, answer: string) =>
    `horodaté ${at}, selon la réponse. Sa signature : openssl ts -verify -data ${text} -in ${answer} -CAfile THEIRS.pem. L’application le reprend sous Journal de contreseing.`,
};

const APART_FROM: Readonly<Record<ApartFrom, string>> = {
  clock: 'des horloges se contredisent',
  device: 'les lignes du boîtier lui-même contredisent le Setup',
  papers: 'les papiers contredisent le Setup',
};

const HEADLINE: Readonly<Record<Verdict, string>> = {
  valid: 'VALIDE : signé par une clé connue, et chaque octet est tel que signé',
  changed: 'MODIFIÉ : ce n’est pas l’enregistrement qui a été signé',
  refused: 'REFUSÉ : ce n’est pas un enregistrement qui puisse être contrôlé ici',
  'unknown-signer':
    'SIGNATAIRE INCONNU : entier et inchangé ; lui, ou un de ses ajouts, est signé par une clé inconnue ici',
  'not-derived':
    'NON REDÉRIVÉ : signé par une clé connue, et chaque octet est tel que signé ; que ce qu’il dit découle de ses mesures n’a pas été montré',
  incomplete: 'INCOMPLET : une partie de l’enregistrement manque',
  practice:
    'ENREGISTREMENT D’EXERCICE : fait sur le simulateur ; ce n’est pas celui d’un chantier, qui que ce soit qui l’ait signé',
};

const READ_BY: Readonly<Record<MapKind, string>> = {
  registers: 'lu sur un bus par une table de registres ; les heures sont celles de l’ordinateur',
  columns: 'LIGNE NON CONTRÔLÉE, lue par une table de colonnes ; les heures sont celles de l’ordinateur',
};

const PAGE_WHY: Readonly<Record<Extract<Finding, { f: 'pages' }>['why'], string>> = {
  crc: 'modifiée (CRC)',
  torn: 'coupée',
  missing: 'manquante',
  order: 'pas à sa place',
  chain: 'pas celle que nomme la suivante (chaîne)',
  form: 'pas lisible',
  version: 'd’une version plus récente',
  run: 'd’une autre session',
  rewritten: 'refaite, chaîne comprise, quelque part dans cet intervalle',
  end: 'manquante à la fin',
  cut: 'manquante : le fichier finit ici',
};

/** What the verify command prints. Codes stand as they are: the reader may look them up in docs/record.md. */
export const verifyWords = (f: Format) => {
  const iso = (ms: number | null): string => (ms === null ? 'non noté' : new Date(ms).toISOString());
  return {
    headline: (verdict: Verdict, but: Reservations | null): string =>
      [
        HEADLINE[verdict],
        but?.failed
          ? 'la dérivation s’est interrompue : ou l’enregistrement contient ce qui ne peut être suivi, ou ce programme a un défaut'
          : '',
        but?.unjudged ? 'jugements non redérivés' : '',
        but === null || but.otherwise.length === 0
          ? ''
          : `pas ce que ce programme fait de l’enregistrement : ${but.otherwise.join(', ')}`,
        but === null || but.notMade.length === 0 ? '' : `pas refait : ${but.notMade.join(', ')}`,
        ...(but?.apart ?? []).map((from) => APART_FROM[from]),
      ]
        .filter((t) => t !== '')
        .join(' ; '),
    progress: (share: number) => `le tracé est refait, ${f.percent(share)}`,

    /** @param key shows a fingerprint */
    finding(finding: Finding, key: (fingerprint: string) => string): string {
      switch (finding.f) {
        case 'refused':
          return `${finding.why} à l’octet ${finding.offset}`;
        case 'container':
          return `conteneur : ${finding.why} à l’octet ${finding.offset}${finding.file === null ? '' : `, ${finding.file}`}`;
        case 'missing':
          return `manque : ${finding.file}`;
        case 'strange':
          return `pas de cet enregistrement : ${finding.file}`;
        case 'file':
          return `modifié : ${finding.file}${finding.offset === null ? '' : ` à l’octet ${finding.offset}`}`;
        case 'practice':
          return 'dit de lui-même qu’il est un enregistrement d’exercice';
        case 'manifest':
          return `manifest.json : ${finding.why}`;
        case 'entries':
          return `${finding.count} du genre ${finding.what} pas dans leur forme ; le premier dans la page ${finding.page}, temps de session ${answerClock(finding.tUs)}`;
        case 'scale':
          return `le Setup de la page ${finding.page}, temps de session ${answerClock(finding.tUs)}, lit la voie ${finding.channel} avec une autre échelle que celle donnée par le boîtier`;
        case 'translation':
          return `${finding.count} mesures ne sont pas ce que la table de lecture fait des octets bruts à côté ; la première dans la page ${finding.page}, temps de session ${answerClock(finding.tUs)}`;
        case 'setup':
          return `le Setup de la page ${finding.page}, temps de session ${answerClock(finding.tUs)}, ne découle pas de lui-même : ${finding.what}${finding.channel === null ? '' : ` de la voie ${finding.channel}`}`;
        case 'contradiction':
          return `manifeste et pages se contredisent dans : ${finding.members.join(', ')}`;
        case 'pages': {
          const { page, pages, why, fromUs, toUs } = finding;
          const which = pages === 1 ? `page ${page}` : `pages ${page} à ${page + pages - 1}`;
          return `${which} : ${PAGE_WHY[why]} ; temps de session ${answerClock(fromUs)} à ${answerClock(toUs)}`;
        }
        case 'judgement':
          if (finding.moved > 0)
            return `événements : ${finding.moved} enregistrés dans un autre ordre que ne donne le jugement (${finding.kinds.join(', ')})`;
          return `événements : ${finding.recorded} enregistrés ne sont pas retrouvés, ${finding.again} autres le sont (${finding.kinds.join(', ')})`;
        case 'witness':
          return `journal de contreseing : ${finding.why}`;
        case 'addition':
          return `ajout ${finding.number} : ${finding.why}`;
        case 'addition-signer':
          return `l’ajout ${finding.number} est de la clé ${key(finding.fingerprint)}${finding.why === undefined ? '' : `, qui ne compte pas pour son moment : ${finding.why}`}`;
        case 'signer':
          return `clé ${key(finding.fingerprint)}${finding.why === undefined ? '' : ` : ne compte pas pour son moment : ${finding.why}`}`;
      }
    },

    note: (text: string) => `note : ${text}`,
    remark(r: Remark, key: (fingerprint: string) => string): string {
      switch (r.r) {
        case 'interrupted':
          return 'la session a été interrompue : personne ne l’a close';
        case 'resumed':
          return `la session a été interrompue et reprise, ${r.times} fois ; les lacunes sont marquées`;
        case 'damaged-at-sealing':
          return `${r.pages} pages étaient abîmées sur l’ordinateur avant que l’enregistrement soit scellé`;
        case 'no-job':
          return 'aucune fiche de chantier n’appartient à cette session';
        case 'not-logged':
          return 'notée dans aucun journal de contreseing';
        case 'logged':
          return `notée dans ${r.origin} : ouverte ${iso(r.openedUtcMs)}, ${r.heads} têtes, close ${iso(r.endedUtcMs)}, scellée ${iso(r.sealedUtcMs)} à son horloge ; arbres de ${r.before} et ${r.after} feuilles`;
        case 'no-witness':
          return 'pas de contresignataire : personne que l’ordinateur ne borne le moment';
        case 'bounded': {
          const who =
            r.fingerprint === null
              ? 'un horodatage (sa signature : openssl ts -verify)'
              : r.name === null
                ? `un contresignataire inconnu ici, clé ${key(r.fingerprint)}`
                : `le contresignataire ${r.name}, clé ${key(r.fingerprint)}`;
          return r.side === 'not-before'
            ? `ouvert après ${iso(r.utcMs)}, selon ${who}`
            : `scellé avant ${iso(r.utcMs)}, selon ${who}`;
        }
        case 'additions':
          return `${r.count} ${r.count > 1 ? 'ajouts signés' : 'ajout signé'}`;
        case 'no-sums':
          return 'pas de sommes signées : les fichiers dérivés ont été refaits et comparés';
        case 'states-apart':
          return r.count === 1
            ? `un état du programme ne suit pas des pages précédentes et n’a pas servi ; dans la page ${r.page}, temps de session ${answerClock(r.tUs)}`
            : `${r.count} états du programme ne suivent pas des pages précédentes et n’ont pas servi ; le premier dans la page ${r.page}, temps de session ${answerClock(r.tUs)}`;
        case 'derived-otherwise':
          return `${r.file} est tel que signé ; ce programme le ferait autrement`;
        case 'not-judged':
          return `jugements non redérivés (${r.why}${r.page === undefined ? '' : `, à la page ${r.page}`})`;
        case 'not-derived':
          return `${r.file} est tel que signé ; ${r.failed ? 'le refaire s’est interrompu' : 'il n’a pas été refait ici'}`;
        case 'clock-back':
          return `l’horloge a reculé : ${r.what}${r.at === 0 ? '' : ` ${r.at}`}${r.times === 1 ? '' : `, ${r.times} fois`}, de ${Math.round(r.seconds)} s`;
        case 'clock-apart':
          return `des horloges se contredisent : ${r.what}, de ${Math.round(r.seconds)} s${r.tUs === undefined ? '' : ` au temps de session ${answerClock(r.tUs)}`}`;
        case 'gaps':
          return `lacunes dans les mesures : ${r.count}, la plus longue de ${Math.round(r.seconds)} s jusqu’au temps de session ${answerClock(r.tUs)}`;
        case 'read-by-map':
          return `${r.beside ? 'températures du deuxième adaptateur ' : ''}${READ_BY[r.map]} ; la source n’a pas : ${r.lacks.join(', ')}`;
        case 'device-limit':
          return `le boîtier surveillait ${r.deviceBar.toFixed(3)} bar, le plafond du Setup est ${r.ceilingBar.toFixed(3)} bar`;
        case 'device-counts':
          return `le boîtier surveillait ${r.counts} points comme ${r.mbar} mbar, ${r.lines} fois ; selon le Setup ce sont ${r.expected} points`;
        case 'papers-apart':
          return `les papiers scellés avec lui ne sont pas ceux des Setups : ${r.what.join(', ')}`;
        case 'key-followed':
          return `la clé suit la clé ${key(r.fingerprint)} (${r.reason}), ${r.endorsed ? 'qui répond d’elle' : 'qui ne répond pas d’elle'}`;
      }
    },

    run: (run: string, job: string | null) => `session ${run}, chantier ${job ?? 'aucun'}`,
    recorded: (from: string | null, to: string | null) =>
      `enregistré de ${from ?? 'inconnu'} à ${to ?? 'inconnu'} à l’horloge de l’ordinateur`,
    sealed: (samples: number, pages: number, when: string) =>
      `${samples} mesures en ${pages} pages ; scellé ${when}`,
    key: (key: string) => `clé ${key}`,
    keyKnown: (key: string, name: string) => `clé ${key}, connue comme ${name}`,
  };
};
