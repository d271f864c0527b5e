import { describe, expect, it } from 'vitest';
import { dashedPen } from './trace-dashes.ts';

/** Runs that are drawn, each with its points. */
function runs(points: readonly (readonly [number, number] | null)[], dash: readonly number[], wide: number) {
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
  );
  for (const p of points) {
    if (p === null) pen.lift();
    else pen.point(...p);
  }
  pen.end();
  return drawn;
}

describe('dashes', () => {
  it('are measured along the line, however many points it has', () => {
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
  });

  it('on a steep line they follow its length, not its width', () => {
    expect(
      runs(
        [
          [0, 0],
          [0, 20],
        ],
        [6, 4],
        0,
      ),
    ).toEqual([
      [
        [0, 0],
        [0, 6],
      ],
      [
        [0, 10],
        [0, 16],
      ],
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

  it('begin anew after a gap', () => {
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
