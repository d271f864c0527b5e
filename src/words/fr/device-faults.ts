import { DEVICE_FAULTS, type DeviceFault } from '../../link/frames.ts';

interface FaultText {
  /** What is wrong with the device by its own word, and what to do. */
  readonly now: string;
  /** What was wrong, for an alarm that is over and for the record. */
  readonly was: string;
}

const FAULT: Record<DeviceFault, FaultText> = {
  store: {
    now: 'Le boîtier ne peut pas garder sa limite : après un redémarrage il ne surveille rien. Lui garder un courant stable et le faire réparer après ce chantier',
    was: 'le boîtier ne pouvait pas garder sa limite',
  },
  watchdog: {
    now: 'Le boîtier s’est bloqué et a redémarré seul : voir si sa limite est active, contrôler son courant',
    was: 'le boîtier s’est bloqué et a redémarré seul',
  },
  'no-conversions': {
    now: 'La surveillance propre du boîtier est aveugle : sa voie de pression ne convertit rien. Rester à portée de voix de cet ordinateur, suivre le manomètre, contrôler le connecteur du capteur',
    was: 'la surveillance propre du boîtier était aveugle : sa voie de pression ne convertissait rien',
  },
  supply: {
    now: 'Le courant du boîtier est trop faible : sa limite est prise plus bas et ne peut pas être relevée. Contrôler son courant et le manomètre',
    was: 'le courant du boîtier était trop faible',
  },
  'sensor-low': {
    now: 'La surveillance propre du boîtier est peut-être aveugle : son capteur indique moins qu’un capteur sain ne peut. Suivre le manomètre, contrôler le connecteur du capteur',
    was: 'la surveillance propre du boîtier était peut-être aveugle : son capteur indiquait moins qu’un capteur sain ne peut',
  },
  'no-limit': {
    now: 'Le boîtier n’a pas de limite valable : il ne surveille rien tant qu’une limite n’est pas fixée ici',
    was: 'le boîtier n’avait pas de limite valable',
  },
};
const UNKNOWN: FaultText = {
  now: 'Le boîtier signale un défaut que ce programme ne connaît pas : suivre le manomètre',
  was: 'le boîtier a signalé un défaut que ce programme ne connaît pas',
};

const isKnown = (code: string | undefined): code is DeviceFault =>
  (DEVICE_FAULTS as readonly (string | undefined)[]).includes(code);

export const deviceFault = (code: string | undefined): FaultText => (isKnown(code) ? FAULT[code] : UNKNOWN);
