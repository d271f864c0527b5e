/** Words of backup and restore. */
export const BACKUP = {
  title: 'Sicherung',
  lead: 'Eine Datei mit allem von diesem Computer: Auftragsblätter, Packer, Harze, Sensoren, Prüfplatzblätter, Läufe, versiegelte Aufzeichnungen, behaltene Dateien, Entscheidungen und Einstellungen. Der Signierschlüssel ist nicht darin: er lässt sich nicht herausnehmen.',
  link: 'Sichern und wiederherstellen',
  make: 'Sicherung machen',
  makeWhat: 'Die Datei getrennt von diesem Computer aufbewahren. Nach jedem Arbeitstag eine neue machen.',
  making: 'Macht die Sicherung',
  made: 'Gespeichert. Darin:',
  leftOut: (n: number) =>
    n === 1
      ? 'Ein Lauf hat noch kein Ende und ist nicht darin.'
      : `${n} Läufe haben noch kein Ende und sind nicht darin.`,
  empty: 'Es gibt noch nichts zu sichern: kein Auftragsblatt, kein Lauf.',
  restore: 'Wiederherstellen',
  restoreWhat:
    'Eine Sicherung wählen. Sie wird erst geprüft, dann wird gezeigt, was geschrieben würde. Nichts, was hier ist, wird überschrieben.',
  choose: 'Sicherung wählen',
  looking: 'Prüft die Sicherung',
  summary: 'Was darin ist',
  madeBy: (date: string, software: string) => `Gemacht am ${date} von ${software}.`,
  group: 'Was',
  groups: {
    job: 'Auftragsblätter',
    packer: 'Packer',
    resin: 'Harze',
    sensor: 'Sensoren',
    registers: 'Registerkarten',
    columns: 'Spaltenkarten',
    checklist: 'Checklisten',
    bench: 'Prüfplatzblätter von Geräten',
    settings: 'Einstellungen',
    run: 'Läufe',
    seal: 'Siegel',
    addition: 'Nachträge zu Aufzeichnungen',
    review: 'Entscheidungen über Aufzeichnungen',
    enclosed: 'Fotos und Unterschriften, nach Auftrag oder Lauf',
    import: 'Dateien von anderswo',
  },
  fates: {
    new: 'neu',
    same: 'schon hier',
    grows: 'ergänzt',
    differs: 'hier anders',
    refused: 'abgelehnt',
  },
  why: {
    future: 'aus einer späteren Version: erst dieses Programm aktualisieren',
    form: 'nicht in der Form seiner Art',
    'file-missing': 'seine Datei ist nicht in der Sicherung',
    open: 'der Lauf hat kein Ende',
    'other-run': 'es nennt einen anderen Lauf',
    signature: 'sein Siegel wurde nicht mit seinem Schlüssel signiert',
    key: 'der genannte Fingerabdruck ist nicht der seines Schlüssels',
    pages: 'sein Siegel gehört zu anderen Blöcken',
    log: 'was es von einem Kontrollprotokoll mitbringt, stimmt nicht oder gehört nicht dazu',
    chain: 'seine Nachträge folgen nicht aus ihm oder sind nicht signiert',
    'unsealed-here':
      'der Lauf ist hier ohne Siegel und nimmt nur eines vom eigenen Schlüssel dieses Computers',
  },
  untitled: (id: string) => `ohne Namen (${id})`,
  differing: 'Was hier anders ist',
  choices: {
    mine: 'Weglassen: nur was hier ist, bleibt',
    both: 'Beide behalten: das aus der Sicherung unter anderem Namen',
  },
  takeSettings: 'Die Einstellungen der Sicherung statt der hiesigen nehmen',
  strange: (n: number) =>
    `${n} ${n === 1 ? 'Zeile' : 'Zeilen'} darin ${n === 1 ? 'ist kein Dokument und wird' : 'sind keine Dokumente und werden'} weggelassen.`,
  leftOutThere: (n: number) =>
    `${n} ${n === 1 ? 'Lauf' : 'Läufe'} ${n === 1 ? 'hatte' : 'hatten'} noch kein Ende, als sie gemacht wurde, und ${n === 1 ? 'ist' : 'sind'} nicht darin.`,
  writes: (bytes: string) => `Zu schreiben: ${bytes}`,
  writesInto: (bytes: string, free: string) => `Zu schreiben: ${bytes} (${free} frei)`,
  noRoom: 'Auf diesem Computer ist nicht genug Platz.',
  take: 'Was genommen wird',
  takeRuns: 'Läufe',
  takeSeals:
    'Siegel dieser Läufe. Ohne sie kann dieser Computer sie neu versiegeln, mit seinem eigenen Schlüssel',
  takeAdditions:
    'Nachträge zu Aufzeichnungen. Zu hiesigen nur, wenn ihr Schlüssel hier bekannt oder unten angekreuzt ist',
  takeDecisions: 'Entscheidungen über Aufzeichnungen, die schon hier sind',
  keys: 'Schlüssel, die sie nennt',
  keysWhat:
    'Jeder kann eine Sicherung schreiben. Einen Schlüssel nur ankreuzen, wenn sein Fingerabdruck mit einem verglichen ist, der auf anderem Weg kam. Ohne Kreuz werden seine Aufzeichnungen trotzdem wiederhergestellt, als mit hier unbekanntem Schlüssel signiert.',
  keyRole: {
    own: (date: string) => `Signierschlüssel jenes Computers seit ${date}, wie die Sicherung sagt`,
    known: (name: string, date: string) => `Dort bekannt als „${name}“ seit ${date}`,
    signer: 'Hat etwas darin signiert und steht in keiner ihrer Listen',
  },
  keySigned: (seals: number, additions: number) =>
    `In dieser Sicherung signiert: ${seals} ${seals === 1 ? 'Siegel' : 'Siegel'}, ${additions} ${additions === 1 ? 'Nachtrag' : 'Nachträge'}.`,
  keyHere: 'Hier schon bekannt.',
  keyTick: {
    own: 'Seine Aufzeichnungen als die dieses Computers zählen',
    known: (name: string) => `Hier bekannt machen als „${name}“`,
  },
  keyNew:
    'Der Signierschlüssel ist nicht in der Sicherung. Auf diesem Computer wird ein neuer gemacht; der Firma muss sein Fingerabdruck genannt werden.',
  keyStays: 'Dieser Computer behält seinen Signierschlüssel. Der Schlüssel der Sicherung ist nicht darin.',
  keyMade:
    'Auf diesem Computer wurde ein neuer Signierschlüssel gemacht. Der Firma seinen Fingerabdruck nennen:',
  keyNone:
    'Dieser Browser macht keine Signierschlüssel. Aufzeichnungen lassen sich hier ansehen, nicht versiegeln.',
  go: 'Diese Sicherung wiederherstellen',
  going: 'Stellt wieder her',
  nothing: 'Alles in dieser Sicherung ist schon hier.',
  done: (both: number) =>
    both === 0
      ? 'Wie gewählt wiederhergestellt.'
      : `Wie gewählt wiederhergestellt; ${both} unter anderem Namen behalten.`,
  reload: 'Neu laden, um es zu sehen',
  cancel: 'Abbrechen',
  running: 'Ein Lauf ist im Gang. Nach seinem Ende wiederherstellen.',
  other: 'Andere wählen',
};
