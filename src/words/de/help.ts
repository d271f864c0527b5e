/** Wo eine Kolonne stehen bleibt und fragt: was ist das, was tue ich. Je zwei bis vier Sätze, gelesen, wo sie gebraucht werden. */
export const HELP = {
  supply:
    'Bevor der Packer am Schlauch ist, wird die Zuluft gegen ein geschlossenes Ende aufgemacht. Wo sie zur Ruhe kommt, dahin brächte sie auch ein Hahn, der offen bleibt: das muss unter der Obergrenze liegen. Steigt sie von selbst weiter, lässt der Druckregler durch (Nachsteigen): instand setzen oder einen anderen nehmen. Dann den Schlauch am Ablasshahn leeren, bevor etwas angekuppelt wird.',
  zero: 'Ist die Kupplung sichtbar offen, steht die Leitung nicht unter Druck: was der Sensor dann zeigt, ist sein eigener Fehler und wird von da an abgezogen. Nie nullen, wenn die Leitung unter Druck stehen kann: der Fehler steckte in jedem Messwert. Wird der Nullpunkt als zu weit daneben abgelehnt, ist die Leitung nicht offen oder der Sensor beschädigt.',
  gauge:
    'Das Manometer ist die zweite Meinung zu dem einen Sensor: bei geschlossenem Zulufthahn müssen beide dasselbe zeigen. Gerade darauf sehen und eintippen, was es zeigt, nicht was der Bildschirm zeigt. Zeigen sie Verschiedenes, gilt der höhere Wert; vor weiterer Luft klären, wer falsch zeigt.',
  probe:
    'Fühler und Thermometer zusammen in der warmen Hand halten, bis beide stillstehen. Ein Fühler, der nicht mitgeht, hat einen Kurzschluss, ist verpolt oder am falschen Kanal und ließe einen kalten Kurzliner warm aussehen. Das kommt vor dem Mischen: bis dahin bringt der Fühler keine Härtezeit über der Temperatur des Erdreichs.',
  sample:
    'Etwas von derselben Mischung wird so kalt gehalten wie das Rohr: an einer Schnur hinuntergelassen, nicht im Wagen, und niemand steigt dafür ein. Sie wird vor dem Entlüften gefühlt: nicht hart heißt warten, gleich was die Rechnung sagt. Eine warm gelagerte Probe ist Stunden zu früh hart und beweist nichts.',
  cup: 'Ein Becher derselben Mischung mit einem Fühler darin zeigt, ob diese Charge reagiert wie sie soll: er wird früher warm als der dünne Kurzliner. Den Inhalt wiegen: mehr Masse wird heißer und ist schneller. Er sagt etwas über die Charge, nicht über den Kurzliner: die Rückstellprobe wird trotzdem gefühlt.',
  working:
    'Auf dem Arbeitsdruck wird der Packer gehalten. Er liegt über dem Mindestdruck, unter dem sich der Kurzliner von der Wand lösen kann, und unter der Obergrenze, also dem Höchstdruck weniger der Messunsicherheit. Eine geschlossene Leitung steigt, wenn das Harz warm wird, ohne weitere Luft: der Vorschlag des Plans lässt dafür Platz.',
  tap: 'An der Messstelle geht die Leitung des Sensors von der Luftleitung ab. Den Schlauch mit der Hand vom Sensor zum Packer verfolgen: liegt ein Rückschlagventil, eine selbstschließende Kupplung oder ein geschlossener Hahn dazwischen, liest der Sensor die Zuluft und nicht den Packer. Dann wird nur vor Überdruck gewarnt; Halten und Leck werden nicht beurteilt.',
  airTest:
    'Die fertige Reparatur wird an beiden Enden mit einem Rohrverschluss geschlossen, auf Prüfdruck gebracht und in Ruhe gelassen; dann wird der Druckabfall gemessen. Der Bildschirm führt hindurch, und das Ergebnis rechnet mit der Messunsicherheit. Auch ein Rohrverschluss oder ein Schlauch kann lecken: einseifen, bevor die Reparatur schuld ist. Niemand bei den Rohrverschlüssen, solange Luft dazwischen ist.',
  marks:
    'Die Leiter ist der Druck von null an ihrem Fuß bis über den Höchstdruck an ihrem Kopf. Der Höchstdruck ist die harte Grenze des Packers, an der Obergrenze darunter kommt der Alarm. Das volle Schild zeigt, wo der Abschnitt enden soll; unter dem Mindestdruck kann sich der Kurzliner lösen. Auch wohin Reaktionswärme eine geschlossene Leitung bringt, ist zu sehen.',
  seal: 'Versiegeln signiert die Aufzeichnung mit dem eigenen Schlüssel dieses Computers: wer die Datei hat, sieht, ob seither etwas daran geändert wurde. Es beweist nicht, wo der Sensor saß, und nicht, dass die Uhr stimmte. Ein zweiter Computer, der das Kontrollprotokoll gegenzeichnet, merkt sich dessen Ende: dann lässt sich kein Lauf unbemerkt weglassen oder neu machen.',
  registers:
    'Die Karte sagt, in welchen Registern des Geräts Druck und Temperaturen stehen und wie aus ihren Zahlen bar und °C werden. Alles steht in der Registerliste des Herstellers: Adresse, Art, Reihenfolge der Worte, Faktor. Vor einem Auftrag testen: bei offener Kupplung muss null zu lesen sein, mit Luft in der Leitung das, was das Manometer zeigt.',
  columns:
    'Jede Zeile des Geräts ist ein Messwert; ihre Werte stehen in Spalten, gezählt ab 1 von links, oder haben Namen. Angeben, welcher der Druck ist und welche Temperaturen sind, jeder in seiner Einheit. Vor einem Auftrag testen: bei offener Kupplung muss null zu lesen sein, mit Luft in der Leitung das, was das Manometer zeigt.',
};
