import type { LinkError } from '../../link/status.ts';
import type { Advice } from './link.ts';

/** The second adapter: temperatures beside the pressure. */
export const BESIDE = {
  title: 'Temperaturen von einem zweiten Adapter',
  text: 'Druck, Wächter und Taster bleiben beim verbundenen Gerät; vom zweiten werden nur Temperaturen gelesen, zur Uhrzeit dieses Computers. Jeder läuft weiter, wenn der andere ausfällt. Ein zweiter Druck ist das nicht: dafür braucht es ein Gerät mit beiden.',
  device: 'Ein Thermometer des Protokolls verbinden',
  mapped: {
    registers: (name: string) => `Zweiten Bus nach „${name}“ lesen`,
    columns: (name: string) => `Zweite einfache Leitung nach „${name}“ lesen`,
  },
  known: (deviceId: string) => `${deviceId} wieder verbinden`,
  knownText: 'Es wurde schon neben diesem Gerät gelesen. Sein Anschluss wird ohne neue Frage genommen.',
  state: (deviceId: string, state: string) => `Zweiter Adapter ${deviceId}: ${state}`,
  unnamed: 'noch nicht bekannt',
  disconnect: 'Zweiten Adapter trennen',
  unread: 'Er ist verbunden, und der Lauf liest ihn noch nicht.',
  read: 'In diesem Lauf lesen',
  refused: 'Der Lauf nimmt ihn so nicht. Das Auftragsblatt übernehmen und nochmal versuchen.',
  doubt: (text: string) => `Zweiter Adapter. ${text}`,
};

export const BESIDE_LOST: Advice = {
  title: 'Der zweite Adapter ist weg',
  todo: 'Seine Temperaturen fehlen; der Druck läuft weiter. Sein Kabel einstecken: er kommt von selbst zurück.',
};

/** Where a fault asks for something else of a second adapter than of the device with the pressure. */
export const BESIDE_ERROR: { readonly [E in LinkError]?: Advice } = {
  'port-gone': BESIDE_LOST,
  'other-device': {
    title: 'Ein anderer zweiter Adapter antwortet',
    todo: 'Er wird nicht gelesen. Den ersten wieder anstecken, oder den zweiten Adapter trennen und diesen verbinden.',
  },
  rescaled: {
    title: 'Der zweite Adapter kam mit einer anderen Skala zurück',
    todo: 'Nach der ersten Skala wäre er falsch und sähe richtig aus, darum wird er nicht gelesen. Trennen und neu verbinden, um die neue Skala zu nehmen.',
  },
};
