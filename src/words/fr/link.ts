import type { LinkError, LinkState } from '../../link/status.ts';
import type { StoreErrorCode } from '../../record/stores/store.ts';

/** What happened and what the user should do about it. */
export interface Advice {
  readonly title: string;
  readonly todo: string;
}

export const LINK_STATE: Record<LinkState, string> = {
  unsupported: 'Pas de port série dans ce navigateur',
  'no-permission': 'Aucun boîtier autorisé encore',
  idle: 'Non connecté',
  opening: 'Ouverture du port',
  greeting: 'Demande au boîtier qui il est',
  streaming: 'Connecté',
  stopped: 'Connecté, ne mesure pas',
  lost: 'Boîtier disparu',
  retrying: 'Reconnexion en cours',
  closing: 'Fermeture',
};

export const LINK_ERROR: Record<LinkError, Advice> = {
  'port-busy': {
    title: 'Le port est occupé',
    todo: 'Fermer l’autre onglet ou programme qui tient le boîtier, puis reconnecter.',
  },
  'port-gone': {
    title: 'Le boîtier a disparu',
    todo: 'Enfoncer le câble, d’abord côté ordinateur ; n’aller à l’autre bout que si le manomètre est à zéro. La session continue toute seule quand le boîtier revient.',
  },
  'open-failed': {
    title: 'Le port ne s’ouvre pas',
    todo: 'Retirer le câble de l’ordinateur, attendre cinq secondes, le remettre et connecter.',
  },
  'no-hello': {
    title: 'Rien ne répond sur ce port',
    todo: 'Rien n’en est venu. Choisir un autre port, ou contrôler que le boîtier a du courant et que son micrologiciel parle ce protocole.',
  },
  speed: {
    title: 'Des octets viennent, mais pas de texte : mauvaise vitesse ou câble perturbé',
    todo: 'Régler le boîtier sur 500000 ou 115200 bauds et reconnecter. Si cela marchait avant, changer le câble.',
  },
  'not-protocol': {
    title: 'Ce qui vient est du texte, mais pas de ce protocole',
    todo: 'Choisir un autre port, ou charger dans le boîtier un micrologiciel qui parle ce protocole.',
  },
  'line-ends': {
    title: 'Les lignes du boîtier finissent par CR',
    todo: 'Aucune ligne n’est lue, pour que rien ne soit deviné. Son micrologiciel doit finir chaque ligne par LF seul (protocole, 1 Lines).',
  },
  check: {
    title: 'Le contrôle en fin de ligne ne correspond pas',
    todo: 'Si cela marchait avant, changer le câble. Si le micrologiciel est nouveau : CRC-32C sur tout, jusqu’à la dernière virgule comprise, en huit chiffres hexadécimaux minuscules (protocole, 1 Lines).',
  },
  form: {
    title: 'Les lignes ont une autre forme que le protocole',
    todo: 'Leur contrôle est juste : le micrologiciel les veut ainsi. Mettre à jour cette application ou le micrologiciel du boîtier.',
  },
  deaf: {
    title: 'Le boîtier est entendu et n’entend pas',
    todo: 'Ses lignes viennent, et aucune commande n’a de réponse. Contrôler le fil qui va au boîtier et ses connecteurs.',
  },
  'half-hello': {
    title: 'Le boîtier ne dit pas toutes ses voies',
    todo: 'Il répond, mais une ligne de son annonce manque. Reconnecter ; si cela n’aide pas, mettre son micrologiciel à jour.',
  },
  version: {
    title: 'Le boîtier parle une autre version du protocole',
    todo: 'Mettre à jour cette application ou le micrologiciel du boîtier.',
  },
  'other-device': {
    title: 'Un autre boîtier répond',
    todo: 'Il n’est pas lu et ne garde aucune limite. Reconnecter le premier ; en session, celui-ci peut être pris à sa place. Hors session : déconnecter, le connecter, faire son zéro.',
  },
  rescaled: {
    title: 'Le boîtier est revenu avec une autre échelle',
    todo: 'Il porte le nom du boîtier lu jusqu’ici, mais ses voies sont autres : avec la première échelle sa pression serait fausse et semblerait juste. Il n’est pas lu et ne reçoit pas la limite. Suivre le manomètre. Connecter le boîtier comme il était ; en session, il peut être pris avec sa nouvelle échelle. Hors session : reconnecter et faire son zéro.',
  },
  'no-pressure': {
    title: 'Le boîtier n’a pas de voie de pression',
    todo: 'Connecter le boîtier qui porte le capteur de pression.',
  },
  'no-temperature': {
    title: 'Le deuxième adaptateur n’a pas de température',
    todo: 'Il ne sert qu’aux températures, à côté du boîtier avec la pression. Choisir le port du thermomètre.',
  },
  'same-port': {
    title: 'Ce port est déjà lu',
    todo: 'La pression en vient. Choisir le port de l’autre adaptateur.',
  },
  'alike-ports': {
    title: 'Les deux adaptateurs ont disparu, et ils se ressemblent',
    todo: 'Un bus ou une ligne en clair n’a pas de nom propre : personne ne saurait quel port est lequel. Rien n’est lu tant que chacun n’est pas reconnecté. Des adaptateurs de deux sortes, ou branchés l’un après l’autre, reviennent tout seuls.',
  },
  'command-failed': {
    title: 'Le boîtier n’a pas répondu à une commande',
    todo: 'Les mesures peuvent continuer, mais sa limite ne peut pas lui être donnée. Contrôler le câble et ses connecteurs.',
  },
  'write-failed': {
    title: 'Rien n’a pu être envoyé au boîtier',
    todo: 'Contrôler le câble. La limite propre du boîtier est peut-être inactive.',
  },
  'read-recovered': {
    title: 'Le câble a été perturbé et fonctionne de nouveau',
    todo: 'Une lacune est marquée. Si cela revient, changer le câble.',
  },
  'limit-not-kept': {
    title: 'Le boîtier ne garde pas la limite demandée',
    todo: 'Comparer la limite affichée avec la plaque du packer : sous pression elle ne peut que baisser. Un boîtier sans alarme propre n’en garde aucune : rester à portée de voix de cet ordinateur, le manomètre en vue.',
  },
  'no-unit': {
    title: 'Aucune unité ne répond sur le bus',
    todo: 'Contrôler son courant et que A et B ne sont pas croisés. Puis comparer avec sa fiche technique ce que dit la table de registres : adresse de l’unité, vitesse et parité.',
  },
  'bus-garbled': {
    title: 'Ce qui vient par le bus est brouillé',
    todo: 'Deux unités de même adresse répondent à la fois, parité ou vitesse diffèrent, ou le câble est perturbé. Laisser une seule unité sur le bus et réessayer.',
  },
  'other-master': {
    title: 'Quelqu’un d’autre interroge ce bus',
    todo: 'Un bus a un seul maître. Retirer l’autre, ou lire un autre bus : à deux, chacun brouille les réponses de l’autre.',
  },
  'no-columns': {
    title: 'Des lignes viennent, sans ce que demande la table de colonnes',
    todo: 'Rien n’est deviné : une ligne aux colonnes différentes est gardée dans l’enregistrement et n’est pas lue. Ouvrir la table de colonnes et la comparer avec la dernière ligne.',
  },
};

/** While a device is looked for at one speed after the other. */
export const TRYING = (baudRate: number): string => `Recherche à ${baudRate} bauds.`;
export const STOP_TRYING: string = 'Arrêter la recherche';
/** Before the newest line that could not be read. */
export const LAST_LINE: string = 'Dernière ligne :';

/** The device keeps a rate that its serial line can't carry. */
export const LINE_TOO_SLOW = (asked: string, most: string, baudRate: number): Advice => ({
  title: `Le boîtier annonce ${asked} mesures par seconde, et à ${baudRate} bauds son câble en passe ${most}`,
  todo: 'Des mesures seront perdues ou en retard. En demander moins sur la fiche de chantier, ou régler le boîtier sur une vitesse plus haute et reconnecter.',
});

/** The only pressure channel is a voltage, and nobody says which voltages are the ends of its span. */
export const SPAN_UNKNOWN: Advice = {
  title: 'L’échelle du capteur de pression est inconnue',
  todo: 'Le boîtier envoie une tension et ne dit pas lesquelles sont le zéro et la pleine échelle : aucune pression n’est donc affichée. Saisir les deux dans le document du capteur et nommer ce capteur sur la fiche de chantier.',
};

const STORE_ERROR: Record<StoreErrorCode, Advice> = {
  full: {
    title: 'Le disque est plein',
    todo: 'Retirer d’anciennes sessions après les avoir gardées ailleurs. La surveillance continue.',
  },
  denied: {
    title: 'Le navigateur refuse d’enregistrer',
    todo: 'Quitter la navigation privée, ou autoriser le stockage pour cette page.',
  },
  busy: {
    title: 'L’enregistrement est ouvert ailleurs',
    todo: 'Fermer l’autre onglet de cette application.',
  },
  missing: {
    title: 'Introuvable',
    todo: 'Il a été retiré, ou il est sur un autre navigateur ou ordinateur.',
  },
  stale: {
    title: 'Modifié ailleurs entre-temps',
    todo: 'Le rouvrir et refaire la modification.',
  },
  corrupt: {
    title: 'L’enregistrement gardé est abîmé',
    todo: 'La partie intacte est montrée ; la partie abîmée est nommée.',
  },
  failed: {
    title: 'L’écriture a échoué',
    todo: 'Réessayer. Si elle échoue encore, redémarrer le navigateur. La surveillance continue.',
  },
  silent: {
    title: 'Le stockage du navigateur ne répond pas',
    todo: 'Rien ne peut être gardé maintenant. Packer vide, fermer le navigateur avec toutes ses fenêtres et le rouvrir. La surveillance continue.',
  },
};

/** Why the record cannot be written, within another sentence. */
export const STORE_CAUSE: Record<StoreErrorCode, string> = {
  full: 'le disque est plein',
  denied: 'le navigateur refuse d’enregistrer',
  busy: 'l’enregistrement est ouvert ailleurs',
  missing: 'introuvable',
  stale: 'modifié ailleurs entre-temps',
  corrupt: 'l’enregistrement gardé est abîmé',
  failed: 'l’écriture a échoué',
  silent: 'le stockage du navigateur ne répond pas',
};

/** What the engine itself may answer beside the faults of link and store. */
export type EngineOnlyError =
  | 'run-locked'
  | 'no-run'
  | 'run-open'
  | 'not-connected'
  | 'not-a-rig'
  | 'refused'
  | 'bad-request'
  | 'internal';

const ENGINE_ONLY: Record<EngineOnlyError, Advice> = {
  'run-locked': {
    title: 'Un autre onglet mène cette session',
    todo: 'Aller à cet onglet, ou le fermer et réessayer.',
  },
  'no-run': { title: 'Aucune session n’est ouverte', todo: 'Commencer d’abord l’enregistrement.' },
  'run-open': { title: 'Une session est déjà ouverte', todo: 'Clore d’abord la session ouverte.' },
  'not-connected': {
    title: 'Aucun boîtier n’est connecté',
    todo: 'Connecter le boîtier ou le simulateur.',
  },
  'not-a-rig': { title: 'Ne marche que sur le simulateur', todo: 'Connecter le simulateur.' },
  refused: { title: 'Refusé', todo: 'Le motif est à côté.' },
  'bad-request': {
    title: 'Le programme s’est mal adressé à lui-même',
    todo: 'C’est un défaut du programme. Le redémarrer ; l’enregistrement est gardé.',
  },
  internal: {
    title: 'Le programme a eu une panne interne',
    todo: 'Suivre le manomètre. Recharger la page ; une session ouverte est proposée de nouveau.',
  },
};

/** One table for whatever the engine may answer. */
export const ENGINE_ERROR: Record<LinkError | StoreErrorCode | EngineOnlyError, Advice> = {
  ...LINK_ERROR,
  ...STORE_ERROR,
  ...ENGINE_ONLY,
};
