/** Faults of the practice rig, by the code that the rig takes. */
export type RigFaultCode =
  | 'regulator'
  | 'creep'
  | 'stuck-open'
  | 'leak'
  | 'open-probe'
  | 'unplug'
  | 'replug'
  | 'reset'
  | 'garbage'
  | 'silence'
  | 'supply-sag'
  | 'kink'
  | 'burst'
  | 'blown-hose'
  | 'relief'
  | 'first-lost'
  | 'second-off'
  | 'second-lost'
  | 'sensors-swapped'
  | 'cup-in-air'
  | 'cup-swapped'
  | 'hose-leak'
  | 'put-right';

/** Words of the live screen. */
export const LIVE = {
  title: 'Live',
  connectTitle: 'Verbinden',
  connectText: 'Der Druck wird ab dem ersten Messwert überwacht, mit Auftrag oder ohne.',
  connectDevice: 'Gerät verbinden',
  connectBy: {
    registers: (name: string) => `Bus nach „${name}“ lesen`,
    columns: (name: string) => `Einfache Leitung nach „${name}“ lesen`,
  },
  knownDevice: (deviceId: string, baud: number) =>
    `Zuletzt hier: ${deviceId}, mit ${baud} Baud. Sein Anschluss wird ohne neue Frage genommen.`,
  knownMap: (name: string, baud: number) =>
    `Zuletzt hier: nach „${name}“ gelesen, mit ${baud} Baud. Der Anschluss wird ohne neue Frage genommen.`,
  connectedTo: (deviceId: string, firmware: string) => `Verbunden: ${deviceId}, Firmware ${firmware}`,
  toBench: 'Seine Zeilen am Prüfplatz ansehen',
  connectOther: 'Anderen Anschluss wählen',
  connectRig: 'Übungsanlage nehmen',
  practices: 'Weitere Übungsbaustellen',
  drills: 'Übungen',
  drillsText: 'In jeder geht etwas schief; ein Ziel und danach eine Nachbesprechung.',
  noSerial:
    'Dieser Browser hat keinen seriellen Anschluss, hier lässt sich kein Gerät verbinden. Gespeicherte Läufe lassen sich öffnen und durchsehen. Für einen Live-Auftrag Chrome, Edge oder Firefox auf einem Computer nehmen, oder Chrome auf Android.',
  disconnect: 'Trennen',
  packerStep: 'Packer',
  packerTitle: 'Welcher Packer?',
  packerText: 'Seriennummer und Schild mit dem Packer in der Hand vergleichen.',
  limitsBefore: (ceiling: string) =>
    `Der Lauf davor endete nicht sichtbar leer: seine Obergrenze von ${ceiling} gilt, bis ein Packer gewählt ist.`,
  packerPractice: 'Übungsauftrag mit seinem Packer',
  packerNone: 'Kein Packer: keine Druckwarnung',
  packerNew: 'Packer eingeben',
  plate: (serial: string, from: number, to: number) =>
    serial === '' ? `${from}-${to} mm` : `${serial}, ${from}-${to} mm`,
  diameter: 'Innendurchmesser des Rohrs',
  correctSheet: 'Auftragsblatt berichtigen',
  goMixed: 'Das Harz ist gemischt: weiter',
  mixedAlready: 'Das Harz war schon gemischt',
  zeroTitle: 'Nullen',
  zeroText: 'Kupplung öffnen und ansehen, dass sie auf ist. Der Messwert muss nahe null stillstehen.',
  zeroPressure:
    'Die Leitung steht unter Druck: jetzt kann nicht genullt werden. Nie eine Kupplung unter Druck öffnen.',
  zero: 'Jetzt nullen',
  zeroSkip: 'Ohne Nullen weiter',
  zeroReason: 'Nicht genullt',
  takeDevice: (deviceId: string) => `${deviceId} für diesen Lauf nehmen`,
  takeText:
    'Nur, wenn das erste Gerät nicht zurückkommen kann. Ab dann wird dieses gelesen, nach seiner eigenen Skala und ungenullt: auf das Manometer sehen. Genullt wird neu gefragt, solange nichts gefüllt ist. Die niedrigere der beiden Obergrenzen gilt und wird ihm als Gerätegrenze gesetzt. Sensoren auf dem Auftragsblatt gehören zum ersten Gerät und werden davon gelöst.',
  takeRescaledText:
    'Das Gerät nennt eine andere Skala als vorher: ein anderer Sensor wurde angebaut, oder seine Einstellungen wurden geändert. Erst auf das Manometer sehen. Ab dann wird es nach der neuen Skala und ungenullt gelesen; genullt wird neu gefragt, solange nichts gefüllt ist. Die niedrigere der beiden Obergrenzen gilt und wird ihm als Gerätegrenze gesetzt. Sensoren auf dem Auftragsblatt gehören zur ersten Skala und werden davon gelöst.',
  endText:
    'Die Aufzeichnung endet, die Messkurve bleibt beim Auftrag. Die Überwachung bleibt an, solange das Gerät verbunden ist.',
  unwrittenTitle: 'Ein Teil der Aufzeichnung ist nicht auf der Platte',
  unwrittenText:
    'Der Lauf ist noch offen, die Überwachung läuft, und der wartende Teil wird immer wieder versucht. Ist Platz da, den Lauf nochmal beenden. Oder erst die ganze Aufzeichnung als Datei speichern und dann den Lauf ohne den wartenden Teil beenden.',
  savePages: 'Aufzeichnung als Datei speichern',
  endWithout: 'Ohne den wartenden Teil beenden',
  endWhy: 'Der Packer ist vielleicht voll. Warum endet der Lauf hier? Der Grund bleibt in der Aufzeichnung.',
  /** Which of the reasons says that the packer was seen empty. */
  endedEmpty: 2,
  endReasons: [
    'Der Packer bleibt unter Druck, überwacht am Manometer',
    'Der Messwert ist falsch oder weg',
    'Entlüftet, das Manometer zeigt null',
  ],
  /** Said against what is read; kept in the record. */
  endedAgainst: (pressure: string) => `Entlüftet, das Manometer zeigt null; die Leitung zeigte ${pressure}`,
  endUnderPressure:
    'Die Leitung ist nicht bei null. Den Lauf zu beenden beendet die Aufzeichnung, nicht den Druck im Packer.',
  recording: (bytes: string, saved: string) => `Zeichnet auf, ${bytes}, gespeichert vor ${saved}`,
  notRecording: 'Zeichnet nicht auf',
  resumedRun: 'Nach einer Unterbrechung fortgesetzt',
  minutesInBand: 'Im Haltebereich',
  lowest: 'Tiefster Wert beim Halten',
  highest: 'Spitze beim Halten',
  peak: 'Spitze',
  leak: 'Leck',
  rate: 'Anstieg',
  rest: 'Ohne Strömung',
  settle: 'Kommt zur Ruhe bei',
  within: (value: string, low: string, high: string) => `${value} (${low} bis ${high})`,
  gaugeTitle: 'Mit dem Manometer vergleichen',
  gaugeText: 'Zulufthahn zu, 15 bis 20 s warten, dann das Manometer ablesen.',
  gaugeValue: 'Manometer zeigt',
  gaugeSend: 'Vergleichen',
  gaugeResult: (gauge: string, sensor: string) => `Manometer ${gauge}, Sensor ${sensor}.`,
  warmTitle: 'Fühler in der Hand wärmen',
  warmText:
    'Einen Fühler und das Thermometer zusammen eine Minute in der Hand halten, dann den nächsten: vertauschte fallen auf. Erst dann wird einem Fühler über der Temperatur des Erdreichs geglaubt.',
  warmValue: (place: string) => `Thermometer zeigt (${place})`,
  warmSend: 'Vergleichen',
  agrees: 'Stimmen überein.',
  differs: 'Liegen weiter auseinander als ihre Messunsicherheit.',
  answerLetDown: 'Ja, Entlüften',
  answerLoss: 'Nein, Verlust',
  witnessTitle: 'Rückstellprobe',
  witnessText: 'Die bei Rohrtemperatur gelagerte Probe ist:',
  witnessHard: 'Hart',
  witnessSoft: 'Nicht hart',
  notedHard: 'Notiert: hart, bei Rohrtemperatur gelagert.',
  notedSoft: 'Notiert: nicht hart. Den Packer unter Druck lassen.',
  notedWarm:
    'Notiert: hart, aber nicht bei Rohrtemperatur gelagert: das sagt nichts über den Kurzliner. Lag sie doch dort, das ankreuzen und nochmal drücken.',
  sampleDoubt: {
    'hard-early':
      'Für das Datenblatt viel zu früh hart: lag sie wärmer als das Rohr, oder ist sie von einem anderen Harz? Sie verkürzt kein Warten.',
    'soft-late':
      'Lange nach der Zeit des Datenblatts nicht hart: eine langsame Charge, oder lag sie kälter? Die Zählung wartet darauf.',
  },
  witnessPlace: 'Sie lag bei Rohrtemperatur',
  span: 'Gezeigte Zeit',
  spanMinute: '1 min',
  spanTenMinutes: '10 min',
  spanHour: '1 h',
  spanAll: 'Alles',
  traceLabel: 'Druck und Temperaturen über der Zeit',
  deviceGuard: (state: string) => `Gerätegrenze: ${state}`,
  deviceGuardAt: (state: string, limit: string) => `Gerätegrenze: ${state}, ${limit}`,
  deviceSilence: 'Summer des Geräts stumm schalten',
  checkpointCode: 'Code des Sicherungspunkts für das Foto des Auftraggebers',
  toSheet: 'Auftragsblatt',
  note: 'Notiz',
  noteAdd: 'Notiz speichern',
  asleep: 'Der Computer schläft vielleicht ein: am Netz lassen, nicht sperren.',
};

export const RIG = {
  title: 'Übungsanlage',
  text: 'Griffe und Fehler der Anlage. Keine echte Leitung hat dieses Feld.',
  valve: 'Zulufthahn',
  shut: 'Zu',
  regulator: 'Druckregler',
  ventOpen: 'Ablasshahn auf',
  ventShut: 'Ablasshahn zu',
  couple: 'Schlauch ankuppeln',
  uncouple: 'Kupplung öffnen',
  endShut: 'Schlauchende zu',
  endOpen: 'Schlauchende auf',
  speed: 'Zeitraffer',
  truth: 'Wahrer Druck im Packer',
  faults: 'Fehler zum Finden',
};

/** What there is to be learnt at each practice site beside the usual one. */
export const PRACTICE_SITE: Record<
  'practice-pair' | 'practice-moved' | 'practice-differ' | 'practice-cup' | 'practice-air',
  { readonly name: string; readonly text: string }
> = {
  'practice-pair': {
    name: 'Ein zweiter Sensor am Druckregler',
    text: 'Alles in Ordnung: die Marke des Reglerausgangs steht neben dem Packerdruck.',
  },
  'practice-moved': {
    name: 'Der Druckregler verstellt sich nach dem Test',
    text: 'Erst die Zuluft testen; vier Minuten nach dem Verbinden beginnt der Regler nachzusteigen.',
  },
  'practice-differ': {
    name: 'Die beiden Sensoren sind uneins',
    text: 'Der zweite Sensor zeigt kurz nach dem Verbinden viel zu wenig: welcher hat recht?',
  },
  'practice-cup': {
    name: 'Der Becher zeigt eine langsame Charge',
    text: 'Ein Fühler steht in einem Becher der Mischung. Gleich „Harz ist gemischt“ drücken; bei 20-fachem Zeitraffer dauert es zwei Minuten, bis es sich zeigt.',
  },
  'practice-air': {
    name: 'Ein saniertes Rohr zwischen zwei Verschlüssen',
    text: 'Kein Packer: zur Luftprüfung gehen (Mehr, Andere Abschnitte). Ohne Fehler ist es dicht; „Leck“ macht einen.',
  },
};

export const RIG_FAULT: Record<RigFaultCode, string> = {
  regulator: 'Druckregler zu hoch',
  creep: 'Druckregler steigt nach',
  'stuck-open': 'Druckregler klemmt offen',
  leak: 'Leck',
  'open-probe': 'Fühler bricht',
  unplug: 'Kabel ziehen',
  replug: 'Kabel wieder stecken',
  reset: 'Gerät startet neu',
  garbage: 'Rauschen auf dem Kabel',
  silence: 'Gerät verstummt',
  'supply-sag': 'Sensorspeisung sackt ab',
  kink: 'Schlauch knickt',
  burst: 'Packer platzt',
  'blown-hose': 'Schlauch fliegt von der Kupplung',
  relief: 'Sicherheitsventil öffnet zu früh',
  'first-lost': 'Drucksensor bricht',
  'second-off': 'Zweiter Sensor zeigt falsch',
  'second-lost': 'Zweiter Sensor bricht',
  'sensors-swapped': 'Sensoren vertauscht',
  'cup-in-air': 'Becherfühler in der Luft',
  'cup-swapped': 'Fühler von Becher und Kurzliner vertauscht',
  'hose-leak': 'Schlauch undicht',
  'put-right': 'Sensoren, Fühler, Schlauch wieder in Ordnung',
};
