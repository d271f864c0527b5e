import type { DerivationCode, PlanNote, WarningCode } from '../../job/plan-codes.ts';
import { METRIC } from '../create-format.ts';
import type { refusals } from './refusals.ts';

/** What a plan says: warnings, and each number with its formula. */

/** `of` is what the warning is about and its numbers, in brackets, or nothing. */
const WARNING: Record<WarningCode, (of: string) => string> = {
  'no-packer': (of) => `Kein Packer ist gewählt: keine Grenze, keine Druckwarnung${of}.`,
  'no-rating': (of) => `Der Packer hat keinen Höchstdruck: keine Grenze, keine Druckwarnung${of}.`,
  'diameter-unknown': (of) =>
    `Der Durchmesser des Rohrs ist nicht bekannt: der niedrigste Höchstdruck des Packers wird genommen${of}.`,
  'diameter-not-measured': (of) => `Die Nennweite steht für den Innendurchmesser${of}. Messen.`,
  'plate-says-working': (of) => `Der Arbeitsdruck des Schilds gilt als Höchstdruck${of}.`,
  'working-proposed': (of) => `Kein Arbeitsdruck eingetragen: der Vorschlag wird genommen${of}.`,
  'ceiling-kept': (of) =>
    `Während eines Laufs lässt sich die Obergrenze senken, nie heben: die, mit der dieser Lauf begann, gilt${of}.`,
  'no-margin': (of) =>
    `Arbeiten am Höchstdruck lässt keine Reserve für einen Sensor, der zu wenig zeigt, oder für Reaktionswärme${of}.`,
  'lift-past-ceiling': (of) => `Reaktionswärme kann die Leitung über die Obergrenze heben${of}.`,
  'rise-assumed': (of) =>
    `Die Erwärmung der Luft durch das Aushärten ist nach der Klasse der Reaktionswärme angenommen${of}.`,
  'heating-unknown': (of) =>
    `Niemand hat gesagt, ob der Packer von außen gewärmt wird: die Härtezeit zählt, als wäre er es, und ist später erreicht${of}. Auf dem Auftragsblatt sagen.`,
  'heated-to-unknown': (of) =>
    `Der Packer wird gewärmt, und niemand hat gesagt, worauf: der Druckanstieg durch diese Wärme ist nicht im Plan${of}. Auf dem Auftragsblatt eintragen.`,
  'not-gas': (of) =>
    `Mit Wasser oder Dampf im Packer gilt das Gasgesetz nicht: ein Leck ist nicht zu sagen, der Druckanstieg durch Wärme nicht vorherzusagen${of}.`,
  'wetness-unknown': (of) =>
    `Niemand hat gesagt, ob Wasser in der Leitung ist: der Druckanstieg durch seinen Dampf ist eingerechnet${of}. Auf dem Auftragsblatt sagen.`,
  'two-on-line': (of) =>
    `Zwei Packer hängen an dieser Leitung, und ein Sensor kann sie nicht trennen: nur einer ist zu sehen, und der niedrigere Höchstdruck ist die Grenze${of}.`,
  'no-relief': (of) =>
    `Kein Sicherheitsventil ist bekannt${of}. Eines anbauen, höchstens auf den Höchstdruck eingestellt.`,
  'relief-over-rated': (of) => `Das Sicherheitsventil ist über den Höchstdruck eingestellt${of}.`,
  'relief-under-working': (of) => `Das Sicherheitsventil öffnet am Arbeitsdruck oder darunter${of}.`,
  'water-unknown': (of) => `Das Grundwasser ist nicht bekannt: es gibt keinen Mindestdruck${of}.`,
  'free-inflation-unknown': (of) =>
    `Der Druck beim freien Füllen des Packers ist nicht bekannt: es gibt keinen Mindestdruck, bis das Füllen ihn zeigt${of}.`,
  'seat-over-working': (of) =>
    `Der Anlegedruck liegt nicht unter dem Arbeitsdruck: keine Pause beim Anlegen ist geplant${of}.`,
  'tap-no-hold': (of) => `Sensor hier: nur Druckwarnung, keine Leckprüfung${of}.`,
  'second-left-out': (of) =>
    `Ein Auftrag liest zwei Drücke, jeden von seiner Position: dieser Kanal wird nicht gelesen${of}.`,
  'line-unknown': (of) =>
    `Wie die Leitung gespeist wird, ist nicht bekannt: ein Leck ist nicht zu sagen${of}.`,
  'u-large': (of) => `Die Messunsicherheit liegt über einem Zehntel des Höchstdrucks${of}.`,
  'u-assumed': (of) => `Über den Sensor ist nichts bekannt: eine große Messunsicherheit ist angenommen${of}.`,
  'device-not-described': (of) => `Kein Gerät ist verbunden: Sensordaten kommen beim Verbinden${of}.`,
  'channel-missing': (of) => `Das Gerät hat keinen solchen Kanal${of}.`,
  'sensor-missing': (of) => `Das Blatt eines zugewiesenen Sensors ist weg${of}.`,
  'beside-missing': (of) => `Der zweite Adapter antwortet nicht oder hat keinen solchen Kanal${of}.`,
  'beside-pressure': (of) =>
    `Der zweite Adapter dient nur für Temperaturen: sein Druck wird nicht gelesen${of}.`,
  'signal-differs': (of) =>
    `Sensorblatt und Gerät sind über das Signal uneins: das des Geräts wird genommen${of}.`,
  'span-unknown': (of) =>
    `Niemand nennt, welche Spannungen Anfang und Ende des Messbereichs sind: der Kanal wird nicht gelesen${of}. Beide in das Blatt des Sensors eintragen und ihn auf dem Auftragsblatt nennen.`,
  'calibration-none': (of) => `Der Sensor hat keine Kalibrierung${of}.`,
  'calibration-refused': (of) =>
    `Die Punkte der Kalibrierung ergeben keine Kalibrierung: sie wird nicht benutzt${of}.`,
  'calibration-other-device': (of) =>
    `Die Kalibrierung wurde an einem anderen Gerät oder Kanal gemacht: sie wird nicht benutzt${of}.`,
  'calibration-due': (of) => `Die Kalibrierung ist abgelaufen${of}.`,
  'sensor-retired': (of) => `Der Sensor ist ausgemustert${of}.`,
  'zero-refused': (of) => `In seinem letzten Auftrag lag die Null des Sensors zu weit daneben${of}.`,
  'zero-jumped': (of) =>
    `Die Null des Sensors hat sich im letzten Auftrag mehr bewegt als in denen davor${of}. Früh vergleichen.`,
  'zero-drifting': (of) =>
    `Die Null des Sensors wandert von Auftrag zu Auftrag und liegt bald zu weit daneben${of}.`,
  'gauge-differed': (of) => `In seinem letzten Auftrag war der Sensor mit dem Manometer uneins${of}.`,
  'gauge-drifting': (of) =>
    `Sensor und Manometer laufen von Auftrag zu Auftrag auseinander: einer ist zur Kalibrierung fällig${of}.`,
  'probe-differed': (of) => `In seinem letzten Auftrag war der Fühler mit dem Thermometer uneins${of}.`,
  'probe-uncompared': (of) =>
    `Ein nie verglichener Fühler wird nach seiner Klasse beurteilt. Ein Vergleich in schmelzendem Eis, im Blatt des Sensors, verkürzt das Warten auf die Härtezeit${of}.`,
  'cup-coarse': (of) =>
    `Der Probenbecher sagt nur, ob das Harz reagiert: für mehr braucht er seine Masse, die Temperatur beim Mischen und Marken früherer Becher im Blatt des Harzes${of}.`,
  'no-sleeve-place': (of) =>
    `Kein Fühler am Kurzliner: Aushärtung zählt nach der Temperatur des Erdreichs${of}.`,
  'air-assumed': (of) => `Der Luftdruck ist angenommen${of}.`,
  'ground-unknown': (of) => `Keine Temperatur des Erdreichs: ohne Fühler keine Härtezeit${of}.`,
  'volume-estimated': (of) => `Das Gasvolumen ist geschätzt${of}.`,
  'volume-unknown': (of) => `Das Gasvolumen ist nicht bekannt${of}.`,
  'overlap-short': (of) => `Die Überlappung auf heilem Rohr ist unter 100 mm${of}.`,
  'usable-unknown': (of) => `Die nutzbare Länge des Packers bei diesem Durchmesser ist nicht bekannt${of}.`,
  'defect-unknown': (of) => `Die Länge des Schadens ist nicht bekannt: keine Länge des Kurzliners${of}.`,
  'thickness-short': (of) => `Der Kurzliner ist dünner, als die Dickenkontrolle verlangt${of}.`,
  'thickness-unknown': (of) => `Eine Angabe für die Dickenkontrolle fehlt${of}.`,
  'thickness-differs': (of) => `Die Dicke der Kontrolle ist nicht die der Lagen${of}.`,
  'fabric-unknown': (of) => `Gewebegewicht oder Harzverhältnis fehlt: keine Harzmasse${of}.`,
  'density-unknown': (of) => `Eine Dichte fehlt: kein Härter nach Masse${of}.`,
  'pot-life-unknown': (of) => `Die Topfzeit bei dieser Temperatur ist nicht bekannt${of}.`,
  'mixing-uncounted': (of) =>
    `Die Datenblattzeit zählt ab dem Mischen${of}. Ohne die Temperatur beim Mischen wird erst ab dem Anlegen gezählt, und es dauert länger.`,
  'pot-life-extrapolated': (of) =>
    `Die Mischtemperatur liegt außerhalb der Topfzeittabelle des Datenblatts${of}.`,
  'pot-life-tight': (of) => `Zwischen Anlegen und Ende der Topfzeit bleiben weniger als fünf Minuten${of}.`,
  'pot-mass': (of) => `Mehr wird gemischt, als die Topfzeit gilt: sie läuft früher ab${of}.`,
  'no-resin': (of) => `Kein Harz ist gewählt: Härtezeit wird nicht verfolgt${of}.`,
  'light-cured': (of) =>
    `Das Harz härtet durch Licht: Zeit und Temperatur sagen nichts darüber, Aushärtung wird nicht beurteilt${of}.`,
  'no-cure-points': (of) => `Das Harz hat keine Härtezeit: Härtezeit wird nicht verfolgt${of}.`,
  cold: (of) =>
    `Das Erdreich ist vielleicht unter der tiefsten Temperatur des Datenblatts: dann zählt keine Härtezeit${of}.`,
  'resin-expired': (of) => `Die Harzcharge ist abgelaufen${of}.`,
  'batch-missing': (of) => `Chargennummern fehlen${of}.`,
  'packer-damaged': (of) => `Das Logbuch des Packers endet mit einem Schaden${of}.`,
  'packer-over-rated': (of) =>
    `Der Packer war über dem Höchstdruck, und seither ist keine Begutachtung eingetragen${of}: vor dem Einsatz begutachten.`,
  'packer-unseen': (of) => `Seit dem letzten Einsatz ist keine Begutachtung des Packers eingetragen${of}.`,
  'rated-high': (of) => `Der Höchstdruck ist höher als bei Packern üblich${of}: nachsehen, ob es bar sind.`,
  'packer-leak-grows': (of) =>
    `Das Leck des Packers wächst von Auftrag zu Auftrag: vor dem Einsatz nach dem Grund suchen${of}.`,
  'air-test-refused': (of) =>
    `Der Sensor ist zu unsicher für diese Luftprüfung: sie braucht einen Kanal mit kleinem Messbereich${of}.`,
  'air-test-over-plugs': (of) =>
    `Grundwasser verlangt mehr Druck, als man auf Rohrverschlüsse gibt: diese Luftprüfung wird nicht gemacht${of}.`,
  'air-test-unknown': (of) => `Eine Angabe für die Luftprüfung fehlt${of}.`,
};

const DERIVATION: Record<DerivationCode, { readonly name: string; readonly how: string }> = {
  rated: {
    name: 'Höchstdruck',
    how: 'Die Tabelle des Packers bei diesem Durchmesser; zwischen zwei Zeilen die niedrigere.',
  },
  'rated-lower': {
    name: 'Höchstdruck an dieser Leitung',
    how: 'Von zwei Packern an einer Leitung der niedrigere Höchstdruck.',
  },
  u: {
    name: 'Messunsicherheit (k = 2)',
    how: 'Kalibrierung, Null, Auflösung, Sensorspeisung und Rauschen, kombiniert.',
  },
  ceiling: { name: 'Obergrenze', how: 'Höchstdruck minus Messunsicherheit.' },
  lift: {
    name: 'Erwarteter Druckanstieg durch Wärme',
    how: '(Arbeitsdruck + Luftdruck) × Erwärmung / absolute Temperatur des Erdreichs; mit Wasser in der Leitung dazu sein Dampf.',
  },
  proposal: {
    name: 'Vorgeschlagener Arbeitsdruck',
    how: 'So, dass Arbeitsdruck + Druckanstieg + Nachanstieg des Schlauchs die Obergrenze ist.',
  },
  working: {
    name: 'Arbeitsdruck',
    how: 'Wie eingetragen oder vorgeschlagen; nie über der Obergrenze.',
  },
  head: {
    name: 'Druck des Grundwassers an der Sohle',
    how: 'Dichte des Wassers × Fallbeschleunigung × Höhe.',
  },
  'free-inflation': {
    name: 'Druck beim freien Füllen',
    how: 'Die Tabelle des Packers bei diesem Durchmesser.',
  },
  floor: { name: 'Mindestdruck', how: 'Wasserdruck + Druck beim freien Füllen + Anlegereserve.' },
  air: { name: 'Luftdruck, absolut', how: 'Normatmosphäre in dieser Höhe, oder wie eingetragen.' },
  volume: {
    name: 'Gasvolumen',
    how: 'Die Tabelle des Packers und der Schlauch, oder ein Zylinder seiner nutzbaren Länge.',
  },
  energy: {
    name: 'Gespeicherte Energie',
    how: 'Isentrope Entspannung des Gasvolumens, in der Form von ASME PCC-2. Ein gefüllter Packer kann töten.',
  },
  'end-force': { name: 'Endkraft', how: 'Druck × Fläche des Rohrs.' },
  'sleeve-length': {
    name: 'Länge des Kurzliners',
    how: 'Schaden + Überlappung auf heilem Rohr an beiden Enden.',
  },
  'usable-length': {
    name: 'Nutzbare Länge des Packers',
    how: 'Zwischen seinen Marken; die Enden ziehen sich ein, wenn der Gummi wächst.',
  },
  'cut-width': {
    name: 'Zuschnittbreite',
    how: 'π × (Innendurchmesser − Dicke) je Lage, mit der Stoßüberlappung.',
  },
  'sleeve-thickness': { name: 'Dicke des Kurzliners', how: 'Lagen × Dicke einer Lage.' },
  'thickness-buckling': {
    name: 'Dicke gegen Wasser, eine Kontrolle',
    how: 'ASTM F1216, X1.1. Für einen Ingenieur, keine Bemessung.',
  },
  'thickness-stress': {
    name: 'Dicke gegen Biegung, eine Kontrolle',
    how: 'ASTM F1216, X1.2. Für einen Ingenieur, keine Bemessung.',
  },
  'resin-mass': { name: 'Gemischtes Harz', how: 'Fläche × Gewebegewicht × Harzverhältnis, mit Verschnitt.' },
  'hardener-mass': { name: 'Härter darin', how: 'Nach dem Mischungsverhältnis.' },
  'pot-life': { name: 'Topfzeit', how: 'Die Tabelle des Datenblatts bei der Mischtemperatur.' },
  'seat-by': { name: 'Anlegen binnen (ab dem Mischen)', how: 'Die Topfzeit.' },
  'air-test-time': { name: 'Luftprüfung: Prüfzeit', how: 'Nach Tabelle oder Formel des Verfahrens.' },
  'air-test-drop': { name: 'Luftprüfung: erlaubter Druckabfall', how: 'Nach dem Verfahren.' },
  'air-test-u': {
    name: 'Luftprüfung: Messunsicherheit eines Druckabfalls',
    how: 'Der Differenz zweier Messwerte.',
  },
};

export const plan = ({ noteText }: ReturnType<typeof refusals>) => ({
  DERIVATION,
  warningText: (note: PlanNote<WarningCode>, units = METRIC): string =>
    noteText(WARNING[note.code], note, units),
});
