import type { Comparison } from '../../record/witness/compare.ts';
import type { SeenOutcome, TakeOutcome } from '../../record/witness/exchange.ts';

/** Words of the witness log: what is noted, who has seen it, and how a code is compared with a file. */
export const WITNESS = {
  title: 'Kontrollprotokoll',
  lead: 'Dieser Computer vermerkt jeden Lauf beim Öffnen, alle fünf Minuten und am Ende, jede Versiegelung und jeden Nachtrag, in einem Protokoll, das nur wächst. Sein neuester Sicherungspunkt steht für alles: wer einen gesehen hat, kann später sagen, ob etwas weggelassen oder ausgetauscht wurde.',
  link: 'Kontrollprotokoll',
  code: 'Sicherungspunkt',
  codeLead:
    'Den Auftraggeber diesen Code am Anfang und am Ende des Laufs fotografieren lassen. Das Foto bezeugt ihn: sein Datum begrenzt, wann das Protokoll geschrieben wurde.',
  line: (entries: string, short: string) => `Sicherungspunkt des Kontrollprotokolls: ${entries}, ${short}`,
  lineDay:
    'Der erste des Tages, bevor ein Lauf geöffnet ist: den Auftraggeber diesen Code fotografieren lassen. Was bis hier vermerkt ist, lässt sich nicht mehr austauschen, ohne dass es sich am Foto zeigt.',
  lineEnded:
    'Der Lauf ist beendet und vermerkt: den Auftraggeber diesen Code fotografieren lassen. Am Foto zeigt sich später, ob dieser Lauf, wie er jetzt ist, ausgetauscht oder weggelassen wurde.',
  lineSealed:
    'Die Aufzeichnung ist versiegelt und vermerkt: den Auftraggeber diesen Code fotografieren lassen. Sie war vor dem Foto versiegelt, und am Foto zeigt sich, ob eine andere an ihrer Stelle versiegelt wurde.',
  codeLabel: 'QR-Code mit dem signierten Sicherungspunkt des Kontrollprotokolls',
  asText: 'Dasselbe als Text',
  leaves: (n: number) => (n === 1 ? '1 Eintrag' : `${n} Einträge`),
  refresh: 'Neuester Sicherungspunkt',
  save: 'Protokoll speichern',
  saveNote:
    'Das Protokoll hält Zeiten und Prüfwerte, keine Namen. Wer es und zwei Sicherungspunkte hat, kann jeden Eintrag dazwischen prüfen.',
  unsealed: 'Geöffnet und nicht versiegelt',
  unsealedNone: 'Jeder geöffnete Lauf ist versiegelt.',
  opened: (when: string) => `geöffnet ${when}`,
  ended: (when: string) => `beendet ${when}`,
  notEnded: 'nicht beendet',
  gone: 'Ein Lauf, der nicht mehr auf diesem Computer ist',
  practice: (n: number) =>
    n === 1
      ? '1 Übungslauf ist auch vermerkt; er ist keine Arbeit.'
      : `${n} Übungsläufe sind auch vermerkt; sie sind keine Arbeit.`,
  twice: (n: number) =>
    n === 1 ? '1 Lauf wurde mehrmals versiegelt.' : `${n} Läufe wurden mehrmals versiegelt.`,
  witnesses: 'Wer es gesehen hat',
  witnessesNone:
    'Noch hat es niemand außer diesem Computer gesehen. Auch ein Foto zählt, aber nur wer es gemacht hat, hat es.',
  seenBy: (name: string, size: string, when: string) => `${name}: ${size}, ${when}`,
  stampBy: 'Ein Zeitstempel',
  unknownWitness: 'Ein hier nicht bekannter Gegenzeichner',
  self: 'Dieser Browser selbst',
  office: 'Über den gemeinsamen Ordner',
  officeLead:
    'Der Sicherungspunkt wird in den gemeinsamen Ordner gelegt, und was das Büro dort signiert hat, wird übernommen. Der nächste Lauf trägt es dann, seine Zeit ist nach beiden Seiten begrenzt.',
  exchange: 'Sicherungspunkt dort ablegen',
  countersign: 'Sicherungspunkte der anderen gegenzeichnen',
  countersignLead:
    'Als Büro: signiert mit der Zeit, was das früher Gesehene fortsetzt, und lehnt eine kürzere oder andere Geschichte ab.',
  asWitness: 'Fingerabdruck des Schlüssels, mit dem dieser Browser gegenzeichnet',
  working: 'Sieht in den Ordner',
  report: (published: number | null, taken: number, cosigned: number) =>
    [
      published === null
        ? 'Kein neuer Sicherungspunkt abzulegen.'
        : 'Der Sicherungspunkt wurde dort abgelegt.',
      taken === 0 ? 'Nichts Neues von Gegenzeichnern.' : `${taken} neu von Gegenzeichnern.`,
      cosigned === 0 ? '' : `${cosigned} gegengezeichnet.`,
    ]
      .filter((t) => t !== '')
      .join(' '),
  refused: 'Abgelehnt',
  others: 'Protokolle, die dieser Browser gesehen hat',
  otherLine: (origin: string, size: string, when: string) => `${origin}: ${size}, ${when}`,
  otherRefused: (why: string, when: string) => `Zuletzt abgelehnt ${when}: ${why}`,
  stamp: 'Zeitstempel',
  stampLead:
    'npm run stamp macht die Anfrage für einen Sicherungspunkt, die eine Stelle nach RFC 3161 beantwortet. Den Sicherungspunkt einfügen und die Antwort wählen (.tsr). Ihre Signatur prüft openssl ts -verify, nicht diese Seite.',
  stampText: 'Gestempelter Sicherungspunkt',
  stampFile: 'Antwort wählen',
  compare: 'Sicherungspunkt vergleichen',
  compareLead:
    'Den Text eines fotografierten Codes einfügen, oder eines beliebigen Sicherungspunkts dieses Protokolls.',
  compareFileLead:
    'Den Text einfügen, den ein Telefon aus einem fotografierten Code liest. Er wird mit dem Kontrollprotokoll verglichen, das diese Datei trägt.',
  compareText: 'Text des Codes',
  compareDo: 'Vergleichen',
};

/** What comparing two checkpoints tells. */
export function comparisonText(c: Comparison | null): string {
  if (c === null)
    return 'Die Datei trägt nichts von einem Kontrollprotokoll, damit lässt sich nichts vergleichen.';
  switch (c.c) {
    case 'no-checkpoint':
      return 'Das ist kein signierter Sicherungspunkt. Den ganzen Text des Codes kopieren, von „log.“ bis zum letzten Zeichen.';
    case 'other-log':
      return `Sicherungspunkt eines anderen Computers: ${c.origin}.`;
    case 'unsigned':
      return 'ANDERS: das Protokoll hat diesen Sicherungspunkt nie signiert. Er wurde verändert oder von jemand anderem gemacht.';
    case 'same-history':
      return SAME[c.holds ?? 'log'];
    case 'another-history':
      return `ANDERS: das Protokoll hat zwei Geschichten von ${c.size} Einträgen signiert. Seit diesem Sicherungspunkt wurde etwas ausgetauscht oder weggelassen.`;
    case 'shorter':
      return `ANDERS: das Protokoll hat jetzt ${c.now} Einträge, und dieser Sicherungspunkt war von ${c.size}. Was danach kam, wurde weggenommen.`;
    case 'not-told':
      return `Nicht zu sagen: nichts hier beweist, wie der Baum von ${c.size} Einträgen zum anderen gehört. Das Protokoll auf dem Computer speichern, der es führt, und damit vergleichen.`;
  }
}

const SAME: Readonly<Record<'nothing' | 'part' | 'sealed' | 'log', string>> = {
  nothing:
    'Dieselbe Geschichte: der Sicherungspunkt ist von vor dem Lauf, und der Lauf wurde nach ihm geöffnet.',
  part: 'Dieselbe Geschichte: der Sicherungspunkt hält das Öffnen dieses Laufs und was bis dahin von ihm vermerkt war.',
  sealed: 'Dieselbe Geschichte: der Sicherungspunkt hält diese Aufzeichnung, wie sie versiegelt wurde.',
  log: 'Dieselbe Geschichte: das Protokoll geht von diesem Sicherungspunkt weiter, und nichts davor wurde verändert.',
};

export const SEEN: Readonly<Record<SeenOutcome, string>> = {
  cosigned: 'gegengezeichnet',
  own: 'das eigene dieses Browsers',
  known: 'schon gesehen',
  form: 'kein Sicherungspunkt, oder nicht von seinem Protokoll signiert',
  shorter: 'KÜRZER als das früher Gesehene, und nie gesehen',
  different: 'ANDERE GESCHICHTE als die früher gesehene',
  'no-proof': 'länger, und nichts beweist, dass es das Gesehene fortsetzt',
};

export const TAKEN: Readonly<Record<TakeOutcome, string>> = {
  taken: 'Der Zeitstempel wurde übernommen. Nachweisdateien, die ab jetzt gebaut werden, tragen ihn.',
  form: 'Das ist kein Sicherungspunkt, oder keine Antwort für einen Zeitstempel.',
  'other-log': 'Der Sicherungspunkt gehört einem anderen Protokoll.',
  'another-history': 'Der Sicherungspunkt gehört zu einer anderen Geschichte als der dieses Protokolls.',
  unsigned: 'Der Sicherungspunkt ist nicht signiert.',
  refused: 'Die Stelle hat keinen Stempel gegeben.',
  'no-stamp-of': 'Der Stempel gehört zu etwas anderem als diesem Sicherungspunkt.',
};
