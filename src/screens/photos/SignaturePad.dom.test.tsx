import { cleanup, fireEvent, render, screen } from '@solidjs/testing-library';
import { afterEach, expect, it, vi } from 'vitest';
import { PHOTOS } from '../../words/photos.ts';
import { SignaturePad } from './SignaturePad.tsx';

afterEach(cleanup);

function pad() {
  const element = screen.getByTestId('pad') as unknown as SVGSVGElement;
  element.getBoundingClientRect = () => ({ left: 0, top: 0, width: 500, height: 180 }) as DOMRect;
  element.setPointerCapture = () => undefined;
  return element;
}

const stroke = (on: Element, pointerId: number, points: readonly (readonly [number, number])[]) => {
  const at = ([clientX, clientY]: readonly [number, number]) => ({ pointerId, button: 0, clientX, clientY });
  fireEvent.pointerDown(on, at(points[0]!));
  for (const p of points.slice(1)) fireEvent.pointerMove(on, at(p));
  fireEvent.pointerUp(on, at(points.at(-1)!));
};

it('a signature is drawn in the pad’s own units, a stroke can be taken back, an empty pad is refused', async () => {
  const onKeep = vi.fn(async () => true);
  render(() => <SignaturePad onKeep={onKeep} />);
  const on = pad();
  fireEvent.click(screen.getByTestId('keep-signature'));
  expect(screen.getByText(PHOTOS.blank)).toBeTruthy();
  stroke(on, 1, [
    [50, 50],
    [250, 90],
    [250.5, 90],
    [400, 1000],
  ]);
  stroke(on, 1, [[10, 10]]);
  fireEvent.click(screen.getByTestId('undo-stroke'));
  fireEvent.click(screen.getByTestId('keep-signature'));
  expect(screen.getByText(PHOTOS.nameNeeded)).toBeTruthy();
  fireEvent.input(screen.getByTestId('signed-name'), { target: { value: 'A. Hand' } });
  fireEvent.click(screen.getByTestId('keep-signature'));
  expect(onKeep).toHaveBeenCalledWith({
    as: 'crew',
    name: 'A. Hand',
    // What lies within a step of the point before says nothing more; nothing leaves the pad.
    strokes: [[100, 100, 500, 180, 800, 360]],
  });
  await Promise.resolve();
  expect(on.querySelectorAll('.pad-stroke')).toHaveLength(0);
});

it('a palm beside the pen draws nothing', () => {
  render(() => <SignaturePad onKeep={async () => false} />);
  const on = pad();
  fireEvent.pointerDown(on, { pointerId: 1, button: 0, clientX: 10, clientY: 10 });
  fireEvent.pointerDown(on, { pointerId: 2, button: 0, clientX: 400, clientY: 10 });
  fireEvent.pointerMove(on, { pointerId: 2, clientX: 300, clientY: 50 });
  expect(on.querySelectorAll('.pad-stroke')).toHaveLength(1);
  expect(on.querySelector('.pad-stroke')?.getAttribute('d')).toBe('M20 20h0');
});
