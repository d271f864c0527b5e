import type { Comparison } from '../../record/witness/compare.ts';
import type { SeenOutcome, TakeOutcome } from '../../record/witness/exchange.ts';

/** Words of the witness log: what is noted, who has seen it, and how a code is compared with a file. */
export const WITNESS = {
  title: 'Journal de contreseing',
  lead: 'Cet ordinateur note chaque session quand elle s’ouvre, toutes les cinq minutes et quand elle est close, chaque scellement et chaque ajout, dans un journal qui ne fait que croître. Son dernier jalon répond du tout : qui en a vu un peut dire plus tard si quelque chose a été omis ou échangé.',
  link: 'Journal de contreseing',
  code: 'Jalon',
  codeLead:
    'Faire photographier ce code par le client au début et à la fin de la session. La photographie fait foi : sa date borne quand le journal a été écrit.',
  line: (entries: string, short: string) => `Jalon du journal de contreseing : ${entries}, ${short}`,
  lineDay:
    'Le premier du jour, avant qu’une session soit ouverte : faire photographier ce code par le client. Ce qui a été noté jusqu’ici ne peut plus être échangé sans que la photographie le montre.',
  lineEnded:
    'La session est close et notée : faire photographier ce code par le client. La photographie montrera plus tard si cette session, telle qu’elle est maintenant, a été échangée ou omise.',
  lineSealed:
    'L’enregistrement est scellé et noté : faire photographier ce code par le client. Il a été scellé avant la photographie, et celle-ci montre si un autre a été scellé à sa place.',
  codeLabel: 'Code QR avec le jalon signé du journal de contreseing',
  asText: 'La même chose en texte',
  leaves: (n: number) => (n === 1 ? '1 entrée' : `${n} entrées`),
  refresh: 'Dernier jalon',
  save: 'Enregistrer le journal',
  saveNote:
    'Le journal contient des heures et des empreintes, aucun nom. Qui l’a avec deux jalons peut contrôler chaque entrée entre eux.',
  unsealed: 'Ouvertes et non scellées',
  unsealedNone: 'Chaque session ouverte est scellée.',
  opened: (when: string) => `ouverte ${when}`,
  ended: (when: string) => `close ${when}`,
  notEnded: 'non close',
  gone: 'Une session qui n’est plus sur cet ordinateur',
  practice: (n: number) =>
    n === 1
      ? '1 session d’exercice est notée aussi ; ce n’est pas du travail.'
      : `${n} sessions d’exercice sont notées aussi ; ce n’est pas du travail.`,
  twice: (n: number) =>
    n === 1 ? '1 session a été scellée plus d’une fois.' : `${n} sessions ont été scellées plus d’une fois.`,
  witnesses: 'Qui l’a vu',
  witnessesNone:
    'Personne d’autre que cet ordinateur ne l’a encore vu. Une photographie compte aussi, mais seul celui qui l’a prise l’a.',
  seenBy: (name: string, size: string, when: string) => `${name} : ${size}, ${when}`,
  stampBy: 'Un horodatage',
  unknownWitness: 'Un contresignataire inconnu ici',
  self: 'Ce navigateur lui-même',
  office: 'Par le dossier partagé',
  officeLead:
    'Le jalon est déposé dans le dossier partagé, et ce que le bureau y a signé est repris. La session suivante le porte alors, si bien que son temps est borné des deux côtés.',
  exchange: 'Y déposer le jalon',
  countersign: 'Contresigner les jalons des autres',
  countersignLead:
    'Côté bureau : signe avec l’heure ce qui continue ce qui a été vu avant, et refuse une histoire plus courte ou autre.',
  asWitness: 'Empreinte de la clé par laquelle ce navigateur contresigne',
  working: 'Lecture du dossier',
  report: (published: number | null, taken: number, cosigned: number) =>
    [
      published === null ? 'Aucun nouveau jalon à y déposer.' : 'Le jalon y a été déposé.',
      taken === 0 ? 'Rien de nouveau des contresignataires.' : `${taken} de nouveau des contresignataires.`,
      cosigned === 0 ? '' : cosigned === 1 ? '1 contresigné.' : `${cosigned} contresignés.`,
    ]
      .filter((t) => t !== '')
      .join(' '),
  refused: 'Refusé',
  others: 'Journaux que ce navigateur a vus',
  otherLine: (origin: string, size: string, when: string) => `${origin} : ${size}, ${when}`,
  otherRefused: (why: string, when: string) => `Refusé en dernier ${when} : ${why}`,
  stamp: 'Horodatage',
  stampLead:
    'npm run stamp fait la demande pour un jalon, à laquelle répond une autorité selon la RFC 3161. Coller le jalon et choisir la réponse (.tsr). Sa signature se contrôle avec openssl ts -verify, pas ici.',
  stampText: 'Jalon qui a été horodaté',
  stampFile: 'Choisir la réponse',
  compare: 'Comparer un jalon',
  compareLead: 'Coller le texte d’un code photographié, ou de n’importe quel jalon de ce journal.',
  compareFileLead:
    'Coller le texte qu’un téléphone lit d’un code photographié. Il est comparé avec le journal de contreseing que porte ce fichier.',
  compareText: 'Texte du code',
  compareDo: 'Comparer',
};

/** What comparing two checkpoints tells. */
export function comparisonText(c: Comparison | null): string {
  if (c === null)
    return 'Le fichier ne porte rien d’un journal de contreseing : rien ne peut donc lui être comparé.';
  switch (c.c) {
    case 'no-checkpoint':
      return 'Ce n’est pas un jalon signé. Copier tout le texte du code, de « log. » à son dernier signe.';
    case 'other-log':
      return `Jalon d’un autre ordinateur : ${c.origin}.`;
    case 'unsigned':
      return 'DIFFÉRENT : le journal n’a jamais signé ce jalon. Il a été modifié, ou fait par quelqu’un d’autre.';
    case 'same-history':
      return SAME[c.holds ?? 'log'];
    case 'another-history':
      return `DIFFÉRENT : le journal a signé deux histoires de ${c.size} entrées. Quelque chose a été échangé ou omis depuis que ce jalon a été fait.`;
    case 'shorter':
      return `DIFFÉRENT : le journal a maintenant ${c.now} entrées, et ce jalon en avait ${c.size}. Ce qui venait après a été retiré.`;
    case 'not-told':
      return `Pas dit : rien ici ne prouve comment l’arbre de ${c.size} entrées tient à l’autre. Enregistrer le journal sur l’ordinateur qui le tient et comparer avec lui.`;
  }
}

const SAME: Readonly<Record<'nothing' | 'part' | 'sealed' | 'log', string>> = {
  nothing: 'La même histoire : le jalon date d’avant la session, et la session a été ouverte après lui.',
  part: 'La même histoire : le jalon contient l’ouverture de cette session, et ce qui en a été noté jusque-là.',
  sealed: 'La même histoire : le jalon contient cet enregistrement tel qu’il a été scellé.',
  log: 'La même histoire : le journal continue après ce jalon, et rien d’avant n’a été modifié.',
};

export const SEEN: Readonly<Record<SeenOutcome, string>> = {
  cosigned: 'contresigné',
  own: 'de ce navigateur',
  known: 'déjà vu',
  form: 'pas un jalon, ou pas signé par son journal',
  shorter: 'PLUS COURT que ce qui a été vu avant, et jamais vu',
  different: 'AUTRE HISTOIRE que celle vue avant',
  'no-proof': 'plus long, et rien ne prouve qu’il continue ce qui a été vu',
};

export const TAKEN: Readonly<Record<TakeOutcome, string>> = {
  taken: 'L’horodatage a été repris. Les fichiers d’enregistrement faits désormais le portent.',
  form: 'Ce n’est pas un jalon, ou pas une réponse d’horodatage.',
  'other-log': 'Le jalon est d’un autre journal.',
  'another-history': 'Le jalon est d’une autre histoire que celle de ce journal.',
  unsigned: 'Le jalon n’est pas signé.',
  refused: 'L’autorité n’a pas accordé d’horodatage.',
  'no-stamp-of': 'L’horodatage porte sur autre chose que ce jalon.',
};
