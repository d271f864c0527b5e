import type { AlarmValues } from '../../watch/events.ts';
import type { ProbeDoubt } from '../../watch/signal/probe-doubt.ts';
import type { Format } from '../create-format.ts';
import { hasCase, type Texts } from '../said/alarm-cases.ts';
import { PLACE } from './terms.ts';

/** Sentences of the alarms of the cure: its temperatures, pot life and the batch. The others: alarms.ts. */

type CureAlarm = 'temperature-lost' | 'cold' | 'pot-life' | 'batch-slow';

/** What the witness cup shows; a slow batch with its time against the usual one where that is known. */
const CUP = {
  'no-reaction': {
    is: 'Im Probenbecher ist keine Reaktion zu sehen: steckt sein Fühler in der Mischung? Sonst ist das Harz vielleicht tot oder falsch gemischt: erst entlüften, wenn die Rückstellprobe hart ist',
    was: 'im Probenbecher war keine Reaktion zu sehen',
  },
  'cooler-than-sleeve': {
    is: 'Der Kurzliner war heißer als der Probenbecher: hängt der Fühler des Bechers in der Luft, oder sind die beiden vertauscht? Bis das klar ist, zählt der kältere',
    was: 'der Kurzliner war heißer als der Probenbecher: Fühler in der Luft oder die beiden vertauscht',
  },
} as const;

const LOST = {
  now: 'ist ausgefallen, die Härtezeit zählt wie bei der kältesten wahrscheinlichen Temperatur: Fühler und Stecker prüfen',
  was: 'war ausgefallen, die Härtezeit zählte wie bei der kältesten wahrscheinlichen Temperatur',
};
/** A probe that gives a number which is not believed, by its cause. */
const DOUBTED: Readonly<Record<ProbeDoubt, { readonly now: string; readonly was: string }>> = {
  'stands-still': {
    now: 'bewegt sich seit Minuten gar nicht, die Härtezeit zählt wie bei der kältesten wahrscheinlichen Temperatur: Fühler und Stecker prüfen',
    was: 'bewegte sich minutenlang gar nicht, die Härtezeit zählte wie bei der kältesten wahrscheinlichen Temperatur',
  },
  leapt: {
    now: 'ist gesprungen wie bei keinem Rohr, die Härtezeit zählt wie bei der kältesten wahrscheinlichen Temperatur: Fühler und Stecker prüfen, dann in der warmen Hand vergleichen',
    was: 'war gesprungen wie bei keinem Rohr, die Härtezeit zählte wie bei der kältesten wahrscheinlichen Temperatur',
  },
  'over-ground': {
    now: 'liegt weit über der Temperatur des Erdreichs auf dem Auftragsblatt, die Härtezeit zählt nach dem Auftragsblatt: nachsehen, wo der Fühler liegt, oder das Auftragsblatt berichtigen',
    was: 'lag weit über der Temperatur des Erdreichs auf dem Auftragsblatt, die Härtezeit zählte nach dem Auftragsblatt',
  },
};

/** What is wrong with a probe's number. */
const doubted = ({ cause }: AlarmValues) => (hasCase(DOUBTED, cause) ? DOUBTED[cause] : LOST);

export function cureAlarms(f: Format): Record<CureAlarm, Texts> {
  const usual = (times: number | undefined): string =>
    times === undefined ? '' : `, ${f.fixed(times, 1)}-mal die übliche Zeit`;

  return {
    'temperature-lost': {
      now: (v) =>
        v.place === 'cup'
          ? 'Der Fühler des Probenbechers ist ausgefallen, sein Urteil über die Charge bleibt stehen: Fühler und Stecker prüfen'
          : `Temperatur${v.place === undefined ? '' : ` (${PLACE[v.place]})`} ${doubted(v).now}`,
      was: (v) =>
        v.place === 'cup'
          ? 'der Fühler des Probenbechers war ausgefallen'
          : `Temperatur${v.place === undefined ? '' : ` (${PLACE[v.place]})`} ${doubted(v).was}`,
    },
    cold: {
      now: (v, u) =>
        v.c === undefined
          ? 'Die kälteste wahrscheinliche Stelle ist unter der tiefsten Temperatur des Datenblatts, keine Härtezeit zählt: Rohr wärmen oder warten'
          : `${f.temperature(v.c, u)} ist unter der tiefsten Temperatur des Datenblatts, keine Härtezeit zählt: Rohr wärmen oder warten`,
      was: (v, u) =>
        v.c === undefined
          ? 'die kälteste wahrscheinliche Stelle war unter der tiefsten Temperatur des Datenblatts, keine Härtezeit zählte'
          : `${f.temperature(v.c, u)} war unter der tiefsten Temperatur des Datenblatts, keine Härtezeit zählte`,
    },
    'pot-life': {
      now: (v) => {
        const act = 'Kurzliner anlegen, oder entlüften und herausnehmen, bevor er hart wird';
        if (v.seconds === undefined) return `Topfzeit endet bald: ${act}`;
        return v.seconds <= 0
          ? `Topfzeit ist um: ${act}`
          : `Topfzeit endet in ${f.duration(v.seconds)}: ${act}`;
      },
      was: (v) =>
        v.seconds !== undefined && v.seconds > 0
          ? `Topfzeit lief ab, ${f.duration(v.seconds)} blieben`
          : 'Topfzeit lief ab oder war um',
    },
    'batch-slow': {
      now: (v) => {
        if (hasCase(CUP, v.cause)) return CUP[v.cause].is;
        return `Probenbecher: langsame Charge${usual(v.times)}. Falsch gemischt, alter oder kalter Härter? Erst entlüften, wenn die Rückstellprobe hart ist`;
      },
      was: (v) =>
        hasCase(CUP, v.cause)
          ? CUP[v.cause].was
          : `der Probenbecher zeigte eine langsame Charge${usual(v.times)}`,
    },
  };
}
