import { DEVICE_FAULTS, type DeviceFault } from '../../link/frames.ts';

interface FaultText {
  /** What is wrong with the device by its own word, and what to do. */
  readonly now: string;
  /** What was wrong, for an alarm that is over and for the record. */
  readonly was: string;
}

const FAULT: Record<DeviceFault, FaultText> = {
  store: {
    now: 'Das Gerät kann seine Grenze nicht speichern: nach einem Neustart überwacht es nichts. Seinen Strom nicht unterbrechen, nach diesem Auftrag reparieren lassen',
    was: 'das Gerät konnte seine Grenze nicht speichern',
  },
  watchdog: {
    now: 'Das Gerät hing und hat sich neu gestartet: nachsehen, ob seine Grenze an ist, Strom prüfen',
    was: 'das Gerät hing und startete sich neu',
  },
  'no-conversions': {
    now: 'Der Wächter des Geräts ist blind: sein Druckkanal wandelt nichts. In Hörweite dieses Computers bleiben, auf das Manometer achten, Stecker des Sensors prüfen',
    was: 'der Wächter des Geräts war blind: sein Druckkanal wandelte nichts',
  },
  supply: {
    now: 'Der Strom des Geräts ist zu schwach: seine Grenze liegt niedriger und lässt sich nicht heben. Strom und Manometer prüfen',
    was: 'der Strom des Geräts war zu schwach',
  },
  'sensor-low': {
    now: 'Der Wächter des Geräts ist vielleicht blind: sein Sensor zeigt weniger, als ein heiler kann. Auf das Manometer achten, Stecker des Sensors prüfen',
    was: 'der Wächter des Geräts war vielleicht blind: sein Sensor zeigte weniger, als ein heiler kann',
  },
  'no-limit': {
    now: 'Das Gerät hält keine gültige Grenze: es überwacht nichts, bis hier eine gesetzt wird',
    was: 'das Gerät hielt keine gültige Grenze',
  },
};
const UNKNOWN: FaultText = {
  now: 'Das Gerät meldet einen Fehler, den dieses Programm nicht kennt: auf das Manometer achten',
  was: 'das Gerät meldete einen Fehler, den dieses Programm nicht kennt',
};

const isKnown = (code: string | undefined): code is DeviceFault =>
  (DEVICE_FAULTS as readonly (string | undefined)[]).includes(code);

export const deviceFault = (code: string | undefined): FaultText => (isKnown(code) ? FAULT[code] : UNKNOWN);
