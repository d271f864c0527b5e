import type { Limits } from '../../job/setup.ts';
import type { DisplayUnits, Format } from '../create-format.ts';

/** What speaks against going to another stage; said before the step, recorded with its reason. */
export type DoubtCode =
  | 'urgent-alarm'
  | 'pressure-unknown'
  | 'over-ceiling'
  | 'over-working'
  | 'under-floor'
  | 'under-working'
  | 'was-over-rated'
  | 'packer-not-inspected'
  | 'cure-not-met'
  | 'cure-not-judged'
  | 'no-witness'
  | 'under-pressure'
  | 'no-rebound'
  | 'rebound-unseen'
  | 'not-zeroed'
  | 'line-pressed'
  | 'reads-low'
  | 'loss-suspected'
  | 'reading-jumped'
  | 'supply-over-ceiling'
  | 'supply-creeps'
  | 'checklist-open';

export const STAGE_DOUBT: Record<DoubtCode, string> = {
  'urgent-alarm': 'Ein dringender Alarm steht an.',
  'pressure-unknown': 'Der Druck ist jetzt nicht bekannt.',
  'over-ceiling': 'Der Druck ist über der Obergrenze.',
  'over-working': 'Der Druck ist über dem Arbeitsdruck, und die Reaktionswärme hebt ihn noch.',
  'under-floor': 'Der Druck ist unter dem Mindestdruck: der Kurzliner löst sich vielleicht von der Wand.',
  'under-working':
    'Der Druck ist weit unter dem Arbeitsdruck: der Kurzliner liegt vielleicht nicht an, und späteres Nachfüllen ist von einem Leck nicht zu trennen.',
  'was-over-rated':
    'Der Packer war in diesem Lauf über dem Höchstdruck: überdehnter Gummi kann darunter bersten.',
  'packer-not-inspected':
    'Der Packer war in einem früheren Lauf über dem Höchstdruck, und seither ist keine Begutachtung eingetragen: begutachten, bevor er an einen Schlauch kommt.',
  'cure-not-met':
    'Die Härtezeit laut Datenblatt ist an der kältesten wahrscheinlichen Stelle nicht erreicht (vorsichtige Rechnung).',
  'cure-not-judged':
    'Aushärtung wird hier nicht beurteilt: das Harz härtet durch Licht. Ob es hart ist, sagen Rückstellprobe und Augenschein.',
  'no-witness': 'Die bei Rohrtemperatur gelagerte Rückstellprobe wurde nicht als hart notiert.',
  'under-pressure': 'Die Leitung ist nicht bei null zu sehen.',
  'no-rebound':
    'Der Rückdrucktest wurde nicht bestanden: eine Leitung bei null ist kein leerer Packer. Ablasshahn zu, warten, sehen, dass sie bei null bleibt.',
  'rebound-unseen':
    'Der Sensor sieht den Packer hier nicht: eine Leitung, die bei null bleibt, sagt nichts über ihn.',
  'line-pressed':
    'Die Leitung steht unter Druck, bevor Luft angesagt war: der Zulufthahn leckt oder ist offen, oder der Packer war nicht leer.',
  'reads-low':
    'Der Sensor zeigt zu wenig: er ist nach unten gesprungen, oder das Manometer zeigt mehr. Es ist mehr Luft da, als die Zahl sagt.',
  'loss-suspected': 'Druck ging verloren, und niemand hat gefunden, wo: Schlauch ab oder Packer gerissen?',
  'reading-jumped':
    'Der Sensor ist gesprungen und seither nicht mit dem Manometer verglichen: seine Zahl ist vielleicht falsch.',
  'supply-over-ceiling':
    'Die Zuluft stand über der Obergrenze: Druckregler herunterdrehen und nochmal testen.',
  'supply-creeps': 'Die Zuluft steigt nach: offen gelassen, geht sie über die Obergrenze.',
  'checklist-open': 'Sicherheitspunkte der Checkliste sind nicht beantwortet.',
  'not-zeroed': 'Der Sensor wurde nicht bei sichtbar offener Kupplung genullt.',
};

/** What a doubt is seen by; as much of the moment as it needs. */
export interface DoubtAt {
  readonly bar: number | null;
  /** The highest of the run, bar. */
  readonly peakBar: number | null;
  readonly limits: Pick<Limits, 'ratedBar' | 'ceilingBar' | 'workingBar' | 'floorBar'> | null;
}

export function doubts(f: Format) {
  /** What is read beside what it is held against: '1,20 bar, Arbeitsdruck 1,50'; null: it has no figures, or they are not known. */
  function doubtFigures(code: DoubtCode, { bar, peakBar, limits }: DoubtAt, u: DisplayUnits): string | null {
    const beside = (what: string, limit: number | null | undefined): string | null =>
      bar === null || limit == null ? null : `${f.pressure(bar, u)}, ${what} ${f.pressureNumber(limit, u)}`;
    switch (code) {
      case 'over-working':
      case 'under-working':
        return beside('Arbeitsdruck', limits?.workingBar);
      case 'under-floor':
        return beside('Mindestdruck', limits?.floorBar);
      case 'over-ceiling':
        return beside('Obergrenze', limits?.ceilingBar);
      case 'was-over-rated':
        return peakBar === null || limits === null
          ? null
          : `${f.pressure(peakBar, u)}, Höchstdruck ${f.pressureNumber(limits.ratedBar, u)}`;
      case 'under-pressure':
      case 'line-pressed':
        return bar === null ? null : f.pressure(bar, u);
      default:
        return null;
    }
  }

  return {
    STAGE_DOUBT,
    doubtFigures,
    /** The doubt with its figures before it. */
    doubtText(code: DoubtCode, at: DoubtAt, u: DisplayUnits): string {
      const figures = doubtFigures(code, at, u);
      return figures === null ? STAGE_DOUBT[code] : `${figures}. ${STAGE_DOUBT[code]}`;
    },
    /** A reason as it is recorded, with the figures in spite of which the step was taken. */
    reasonWith: (reason: string, figures: readonly string[]): string =>
      figures.length === 0 ? reason : `${reason} (${figures.join('; ')})`,
  };
}
