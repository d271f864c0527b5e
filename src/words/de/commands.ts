import type { MapKind } from '../../job/reading-map.ts';
import type { Finding, Remark, Verdict } from '../../record/findings.ts';
import type { ApartFrom, Reservations } from '../../record/reservations.ts';
import type { Format } from '../create-format.ts';
import { answerClock } from '../said/figures.ts';

/** Words of the commands: usage, faults of what was given, and what they print. */

/** Bad input: one line each that says what and where. */
export const FAULT = {
  internal: 'ein Fehler des Programms selbst: nichts wurde herausgefunden. Bitte einsenden, was folgt.',
  // options
  unknownOption: (given: string, usage: string) => `unbekannte Option ${given}; ${usage}`,
  needsValue: (option: string, usage: string) => `${option} braucht einen Wert; ${usage}`,
  takesNoValue: (option: string, usage: string) => `${option} nimmt keinen Wert; ${usage}`,
  twice: (option: string) => `${option} steht zweimal da`,
  missing: (option: string, usage: string) => `${option} fehlt; ${usage}`,
  oneFile: (usage: string) => `bitte eine DATEI; ${usage}`,
  notAPressure: (option: string, given: string, lo: number, hi: number) =>
    `${option} ${given} ist kein Druck von ${lo} bis ${hi} bar`,
  notOneOf: (option: string, given: string, choices: string) =>
    `${option} ${given} ist keines von ${choices}`,
  needsLimit: (option: string) => `${option} braucht --rated oder --job`,
  notBelow: (option: string, value: number, rated: number) =>
    `${option} ${value} liegt nicht unter --rated ${rated}`,
  over: (option: string, value: number, rated: number) => `${option} ${value} liegt über --rated ${rated}`,

  // files
  noSuchFile: (name: string) => `${name}: keine solche Datei`,
  noSuchFileOrFolder: (name: string) => `${name}: keine solche Datei, kein solcher Ordner`,
  notAFile: (name: string) => `${name}: keine Datei`,
  unreadable: (name: string, code: string) => `${name}: nicht lesbar (${code})`,
  unwritable: (name: string, code: string) => `${name}: nicht schreibbar (${code})`,
  tooLarge: (name: string, bytes: number, most: number) => `${name}: ${bytes} Bytes sind mehr als ${most}`,
  emptyFile: 'die Datei ist leer',
  /** @param why another fault */
  inFile: (name: string, why: string) => `${name}: ${why}`,

  // keys
  noFingerprint: (given: string) => `--key ${given}: kein Fingerabdruck`,
  noKey: (given: string) =>
    `--key ${given}: weder ein Fingerabdruck noch eine Datei mit einem öffentlichen Ed25519-Schlüssel`,
  noFingerprintInRow: (list: string, row: number) => `--keys ${list} Zeile ${row}: kein Fingerabdruck`,
  noTermInRow: (list: string, row: number) =>
    `--keys ${list} Zeile ${row}: from=, until= und revoked= nehmen eine Zeit nach ISO 8601, until nach from`,

  // witness log
  oneCheckpoint: (usage: string) => `ein Sicherungspunkt, und womit er verglichen wird; ${usage}`,
  oneStamp: (usage: string) => `request oder take, mit der Datei eines Sicherungspunkts; ${usage}`,
  needsLogKey: (usage: string) =>
    `--key fehlt: der Schlüssel des Protokolls, etwa witness/log.pem einer Aufzeichnung; ${usage}`,
  noProof: (name: string) => `${name}: trägt kein Kontrollprotokoll, das stimmt; verify sagt, warum`,
  noLog: (name: string) => `${name}: kein gespeichertes Kontrollprotokoll, das mit einer Zeile endet`,
  noCheckpoint: (name: string) => `${name}: kein Sicherungspunkt`,

  // job
  notAJob: (name: string) => `--job ${name}: die Datei: keine Blattdatei`,
  job: (name: string, why: string) => `--job ${name}: die Datei: ${why}`,
  jobEntry: (name: string, entry: string, why: string) => `--job ${name}: ${entry}: ${why}`,
  noRated: 'der Auftrag hat keinen Höchstdruck; --rated angeben',
  noCeiling: (rated: number, u: number) => `--rated ${rated} lässt mit U ${u} keine Obergrenze über null`,
  workingOver: (working: number, rated: number) =>
    `der Arbeitsdruck ${working} liegt über dem Höchstdruck ${rated}`,

  // trace
  damagedLog: (page: number, byte: number, what: string) =>
    `Block ${page} (Byte ${byte}) des Eingabeprotokolls ist beschädigt: ${what}`,
  headlessLog: 'der erste Block des Eingabeprotokolls ist nicht lesbar',
  noTrace: (why: string) =>
    `weder ein Eingabeprotokoll, noch eine CSV mit time_s und pressure_bar, noch ein Mitschnitt: ${why}`,
  noHello:
    'der Mitschnitt enthält keine ganze Begrüßung, nichts sagt also, was seine Zählschritte bedeuten; --job angeben',
  noFrame: 'keine Zeile des Geräteprotokolls ist darin',
  noSample: 'der Mitschnitt enthält keinen Messwert',

  // CSV
  columnTwice: (column: string) => `Zeile 1: Spalte ${column} ist zweimal da`,
  unknownColumn: (column: string, known: string) =>
    `Zeile 1: unbekannte Spalte ${column}; bekannt sind ${known}`,
  columnMissing: (column: string) => `Zeile 1: Spalte ${column} fehlt`,
  tooManyTemperatures: (most: number) => `Zeile 1: mehr als ${most} Temperaturspalten`,
  notANumber: (row: number, what: string, given: string) => `Zeile ${row}: ${what} ${given} ist keine Zahl`,
  outside: (row: number, what: string, given: string, lo: number, hi: number) =>
    `Zeile ${row}: ${what} ${given} liegt außerhalb ${lo} bis ${hi}`,
  temperature: 'Temperatur',
  noRows: 'Zeile 2: keine Datenzeilen',
  columns: (row: number, n: number, header: number) => `Zeile ${row}: ${n} Spalten, der Kopf hat ${header}`,
  noTime: (row: number) => `Zeile ${row}: time_s ist leer`,
  notLater: (row: number, given: string) =>
    `Zeile ${row}: time_s ${given} ist nicht später als in der Zeile davor`,
  noPressure: 'Zeile 2 bis zum Ende: pressure_bar ist in jeder Zeile leer',
};

export const REPLAY = {
  /** @param what the fault of a cell, with its row */
  unusable: (what: string) => `${what}; gilt als Messwert, der nicht zu brauchen ist`,
  moreUnusable: (cells: number) => `${cells} weitere Zellen sind nicht zu brauchen`,
};

export const USAGE = {
  replay:
    'Aufruf: replay --trace FILE [--job JOB.json] [--rated BAR] [--working BAR] [--u BAR] [--line LINE] [--tap TAP] [--out RESULT.json]',
  verify: 'Aufruf: verify FILE [--key FINGERPRINT|KEY.pem[=NAME]]… [--keys LIST] [--quick] [--json]',
  checkpoint:
    'Aufruf: checkpoint CHECKPOINT.txt [RECORD.steadybar.zip|OTHER.txt] [--log LEAVES.txt] [--key LOG.pem]',
  stamp: 'Aufruf: stamp request CHECKPOINT.txt | stamp take CHECKPOINT.txt ANSWER.tsr',
  extract: 'Aufruf: extract --to FOLDER [--key FINGERPRINT=NAME]… FILE|FOLDER…',
};

/** Names of keys that were given without one. */
export const KEYS = { given: 'angegebener Schlüssel', listed: 'Schlüssel der Liste' };

export const EXTRACT = {
  refused: (file: string, why: string) => `abgelehnt  ${file}: ${why}`,
  tooLarge: 'zu groß',
  cannotBeRead: 'was darin ist, lässt sich nicht in Tabellen bringen',
  badRun: 'der Name ihres Laufs ist kein Name',
  otherKey: 'ein anderer Schlüssel hat eine Aufzeichnung desselben Laufs versiegelt',
  again: (file: string, run: string) => `nochmal    ${file}: ${run}`,
  taken: (file: string, run: string) => `genommen   ${file}: ${run}`,
  takenUnknown: (file: string, run: string) => `genommen   ${file}: ${run}, unbekannte Signatur`,
  jobs: (n: number, to: string) => `${n} Aufträge in ${to}`,
  jobsRefused: (n: number, to: string, refused: number) =>
    `${n} Aufträge in ${to}, ${refused} Dateien abgelehnt`,
};

export const LOG = {
  runs: (leaves: number, opened: number, unsealed: number, twice: number) =>
    `das Protokoll: ${leaves} Blätter, ${opened} Läufe geöffnet, ${unsealed} davon nicht versiegelt, ${twice} mehrmals versiegelt`,
  unsealed: (at: string) => `  nicht versiegelt: geöffnet ${at}`,
};

export const STAMP = {
  requested: (query: string, text: string) =>
    `${query} ist die Anfrage: an eine Stelle senden (RFC 3161; curl -H "Content-Type: application/timestamp-query" --data-binary @${query} URL). ${text} ist, was gestempelt wird.`,
  form: 'keine Antwort nach RFC 3161, oder nicht über eine SHA-256',
  refused: 'die Stelle hat keinen Stempel gegeben',
  other: 'der Stempel gehört zu etwas anderem als diesem Sicherungspunkt',
  notAsked: 'die Antwort gehört nicht zu dieser Anfrage: ihre Nonce ist eine andere',
  taken: (at: string, text: string, answer: string) =>
    `gestempelt ${at}, wie die Antwort sagt. Ihre Signatur: openssl ts -verify -data ${text} -in ${answer} -CAfile THEIRS.pem. Die App nimmt sie unter Kontrollprotokoll auf.`,
};

const APART_FROM: Readonly<Record<ApartFrom, string>> = {
  clock: 'Uhren sind uneins',
  device: 'die Zeilen des Geräts passen nicht zum Setup',
  papers: 'die Papiere passen nicht zum Setup',
};

const HEADLINE: Readonly<Record<Verdict, string>> = {
  valid: 'GÜLTIG: mit einem bekannten Schlüssel signiert, und jedes Byte ist, wie es signiert wurde',
  changed: 'VERÄNDERT: das ist nicht die Aufzeichnung, die signiert wurde',
  refused: 'ABGELEHNT: das ist keine Aufzeichnung, die sich hier prüfen lässt',
  'unknown-signer':
    'UNBEKANNTE SIGNATUR: ganz und unverändert; sie oder ein Nachtrag ist mit einem hier nicht bekannten Schlüssel signiert',
  'not-derived':
    'NICHT NACHGERECHNET: mit einem bekannten Schlüssel signiert, und jedes Byte ist, wie es signiert wurde; ob ihre Aussagen aus ihren Messwerten folgen, wurde nicht gezeigt',
  incomplete: 'UNVOLLSTÄNDIG: ein Teil der Aufzeichnung fehlt',
  practice:
    'ÜBUNGSAUFZEICHNUNG: an der Übungsanlage aufgezeichnet; keine Aufzeichnung eines Auftrags, wer auch signiert hat',
};

const READ_BY: Readonly<Record<MapKind, string>> = {
  registers: 'nach einer Registerkarte von einem Bus gelesen; Zeiten sind die des Computers',
  columns: 'UNGEPRÜFTE LEITUNG, nach einer Spaltenkarte gelesen; Zeiten sind die des Computers',
};

const PAGE_WHY: Readonly<Record<Extract<Finding, { f: 'pages' }>['why'], string>> = {
  crc: 'verändert (CRC)',
  torn: 'abgeschnitten',
  missing: 'fehlend',
  order: 'nicht in der Reihe',
  chain: 'nicht der, den der nächste Block nennt (Kette)',
  form: 'nicht lesbar',
  version: 'aus einer späteren Version',
  run: 'aus einem anderen Lauf',
  rewritten: 'irgendwo in dieser Spanne neu gemacht, samt Kette',
  end: 'am Ende fehlend',
  cut: 'fehlend: die Datei endet hier',
};

/** What the verify command prints. Codes stand as they are: the reader may look them up in docs/record.md. */
export const verifyWords = (f: Format) => {
  const iso = (ms: number | null): string => (ms === null ? 'nicht vermerkt' : new Date(ms).toISOString());
  return {
    headline: (verdict: Verdict, but: Reservations | null): string =>
      [
        HEADLINE[verdict],
        but?.failed
          ? 'das Nachrechnen brach ab: entweder enthält die Aufzeichnung, was sich nicht nachvollziehen lässt, oder dieses Programm hat einen Fehler'
          : '',
        but?.unjudged ? 'Urteile nicht nachgerechnet' : '',
        but === null || but.otherwise.length === 0
          ? ''
          : `nicht, was dieses Programm aus der Aufzeichnung macht: ${but.otherwise.join(', ')}`,
        but === null || but.notMade.length === 0 ? '' : `nicht neu gemacht: ${but.notMade.join(', ')}`,
        ...(but?.apart ?? []).map((from) => APART_FROM[from]),
      ]
        .filter((t) => t !== '')
        .join('; '),
    progress: (share: number) => `macht die Messkurve neu, ${f.percent(share)}`,

    /** @param key shows a fingerprint */
    finding(finding: Finding, key: (fingerprint: string) => string): string {
      switch (finding.f) {
        case 'refused':
          return `${finding.why} bei Byte ${finding.offset}`;
        case 'container':
          return `Behälter: ${finding.why} bei Byte ${finding.offset}${finding.file === null ? '' : `, ${finding.file}`}`;
        case 'missing':
          return `fehlt: ${finding.file}`;
        case 'strange':
          return `nicht von dieser Aufzeichnung: ${finding.file}`;
        case 'file':
          return `verändert: ${finding.file}${finding.offset === null ? '' : ` bei Byte ${finding.offset}`}`;
        case 'practice':
          return 'sagt selbst, dass sie eine Übungsaufzeichnung ist';
        case 'manifest':
          return `manifest.json: ${finding.why}`;
        case 'entries':
          return `${finding.count} der Art ${finding.what} haben nicht ihre Form; zuerst in Block ${finding.page}, Laufzeit ${answerClock(finding.tUs)}`;
        case 'scale':
          return `das Setup von Block ${finding.page}, Laufzeit ${answerClock(finding.tUs)}, liest Kanal ${finding.channel} nach einer anderen Skala, als das Gerät dafür nannte`;
        case 'translation':
          return `${finding.count} Messwerte sind nicht, was die Lesekarte aus den rohen Bytes daneben macht; zuerst in Block ${finding.page}, Laufzeit ${answerClock(finding.tUs)}`;
        case 'setup':
          return `das Setup von Block ${finding.page}, Laufzeit ${answerClock(finding.tUs)}, folgt nicht aus sich selbst: ${finding.what}${finding.channel === null ? '' : ` von Kanal ${finding.channel}`}`;
        case 'contradiction':
          return `Manifest und Blöcke widersprechen einander in: ${finding.members.join(', ')}`;
        case 'pages': {
          const { page, pages, why, fromUs, toUs } = finding;
          const which = pages === 1 ? `Block ${page}` : `Blöcke ${page} bis ${page + pages - 1}`;
          return `${which}: ${PAGE_WHY[why]}; Laufzeit ${answerClock(fromUs)} bis ${answerClock(toUs)}`;
        }
        case 'judgement':
          if (finding.moved > 0)
            return `Ereignisse: ${finding.moved} aufgezeichnete stehen in anderer Reihenfolge, als das Beurteilen ergibt (${finding.kinds.join(', ')})`;
          return `Ereignisse: ${finding.recorded} aufgezeichnete finden sich nicht wieder, ${finding.again} andere schon (${finding.kinds.join(', ')})`;
        case 'witness':
          return `Kontrollprotokoll: ${finding.why}`;
        case 'addition':
          return `Nachtrag ${finding.number}: ${finding.why}`;
        case 'addition-signer':
          return `Nachtrag ${finding.number} ist mit Schlüssel ${key(finding.fingerprint)}${finding.why === undefined ? '' : `, der für seine Zeit nicht zählt: ${finding.why}`}`;
        case 'signer':
          return `Schlüssel ${key(finding.fingerprint)}${finding.why === undefined ? '' : ` zählt für seine Zeit nicht: ${finding.why}`}`;
      }
    },

    note: (text: string) => `Notiz: ${text}`,
    remark(r: Remark, key: (fingerprint: string) => string): string {
      switch (r.r) {
        case 'interrupted':
          return 'der Lauf wurde unterbrochen: niemand hat ihn beendet';
        case 'resumed':
          return `der Lauf wurde unterbrochen und wieder aufgenommen, ${r.times}-mal; die Lücken sind markiert`;
        case 'damaged-at-sealing':
          return `${r.pages} Blöcke waren auf dem Computer beschädigt, bevor die Aufzeichnung versiegelt wurde`;
        case 'no-job':
          return 'kein Auftragsblatt gehört zu diesem Lauf';
        case 'not-logged':
          return 'in keinem Kontrollprotokoll vermerkt';
        case 'logged':
          return `vermerkt in ${r.origin}: geöffnet ${iso(r.openedUtcMs)}, ${r.heads} Köpfe, beendet ${iso(r.endedUtcMs)}, versiegelt ${iso(r.sealedUtcMs)} nach seiner Uhr; Bäume von ${r.before} und ${r.after} Blättern`;
        case 'no-witness':
          return 'kein Gegenzeichner: niemand außer dem Computer begrenzt, wann';
        case 'bounded': {
          const who =
            r.fingerprint === null
              ? 'ein Zeitstempel (seine Signatur: openssl ts -verify)'
              : r.name === null
                ? `ein hier nicht bekannter Gegenzeichner, Schlüssel ${key(r.fingerprint)}`
                : `der Gegenzeichner ${r.name}, Schlüssel ${key(r.fingerprint)}`;
          return r.side === 'not-before'
            ? `nach ${iso(r.utcMs)} geöffnet, sagt ${who}`
            : `vor ${iso(r.utcMs)} versiegelt, sagt ${who}`;
        }
        case 'additions':
          return `${r.count} signierte Nachträge`;
        case 'no-sums':
          return 'keine signierten Prüfsummen: die abgeleiteten Dateien wurden neu gemacht und verglichen';
        case 'states-apart':
          return r.count === 1
            ? `ein Zustand des Programms folgt nicht aus den Blöcken davor und wurde nicht benutzt; in Block ${r.page}, Laufzeit ${answerClock(r.tUs)}`
            : `${r.count} Zustände des Programms folgen nicht aus den Blöcken davor und wurden nicht benutzt; der erste in Block ${r.page}, Laufzeit ${answerClock(r.tUs)}`;
        case 'derived-otherwise':
          return `${r.file} ist, wie signiert; dieses Programm würde sie anders machen`;
        case 'not-judged':
          return `Urteile nicht nachgerechnet (${r.why}${r.page === undefined ? '' : `, in Block ${r.page}`})`;
        case 'not-derived':
          return `${r.file} ist, wie signiert; ${r.failed ? 'das Neumachen brach ab' : 'sie wurde hier nicht neu gemacht'}`;
        case 'clock-back':
          return `die Uhr lief zurück: ${r.what}${r.at === 0 ? '' : ` ${r.at}`}${r.times === 1 ? '' : `, ${r.times}-mal`}, um ${Math.round(r.seconds)} s`;
        case 'clock-apart':
          return `Uhren sind uneins: ${r.what}, um ${Math.round(r.seconds)} s${r.tUs === undefined ? '' : ` bei Laufzeit ${answerClock(r.tUs)}`}`;
        case 'gaps':
          return `Lücken in den Messwerten: ${r.count}, die längste von ${Math.round(r.seconds)} s bis Laufzeit ${answerClock(r.tUs)}`;
        case 'read-by-map':
          return `${r.beside ? 'Temperaturen des zweiten Adapters ' : ''}${READ_BY[r.map]}; der Quelle fehlt: ${r.lacks.join(', ')}`;
        case 'device-limit':
          return `das Gerät bewachte ${r.deviceBar.toFixed(3)} bar, die Obergrenze des Setups ist ${r.ceilingBar.toFixed(3)} bar`;
        case 'device-counts':
          return `das Gerät bewachte ${r.counts} Zählschritte als ${r.mbar} mbar, ${r.lines}-mal; nach dem Setup sind das ${r.expected} Zählschritte`;
        case 'papers-apart':
          return `die mitversiegelten Papiere sind nicht die der Setups: ${r.what.join(', ')}`;
        case 'key-followed':
          return `der Schlüssel folgt auf Schlüssel ${key(r.fingerprint)} (${r.reason}), ${r.endorsed ? 'der für ihn bürgt' : 'der nicht für ihn bürgt'}`;
      }
    },

    run: (run: string, job: string | null) => `Lauf ${run}, Auftrag ${job ?? 'keiner'}`,
    recorded: (from: string | null, to: string | null) =>
      `aufgezeichnet ${from ?? 'nicht bekannt'} bis ${to ?? 'nicht bekannt'} nach der Uhr des Computers`,
    sealed: (samples: number, pages: number, when: string) =>
      `${samples} Messwerte in ${pages} Blöcken; versiegelt ${when}`,
    key: (key: string) => `Schlüssel ${key}`,
    keyKnown: (key: string, name: string) => `Schlüssel ${key}, bekannt als ${name}`,
  };
};
