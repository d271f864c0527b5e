import { inkOf } from '../../src/widgets/lanes/canvas.ts';
import { createLanesPainter, type LanesPicture, linesRect } from '../../src/widgets/lanes/painter.ts';
import { pictureOf, SIZES } from '../../src/widgets/lanes/testing/pictures.ts';
import { LiveBuffer } from '../../src/widgets/live-buffer.ts';
import { random } from './measure.ts';

/** In the page: the live lanes alone, late in a run of twelve hours. */

const HOURS = 12;
/** Moments a second, and readings in each. */
const MOMENT_S = 1 / 30;
const RATE = 50;

function longRun(): LiveBuffer {
  const buffer = new LiveBuffer();
  const noise = random(3);
  const n = 36_000;
  for (let from = 0; from < HOURS * 3600; from += n / 10) {
    const s = Float64Array.from({ length: n }, (_, i) => from + i / 10);
    const bar = Float32Array.from({ length: n }, () => 1.47 + 0.004 * noise());
    const temps = [0, 1, 2].map((channel) => ({
      channel,
      c: Float32Array.from({ length: n }, (_, i) => (i % 10 === 0 ? 10 + channel + noise() : Number.NaN)),
    }));
    buffer.append({ s, bar, second: null, temps });
  }
  return buffer;
}

/**
 * @param spanS seconds across the trace
 * @returns draws the next frame of 60 a second; every second one brings a moment of readings
 */
function lanesRun(host: HTMLElement, spanS: number): () => void {
  const layer = <T extends HTMLElement>(made: T): T => {
    made.className = 'lanes-layer';
    host.append(made);
    return made;
  };
  const canvas = () => layer(document.createElement('canvas'));
  const picture = pictureOf('hold', SIZES.laptop);
  const ground = canvas();
  const lines = layer(document.createElement('div'));
  const { x, y, w, h } = linesRect(picture.box);
  Object.assign(lines.style, { left: `${x}px`, top: `${y}px`, width: `${w}px`, height: `${h}px` });
  const painter = createLanesPainter({ ground, lines, over: canvas(), ladder: canvas() }, inkOf(host), 1);
  const buffer = longRun();
  const noise = random(5);
  let nowS = HOURS * 3600;
  let frame = 0;
  let bar = 1.47;
  return () => {
    if (frame++ % 2 === 0) {
      const s = Float64Array.of(nowS, nowS + 1 / RATE);
      // A swing that moves the pointer with each reading.
      bar = 1.47 + 0.02 * noise();
      buffer.append({ s, bar: Float32Array.of(bar, bar), second: null, temps: [] });
      nowS += MOMENT_S;
    }
    const next: LanesPicture = {
      ...picture,
      buffer,
      ladder: { ...picture.ladder, bar },
      lines: { ...picture.lines, spanS, nowS },
    };
    painter.draw(next, bar + (frame % 2 === 0 ? 0.004 : 0));
  };
}

Object.assign(globalThis, { lanesRun });
