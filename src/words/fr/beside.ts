import type { LinkError } from '../../link/status.ts';
import type { Advice } from './link.ts';

/** The second adapter: temperatures beside the pressure. */
export const BESIDE = {
  title: 'Températures d’un deuxième adaptateur',
  text: 'Pression, surveillance et bouton restent au boîtier connecté ; du deuxième on ne lit que des températures, à l’heure de cet ordinateur. L’un continue quand l’autre est perdu. Une deuxième pression n’en fait pas partie : il faut un seul boîtier avec les deux.',
  device: 'Connecter un thermomètre au protocole',
  mapped: {
    registers: (name: string) => `Lire le deuxième bus selon « ${name} »`,
    columns: (name: string) => `Lire la deuxième ligne en clair selon « ${name} »`,
  },
  known: (deviceId: string) => `Reconnecter ${deviceId}`,
  knownText: 'Il a déjà été lu à côté de ce boîtier. Son port est repris sans redemander.',
  state: (deviceId: string, state: string) => `Deuxième adaptateur ${deviceId} : ${state}`,
  unnamed: 'pas encore connu',
  disconnect: 'Déconnecter le deuxième adaptateur',
  unread: 'Il est connecté et la session ne le lit pas encore.',
  read: 'Le lire dans cette session',
  refused: 'La session ne le prend pas tel quel. Appliquer la fiche de chantier, puis réessayer.',
  doubt: (text: string) => `Deuxième adaptateur. ${text}`,
};

export const BESIDE_LOST: Advice = {
  title: 'Le deuxième adaptateur a disparu',
  todo: 'Ses températures manquent ; la pression continue. Enfoncer son câble : il revient tout seul.',
};

/** Where a fault asks for something else of a second adapter than of the device with the pressure. */
export const BESIDE_ERROR: { readonly [E in LinkError]?: Advice } = {
  'port-gone': BESIDE_LOST,
  'other-device': {
    title: 'Un autre deuxième adaptateur répond',
    todo: 'Il n’est pas lu. Remettre le premier, ou déconnecter le deuxième adaptateur et connecter celui-ci.',
  },
  rescaled: {
    title: 'Le deuxième adaptateur est revenu avec une autre échelle',
    todo: 'Avec la première échelle il indiquerait faux et semblerait juste : il n’est donc pas lu. Le déconnecter et le reconnecter pour prendre la nouvelle échelle.',
  },
};
