import type { CheckWords } from '../../record/check-text.ts';

/** CHECK.txt: at most 100 columns, lines of a numbered paragraph set in by three. */
export const CHECK_TEXT: CheckWords = {
  title: 'WIE MAN DIESE AUFZEICHNUNG VON HAND PRÜFT',
  intro: (runId) => `Diese Datei enthält die Aufzeichnung eines Laufs: ${runId}
Nur openssl (3.0 oder neuer), sha256sum und grep werden gebraucht. Die Datei auspacken, dann die
Befehle unten in dem Ordner ausführen, in dem manifest.json liegt.`,
  practice: `ÜBUNG. Das ist eine Übungsaufzeichnung: an der Übungsanlage aufgezeichnet, keine Aufzeichnung eines
Auftrags. Die Befehle unten zeigen nur, dass niemand sie verändert hat.`,
  manifest: 'Ist das Manifest, wie es signiert wurde? Es muss melden: Signature Verified Successfully',
  key: `Wessen Schlüssel ist es? Die Firma, die die Aufzeichnung gemacht hat, nach dem Fingerabdruck
   ihres Schlüssels fragen, auf anderem Weg, als diese Datei kam. Dies muss denselben ausgeben, sonst
   zählt hier nichts anderes:`,
  names: 'Diese Aufzeichnung nennt den Schlüssel',
  pages: 'Sind die Blöcke der Messkurve die signierten? Dies muss 1 ausgeben:',
  files: `Sind die anderen Dateien die damit gemachten? Beides muss gelingen; fehlt SHA256SUMS, kann nur
   ein Programm sie prüfen, das sie aus pages.bin neu macht:`,
  others: `Gibt es eine Datei, die nicht zur Aufzeichnung gehört? Dies darf nichts ausgeben; fehlt
   SHA256SUMS, gehören nur die Dateien der Schritte 1 bis 3 sicher dazu:`,
  additions: `Jeder Nachtrag nach dem Versiegeln ist für sich signiert, mit eigenem Schlüssel: seine Nummer an
   die Stelle von 0001 setzen. Der zweite Befehl gibt den Fingerabdruck jenes Schlüssels aus; fragen,
   wem er gehört, wie in Schritt 2: ein Nachtrag mit einem Schlüssel, für den niemand einsteht, sagt
   nichts:`,
  additionNames: `Jeder dieser Befehle muss 1 ausgeben: der Text nennt jenen Schlüssel, diese Aufzeichnung, und
   worauf er folgt. Im dritten ab Nummer 0002 den Nachtrag davor, additions/0001.json, an die Stelle
   von manifest.json setzen, damit keiner fehlt und keiner den Platz wechselte. Der letzte darf nichts
   ausgeben:`,
  witness: `Was sagt das Kontrollprotokoll des Computers dazu, und wer hat das Protokoll gesehen? Die erste
   Zeile darf nichts ausgeben; die anderen als Datei anderswo speichern und hier mit sh ausführen (xxd,
   base64, sed, date):`,
  witnessKeys: `Für jeden Sicherungspunkt und jeden Gegenzeichner muss es "Signature Verified Successfully" melden,
   und keine Zeile davon darf in Großbuchstaben stehen. In den Blättern ist "at" eine Zeit nach der Uhr
   des Computers in ms seit 1970. Es zählt die Zeit eines Gegenzeichners: nach seinem Fingerabdruck
   fragen, wessen Schlüssel es ist, und wie viele Gegenzeichner es gibt. Der Lauf ist von nach seen.txt,
   das sein erster Block nennt; after.txt enthält die versiegelte Aufzeichnung. Ein fotografierter
   Sicherungspunkt wird verglichen, wo sein Text eine Datei ist, hinter dem Skript genannt. Eine
   stamp.tsr prüft: openssl ts -verify -data witness/stamped.txt -in witness/stamp.tsr -CAfile THEIRS.pem`,
  shows: `Was eine gelungene Prüfung zeigt: dass der Inhaber des Schlüssels genau diese Bytes signiert hat.
Was sie nicht zeigt: wo der Sensor war, wie die Uhr des Computers stand, welches Rohr saniert wurde.`,
};
