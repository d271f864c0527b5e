import uPlot from 'uplot';
import { random } from './measure.ts';

/** In the page: a plot of the library as it comes, to measure the app's own beside. */

const BUCKETS = 1400;

/** Lowest and highest of each bucket, as the app draws them: a held pressure with its noise, two slow temperatures. */
function dataOf(fromS: number, toS: number, noise: () => number): uPlot.AlignedData {
  const margin = (toS - fromS) * 0.25;
  const step = (toS - fromS + 2 * margin) / BUCKETS;
  const x: number[] = [];
  const y: number[][] = [[], [], []];
  for (let i = 0; i < BUCKETS; i++) {
    const s = fromS - margin + i * step;
    x.push(s, s + step / 2);
    const bar = 1.25 + 0.05 * Math.exp(-s / 7200);
    y[0]!.push(bar - 0.004 - 0.004 * noise(), bar + 0.004 + 0.004 * noise());
    for (const [k, line] of y.slice(1).entries()) {
      const c = 12 + 8 * Math.exp(-s / 5000) + 0.1 * noise() + k;
      line.push(c, c);
    }
  }
  return [x, ...y];
}

/**
 * @param views seconds from … to, drawn one after the other
 * @returns draws the view of that number, with data of its own, as a hand on the app's trace does
 */
export function plainPlot(
  host: HTMLElement,
  size: { readonly width: number; readonly height: number },
  views: readonly (readonly [fromS: number, toS: number])[],
): (i: number) => void {
  const noise = random(7);
  const data = views.map(([fromS, toS]) => dataOf(fromS, toS, noise));
  let view: [number, number] = [0, 1];
  const plot = new uPlot(
    {
      ...size,
      legend: { show: false },
      cursor: { points: { show: false } },
      scales: {
        x: { time: false, range: () => view },
        p: { range: () => [0, 2.2] },
        c: { range: () => [5, 30] },
      },
      axes: [{}, { scale: 'p' }, { scale: 'c', side: 1, grid: { show: false } }],
      series: [
        {},
        { scale: 'p', stroke: '#111', width: 2, points: { show: false } },
        { scale: 'c', stroke: '#777', width: 1.5, points: { show: false } },
        { scale: 'c', stroke: '#777', width: 1.5, dash: [6, 4], points: { show: false } },
      ],
    },
    [[], [], [], []],
    host,
  );
  return (i) => {
    const [min, max] = views[i]!;
    view = [min, max];
    plot.batch(() => {
      plot.setData(data[i]!, false);
      plot.setScale('x', { min, max });
    });
  };
}

Object.assign(globalThis, { plainPlot });
