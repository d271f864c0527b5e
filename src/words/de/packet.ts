/** HOW-TO-CHECK.txt in a client's packet: at most 100 columns. */
export const PACKET = {
  /** @param record name of the record file */
  howTo: (record: string, key: string, manifest: string) => `WAS IN DIESEM PAKET IST

record/${record}
    Die Aufzeichnung selbst: Messkurve, Ereignisse, Fotos, Nachweis, alles zusammen signiert.
certificate.html
    Der Nachweis zum Lesen oder Drucken. Öffnet sich in jedem Browser, ohne Netz.
photos
    Die Fotos, wie sie in der Aufzeichnung sind.

Nur die Nachweisdatei beweist etwas. Der Nachweis und die Fotos daneben sind Kopien zum Lesen; wer
zweifelt, nimmt die in der Nachweisdatei.

WIE MAN ES PRÜFT

1. Mit dem Programm, in einem Browser: Archiv, Datei verifizieren, dieses Paket oder die
   Nachweisdatei darin wählen. Nichts wird gesendet.
2. Oder von Hand: die Nachweisdatei auspacken (sie ist ein Zip) und ihrer CHECK.txt folgen. Das
   braucht openssl, sha256sum und grep und kein Programm von uns.

So oder so die Firma auf anderem Weg, auf Papier oder am Telefon, nach dem Fingerabdruck ihres
Schlüssels fragen. Er muss dieser sein, sonst zählt hier nichts:

    ${key}

Fingerabdruck dieser Aufzeichnung, wie ihr Nachweis ihn hat:

    ${manifest}
`,
};
