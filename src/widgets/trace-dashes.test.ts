import { describe, expect, it } from 'vitest';
import { dashedPen } from './trace-dashes.ts';

/** Runs that are drawn, each with its points. */
function runs(
  points: readonly (readonly [number, number] | null)[],
  dash: readonly number[],
  wide: number,
  origin = 0,
) {
  const drawn: [number, number][][] = [];
  let run: [number, number][] | null = null;
  const pen = dashedPen(
    {
      point(x, y) {
        if (run === null) {
          run = [];
          drawn.push(run);
        }
        run.push([x, y]);
      },
      lift() {
        run = null;
      },
      end() {},
    },
    dash,
    wide,
    origin,
  );
  for (const p of points) {
    if (p === null) pen.lift();
    else pen.point(...p);
  }
  pen.end();
  return drawn;
}

describe('dashes', () => {
  it('lie at fixed places across, however many points the line has', () => {
    const ends = (points: [number, number][]) =>
      runs(points, [6, 4], 0).map((run) => [run[0]![0], run[run.length - 1]![0]]);
    const expected = [
      [0, 6],
      [10, 16],
      [20, 26],
    ];
    expect(
      ends([
        [0, 5],
        [27, 5],
      ]),
    ).toEqual(expected);
    expect(ends(Array.from({ length: 28 }, (_, x) => [x, 5]))).toEqual(expected);
    // A part drawn alone has them where the whole line has them.
    expect(
      ends([
        [13, 5],
        [27, 5],
      ]),
    ).toEqual([
      [13, 16],
      [20, 26],
    ]);
  });

  it('go along with a line that moves', () => {
    const before = runs(
      [
        [0, 5],
        [40, 5],
      ],
      [6, 4],
      0,
      0,
    );
    const after = runs(
      [
        [-3, 5],
        [37, 5],
      ],
      [6, 4],
      0,
      3,
    );
    expect(after.map((run) => run.map(([x, y]) => [x + 3, y]))).toEqual(before);
  });

  it('a steep stretch is drawn in one piece: a jump never hides in a space', () => {
    const [first, jump] = runs(
      [
        [0, 0],
        [8, 0],
        [8, 30],
        [9, 30],
      ],
      [6, 4],
      0,
    );
    expect(first).toEqual([
      [0, 0],
      [6, 0],
    ]);
    expect(jump).toEqual([
      [8, 0],
      [8, 30],
    ]);
  });

  it('leave room for the width of the line at their ends; one that is as short as the line is wide is a dot', () => {
    const [first, second] = runs(
      [
        [0, 5],
        [20, 5],
      ],
      [6, 4],
      2,
    );
    expect(first).toEqual([
      [0, 5],
      [4, 5],
    ]);
    expect(second![0]).toEqual([10, 5]);
    expect(
      runs(
        [
          [0, 5],
          [9, 5],
        ],
        [2, 3],
        2,
      ),
    ).toEqual([
      [
        [0, 5],
        [0, 5],
      ],
      [
        [5, 5],
        [5, 5],
      ],
    ]);
  });

  it('stay where they are after a gap', () => {
    const line = [[0, 5], [8, 5], null, [12, 5], [16, 5]] as const;
    expect(runs(line, [6, 4], 0)).toEqual([
      [
        [0, 5],
        [6, 5],
      ],
      [
        [12, 5],
        [16, 5],
      ],
    ]);
  });
});

it('an end far out of sight, or nowhere, holds nothing up', () => {
  const far = runs(
    [
      [-1e12, 10],
      [1e12, 10],
    ],
    [6, 4],
    2,
  );
  expect(far.length).toBeGreaterThan(100);
  expect(far.length).toBeLessThan(5000);
  for (const x of [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NaN])
    expect(
      runs(
        [
          [0, 10],
          [x, 10],
          [9, 10],
        ],
        [6, 4],
        0,
      ),
    ).toEqual(
      runs(
        [
          [0, 10],
          [9, 10],
        ],
        [6, 4],
        0,
      ),
    );
});
