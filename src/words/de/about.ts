/** Words of the about page. */
export const ABOUT = {
  title: 'Über dieses Programm',
  lead: 'Dieses Programm überwacht und warnt. Es ist keine Sicherheitseinrichtung und ersetzt kein Sicherheitsventil.',
  cautions: 'Warnhinweise',
  howTitle: 'Was es tut',
  how: [
    'Es liest den Drucksensor und die Thermoelemente an der Füllleitung eines Packers und warnt, bevor der Höchstdruck des Packers erreicht ist.',
    'Es verfolgt das Halten und die Härtezeit und zeichnet alles auf, was vom Gerät kam.',
    'Es arbeitet ohne Netz. Aufzeichnungen bleiben in diesem Browser, bis sie anderswo gespeichert werden.',
  ],
  cannotTitle: 'Was es nicht wissen kann',
  cannot: [
    'Ob der Sensor sitzt, wo das Auftragsblatt sagt, oder richtig zeigt: mit dem Manometer vergleichen.',
    'Wie hoch der Druck ist, solange kein Messwert kommt: dann Zulufthahn zu, und der Packer gilt als voll.',
    'Ob das Harz hart ist: das sagt nur die bei Rohrtemperatur gelagerte Rückstellprobe.',
    'Ob der Packer leer ist: eine Leitung bei null sagt es nicht.',
  ],
  licences: 'Bibliotheken und Schrift in diesem Programm',
  licencesText: 'Jede unter ihrer eigenen Lizenz, mit dem Text, der dabei war.',
  noText: 'Das Paket bringt keinen Text seiner Lizenz mit.',
  version: (version: string) => `Steadybar ${version}`,
};
