import type { LinkError, LinkState } from '../../link/status.ts';
import type { StoreErrorCode } from '../../record/stores/store.ts';

/** What happened and what the user should do about it. */
export interface Advice {
  readonly title: string;
  readonly todo: string;
}

export const LINK_STATE: Record<LinkState, string> = {
  unsupported: 'Kein serieller Anschluss in diesem Browser',
  'no-permission': 'Noch kein Gerät erlaubt',
  idle: 'Nicht verbunden',
  opening: 'Öffnet den Anschluss',
  greeting: 'Fragt das Gerät, wer es ist',
  streaming: 'Verbunden',
  stopped: 'Verbunden, misst nicht',
  lost: 'Gerät weg',
  retrying: 'Versucht es wieder',
  closing: 'Schließt',
};

export const LINK_ERROR: Record<LinkError, Advice> = {
  'port-busy': {
    title: 'Der Anschluss ist belegt',
    todo: 'Den anderen Tab oder das Programm schließen, das das Gerät hält, dann neu verbinden.',
  },
  'port-gone': {
    title: 'Das Gerät ist weg',
    todo: 'Das Kabel einstecken, erst am Computer; ans andere Ende nur gehen, wenn das Manometer null zeigt. Der Lauf geht von selbst weiter, wenn das Gerät wieder da ist.',
  },
  'open-failed': {
    title: 'Der Anschluss ließ sich nicht öffnen',
    todo: 'Das Kabel aus dem Computer ziehen, fünf Sekunden warten, wieder einstecken und verbinden.',
  },
  'no-hello': {
    title: 'An diesem Anschluss antwortet nichts',
    todo: 'Es kam nichts. Einen anderen Anschluss wählen, oder prüfen, ob das Gerät Strom hat und seine Firmware dieses Protokoll spricht.',
  },
  speed: {
    title: 'Es kommen Bytes, aber kein Text: falsche Geschwindigkeit oder gestörtes Kabel',
    todo: 'Das Gerät auf 500000 oder 115200 Baud stellen und neu verbinden. Ging es vorher, das Kabel tauschen.',
  },
  'not-protocol': {
    title: 'Es kommt Text, aber nicht von diesem Protokoll',
    todo: 'Einen anderen Anschluss wählen, oder eine Firmware in das Gerät laden, die dieses Protokoll spricht.',
  },
  'line-ends': {
    title: 'Die Zeilen des Geräts enden mit CR',
    todo: 'Keine Zeile wird gelesen, damit nichts geraten wird. Seine Firmware muss jede Zeile mit LF allein beenden (Protokoll, 1 Zeilen).',
  },
  check: {
    title: 'Die Prüfsumme am Zeilenende stimmt nicht',
    todo: 'Ging es vorher, das Kabel tauschen. Ist die Firmware neu: CRC-32C über alles bis zum letzten Komma einschließlich, als acht kleingeschriebene Hexziffern (Protokoll, 1 Zeilen).',
  },
  form: {
    title: 'Die Zeilen haben eine andere Form als das Protokoll',
    todo: 'Ihre Prüfsumme stimmt, die Firmware meint sie also so. Diese App oder die Firmware des Geräts aktualisieren.',
  },
  deaf: {
    title: 'Das Gerät ist zu hören und hört nicht',
    todo: 'Seine Zeilen kommen, kein Befehl wird beantwortet. Die Ader zum Gerät und ihre Stecker prüfen.',
  },
  'half-hello': {
    title: 'Das Gerät nennt nicht alle seine Kanäle',
    todo: 'Es antwortet, aber eine Zeile seiner Begrüßung fehlt. Neu verbinden; hilft das nicht, seine Firmware aktualisieren.',
  },
  version: {
    title: 'Das Gerät spricht eine andere Protokollversion',
    todo: 'Diese App oder die Firmware des Geräts aktualisieren.',
  },
  'other-device': {
    title: 'Ein anderes Gerät antwortet',
    todo: 'Es wird nicht gelesen und hält keine Grenze. Das erste wieder verbinden; in einem Lauf kann stattdessen dieses genommen werden. Ohne Lauf: trennen, dieses verbinden, nullen.',
  },
  rescaled: {
    title: 'Das Gerät kam mit einer anderen Skala zurück',
    todo: 'Es hat den Namen des gelesenen Geräts, aber andere Kanäle: nach der ersten Skala wäre sein Druck falsch und sähe richtig aus. Es wird nicht gelesen und bekommt keine Grenze. Das Manometer gilt. Das Gerät verbinden, wie es war; in einem Lauf kann es mit der neuen Skala genommen werden. Ohne Lauf: neu verbinden und nullen.',
  },
  'no-pressure': {
    title: 'Das Gerät hat keinen Druckkanal',
    todo: 'Das Gerät mit dem Drucksensor verbinden.',
  },
  'no-temperature': {
    title: 'Der zweite Adapter hat keine Temperatur',
    todo: 'Er dient nur für Temperaturen, neben dem Gerät mit dem Druck. Den Anschluss des Thermometers wählen.',
  },
  'same-port': {
    title: 'Dieser Anschluss wird schon gelesen',
    todo: 'Von ihm kommt der Druck. Den Anschluss des anderen Adapters wählen.',
  },
  'alike-ports': {
    title: 'Beide Adapter waren weg, und sie sehen gleich aus',
    todo: 'Ein Bus oder eine einfache Leitung hat keinen eigenen Namen, niemand könnte sagen, welcher Anschluss welcher ist: nichts wird gelesen, bis jeder neu verbunden ist. Zwei verschiedene Adapter, oder nacheinander eingesteckte, kommen von selbst zurück.',
  },
  'command-failed': {
    title: 'Das Gerät hat einen Befehl nicht beantwortet',
    todo: 'Messwerte kommen vielleicht weiter, aber seine Grenze ist ihm nicht zu sagen. Kabel und Stecker prüfen.',
  },
  'write-failed': {
    title: 'An das Gerät ließ sich nicht schreiben',
    todo: 'Kabel prüfen. Die Gerätegrenze ist vielleicht aus.',
  },
  'read-recovered': {
    title: 'Das Kabel war gestört und geht wieder',
    todo: 'Eine Lücke ist markiert. Kommt es wieder, das Kabel tauschen.',
  },
  'limit-not-kept': {
    title: 'Das Gerät hält die verlangte Grenze nicht',
    todo: 'Die gezeigte Grenze mit dem Packerschild vergleichen: unter Druck lässt sie sich nur senken. Ein Gerät ohne eigenen Alarm hält keine: in Hörweite dieses Computers bleiben, das Manometer im Blick.',
  },
  'no-unit': {
    title: 'Auf dem Bus antwortet keine Einheit',
    todo: 'Strom prüfen, und ob A und B nicht gekreuzt sind. Dann mit dem Datenblatt vergleichen, was die Registerkarte sagt: Adresse, Geschwindigkeit, Parität.',
  },
  'bus-garbled': {
    title: 'Was über den Bus kommt, ist verstümmelt',
    todo: 'Zwei Einheiten mit derselben Adresse antworten zugleich, Parität oder Geschwindigkeit passt nicht, oder das Kabel ist gestört. Nur eine Einheit am Bus lassen und nochmal versuchen.',
  },
  'other-master': {
    title: 'Noch jemand fragt auf diesem Bus',
    todo: 'Ein Bus hat einen Master. Den anderen abnehmen oder einen anderen Bus lesen: zwei verstümmeln einander die Antworten.',
  },
  'no-columns': {
    title: 'Es kommen Zeilen, aber nicht mit dem, was die Spaltenkarte verlangt',
    todo: 'Nichts wird geraten: eine Zeile mit anderen Spalten bleibt in der Aufzeichnung und wird nicht gelesen. Die Spaltenkarte öffnen und mit der letzten Zeile vergleichen.',
  },
};

/** While a device is looked for at one speed after the other. */
export const TRYING = (baudRate: number): string => `Versucht ${baudRate} Baud.`;
export const STOP_TRYING: string = 'Nicht weiter versuchen';
/** Before the newest line that could not be read. */
export const LAST_LINE: string = 'Letzte Zeile:';

/** The device keeps a rate that its serial line can't carry. */
export const LINE_TOO_SLOW = (asked: string, most: string, baudRate: number): Advice => ({
  title: `Das Gerät nennt ${asked} Messwerte je Sekunde, und bei ${baudRate} Baud trägt seine Leitung ${most}`,
  todo: 'Messwerte gehen verloren oder kommen zu spät. Auf dem Auftragsblatt weniger verlangen, oder das Gerät schneller stellen und neu verbinden.',
});

/** The only pressure channel is a voltage, and nobody says which voltages are the ends of its span. */
export const SPAN_UNKNOWN: Advice = {
  title: 'Die Skala des Drucksensors ist nicht bekannt',
  todo: 'Das Gerät sendet eine Spannung und sagt nicht, welche Spannung null und welche das Ende ist: kein Druck wird gezeigt. Beide in das Blatt des Sensors eintragen und diesen Sensor auf dem Auftragsblatt nennen.',
};

const STORE_ERROR: Record<StoreErrorCode, Advice> = {
  full: {
    title: 'Die Platte ist voll',
    todo: 'Alte Läufe anderswo sichern, dann entfernen. Die Überwachung läuft weiter.',
  },
  denied: {
    title: 'Der Browser speichert nicht',
    todo: 'Den privaten Modus verlassen oder dieser Seite das Speichern erlauben.',
  },
  busy: {
    title: 'Die Aufzeichnung ist anderswo offen',
    todo: 'Den anderen Tab dieser App schließen.',
  },
  missing: {
    title: 'Nicht gefunden',
    todo: 'Es wurde entfernt oder gehört zu einem anderen Browser oder Computer.',
  },
  stale: {
    title: 'Es wurde inzwischen anderswo geändert',
    todo: 'Neu öffnen und die Änderung wiederholen.',
  },
  corrupt: {
    title: 'Die gespeicherte Aufzeichnung ist beschädigt',
    todo: 'Der heile Teil wird gezeigt; der beschädigte ist benannt.',
  },
  failed: {
    title: 'Speichern gescheitert',
    todo: 'Nochmal versuchen. Geht es wieder nicht, den Browser neu starten. Die Überwachung läuft weiter.',
  },
  silent: {
    title: 'Der Speicher des Browsers antwortet nicht',
    todo: 'Jetzt kann nichts behalten werden. Bei leerem Packer den Browser mit allen Fenstern schließen und neu öffnen. Die Überwachung läuft weiter.',
  },
};

/** Why the record cannot be written, within another sentence. */
export const STORE_CAUSE: Record<StoreErrorCode, string> = {
  full: 'die Platte ist voll',
  denied: 'der Browser speichert nicht',
  busy: 'die Aufzeichnung ist anderswo offen',
  missing: 'nicht gefunden',
  stale: 'inzwischen anderswo geändert',
  corrupt: 'die gespeicherte Aufzeichnung ist beschädigt',
  failed: 'Speichern gescheitert',
  silent: 'der Speicher des Browsers antwortet nicht',
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
    title: 'Ein anderer Tab führt diesen Auftrag',
    todo: 'Zu jenem Tab gehen, oder ihn schließen und nochmal versuchen.',
  },
  'no-run': { title: 'Kein Lauf ist offen', todo: 'Erst die Aufzeichnung beginnen.' },
  'run-open': { title: 'Ein Lauf ist schon offen', todo: 'Erst den offenen Lauf beenden.' },
  'not-connected': {
    title: 'Kein Gerät ist verbunden',
    todo: 'Das Gerät oder die Übungsanlage verbinden.',
  },
  'not-a-rig': {
    title: 'Das geht nur an der Übungsanlage',
    todo: 'Die Übungsanlage verbinden.',
  },
  refused: { title: 'Abgelehnt', todo: 'Der Grund steht daneben.' },
  'bad-request': {
    title: 'Das Programm hat sich selbst etwas Falsches gefragt',
    todo: 'Das ist ein Fehler des Programms. Neu starten; die Aufzeichnung bleibt.',
  },
  internal: {
    title: 'Das Programm hat innen versagt',
    todo: 'Auf das Manometer achten. Die Seite neu laden; ein offener Lauf wird wieder angeboten.',
  },
};

/** One table for whatever the engine may answer. */
export const ENGINE_ERROR: Record<LinkError | StoreErrorCode | EngineOnlyError, Advice> = {
  ...LINK_ERROR,
  ...STORE_ERROR,
  ...ENGINE_ONLY,
};
