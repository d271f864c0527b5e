import type { TraceWindow } from '../engine/messages.ts';
import { PLACE_TITLE, SECOND_TITLE } from '../words/terms.ts';
import { UI } from '../words/ui.ts';
import { toldApart } from './told-apart.ts';
import { dashOf } from './trace-dashes.ts';

type Series = Pick<TraceWindow['series'][number], 'name' | 'place'>;

/** What each line of the trace is of, for its legend and beside its value. */
export function seriesNames(series: readonly Series[]): readonly string[] {
  return toldApart(series.map(seriesName));
}

function seriesName({ name, place }: Series): string {
  switch (name) {
    case 'bar':
      return UI.pressure;
    case 'second':
      return place !== null && Object.hasOwn(SECOND_TITLE, place)
        ? SECOND_TITLE[place as keyof typeof SECOND_TITLE]
        : UI.pressure;
    case 'temperature':
      return place !== null && Object.hasOwn(PLACE_TITLE, place)
        ? PLACE_TITLE[place as keyof typeof PLACE_TITLE]
        : UI.temperature;
    default:
      return name satisfies never;
  }
}

/** Dashes tell the temperatures of a window apart; a pressure is drawn in one piece. */
export function seriesDash(series: readonly Series[], i: number): readonly number[] {
  if (series[i]?.name !== 'temperature') return [];
  return dashOf(1 + series.slice(0, i).filter((s) => s.name === 'temperature').length);
}
