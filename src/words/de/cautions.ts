import type { ShownCaution } from '../said/cautions-at.ts';

export { CAUTIONS_AT } from '../said/cautions-at.ts';

/** Cautions shown where they matter: at the job sheet, before air goes in, at let-down, on the about page. */

export const CAUTION: Record<ShownCaution, string> = {
  'not-a-safety-device':
    'Dieses Programm überwacht und warnt. Es ist keine Sicherheitseinrichtung und ersetzt kein Sicherheitsventil.',
  'stored-energy':
    'Ein gefüllter Packer speichert Energie: ein Bersten kann töten. Nicht in Rohrachse und nicht über der Öffnung stehen. Einen Packer nie außerhalb von Rohr oder Einspannung weiter füllen, als der Hersteller erlaubt. Druckregler benutzen, und ein Sicherheitsventil, das höchstens auf den Höchstdruck eingestellt ist.',
  'big-packer':
    'Große Packer bei kleinem Druck sind nicht sicherer: gespeicherte Energie und Endkraft wachsen mit Volumen und Fläche.',
  unrestrained:
    'Über einem Hohlraum, fehlender Wand, offenem seitlichem Anschluss oder einem herausragenden Ende ist ein Packer nicht eingespannt: er kann unter seinem Höchstdruck bersten.',
  'hose-whip': 'Schläuche schlagen aus: nie eine Kupplung unter Druck öffnen.',
  'dammed-water':
    'Ein versperrtes Rohr staut sein Wasser: Keller oberhalb, Schub auf den Packer, ein Schwall beim Lösen.',
  'explosive-gas':
    'Kanalgas und Styrol können explodieren: Elektronik und Leitungen an der Öffnung brauchen, was die örtlichen Regeln verlangen.',
  'no-warning': 'Keine Warnung heißt nicht sicher.',
  'resin-hazard':
    'Isocyanate, Styrol, Peroxide, Epoxidhärter: nach Sicherheitsdatenblatt arbeiten, lüften, Handschuhe tragen. Gemischte Harzreste im Eimer werden heiß und können brennen.',
  'confined-space':
    'Einsteigen in Schächte ist Arbeit in engen Räumen: örtliches Recht und Erlaubnisschein befolgen.',
  'engineer-design':
    'Die Bemessung einer Sanierung (Wanddicke, Eignung) ist Sache eines zugelassenen Ingenieurs, wo das Recht es verlangt. Die Zahlen des Plans sind eine Kontrolle, keine Bemessung.',
  empty:
    'Ein entlüfteter Schlauch zeigt null, lange bevor ein großer Packer leer ist, und ein Knick oder Rückschlagventil kann für immer null zeigen. Dieses Programm kann nicht sagen, ob ein Packer gezogen werden darf.',
  plugs:
    'Luft zwischen Rohrverschlüssen speichert Energie: ein rutschender Verschluss fliegt heraus und kann töten, auch bei einem Zehntel bar. Beide Verschlüsse sichern, niemand im Schacht oder in Rohrachse, nie über das hinaus, was die Prüfung verlangt, alle Luft raus, bevor ein Verschluss angefasst wird. Hersteller der Verschlüsse und örtliche Regeln befolgen.',
  witness:
    'Vor dem Entlüften die Rückstellprobe fühlen, die bei Rohrtemperatur lag. Eine Probe aus dem warmen Wagen härtet Stunden zu früh.',
};
