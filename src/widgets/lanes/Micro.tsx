import { type MicroLadder, type MicroTones, microScene } from './micro.ts';
import { Shapes } from './Shapes.tsx';
import { type Course, sparklineScene } from './sparkline.ts';

/** Ladder and course of a run in small, for lists and for the strip. Their numbers stand beside them, in words. */

/** An upright ladder of a run's peak; red over rated. */
export function MicroLadderPicture(props: {
  ladder: MicroLadder;
  width?: number;
  height?: number;
  tones?: MicroTones;
  label?: string;
}) {
  const width = () => props.width ?? 24;
  const height = () => props.height ?? 46;
  return (
    <Shapes
      width={width()}
      height={height()}
      shapes={microScene(props.ladder, { x: 0, y: 0, w: width(), h: height() }, false, props.tones)}
      label={props.label}
      class="micro-ladder"
    />
  );
}

/** The ladder lying, from left to right, for the strip of the other pages. */
export function LyingLadder(props: {
  ladder: MicroLadder;
  width?: number;
  height?: number;
  tones?: MicroTones;
  label?: string;
}) {
  const width = () => props.width ?? 138;
  const height = () => props.height ?? 30;
  return (
    <Shapes
      width={width()}
      height={height()}
      shapes={microScene(props.ladder, { x: 0, y: 0, w: width(), h: height() }, true, props.tones)}
      label={props.label}
      class="lying-ladder"
    />
  );
}

/** A run's pressure from its first to its last second, to 1.1 times rated or its peak. */
export function Sparkline(props: {
  course: Course | null;
  limits: Parameters<typeof sparklineScene>[1];
  width?: number;
  height?: number;
  label?: string;
}) {
  const width = () => props.width ?? 200;
  const height = () => props.height ?? 46;
  return (
    <Shapes
      width={width()}
      height={height()}
      shapes={sparklineScene(props.course, props.limits, { x: 0, y: 0, w: width(), h: height() })}
      label={props.label}
      class="sparkline"
    />
  );
}
