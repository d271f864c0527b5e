import { expect, it } from 'vitest';
import type { TraceWindow } from '../engine/messages.ts';
import { PRESSURE_CHANNEL, setupOf } from '../job/testing/givens.ts';
import { english } from '../words/testing/english.ts';
import type { Values } from './open.ts';
import { PAPER, recordPicture } from './pictures.ts';

const END = english.picture.PICTURE.sensorEnd;

/** The picture of a run of three readings, the second the highest, by a sensor that ends at 4 bar. */
function pictureTo(bar: number): string {
  const pressures = Float32Array.from([1, bar, 1]);
  const window: TraceWindow = {
    fromS: 0,
    toS: 2,
    s: Float64Array.from([0, 1, 2]),
    series: [{ name: 'bar', place: null, channel: -1, min: pressures, max: pressures }],
    readings: 3,
  };
  return recordPicture(
    { events: [], setups: [setupOf({ channels: [PRESSURE_CHANNEL] })], firstUs: 0, lastS: 2 },
    { window: () => window } as unknown as Values,
    { fromS: 0, toS: 2, width: 400, height: 200, title: '', ink: PAPER },
    english,
  );
}

it('a second pressure is a thin line with its name, which moves no scale', () => {
  const columns = (bar: number) => ({
    min: Float32Array.from([bar, bar, bar]),
    max: Float32Array.from([bar, bar, bar]),
  });
  const picture = (supply: number) =>
    recordPicture(
      { events: [], setups: [], firstUs: 0, lastS: 2 },
      {
        window: () => ({
          fromS: 0,
          toS: 2,
          s: Float64Array.from([0, 1, 2]),
          series: [
            { name: 'bar', place: null, channel: -1, ...columns(1) },
            { name: 'second', place: 'outlet-pressure', channel: -2, ...columns(supply) },
          ],
          readings: 3,
        }),
      } as unknown as Values,
      { fromS: 0, toS: 2, width: 400, height: 200, title: '', ink: PAPER },
      english,
    );
  const lines = (svg: string) =>
    [...svg.matchAll(/d="(M[^"]+)" fill="none" stroke="[^"]+" stroke-width="([\d.]+)" stroke-linejoin/g)].map(
      (m) => m.slice(1),
    );
  const [first, second] = lines(picture(0.9));
  expect(Number(first![1])).toBeGreaterThan(Number(second![1]));
  expect(first![0]).not.toBe(second![0]);
  expect(picture(0.9)).toContain(english.terms.SECOND_TITLE['outlet-pressure']);
  // At the scale's end, wherever over it the supply stands.
  expect(lines(picture(6))[0]).toEqual(first);
  expect(picture(6)).toBe(picture(9));
});

it('what stands past the end of the sensor is drawn at that end, which is named then and only then', () => {
  expect(pictureTo(3.9)).not.toContain(END);
  expect(pictureTo(4.12)).toContain(`${END} 4.00`);
  // However far past it a reading is said to be: the line is the same.
  expect(pictureTo(9)).toBe(pictureTo(4.12));
});
