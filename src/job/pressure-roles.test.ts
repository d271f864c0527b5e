import { expect, it } from 'vitest';
import { pressureRoles } from './pressure-roles.ts';

const at = (...places: (string | null)[]) =>
  pressureRoles(places.map((place) => ({ quantity: 'press', place, signal: 'current' })));

it('goes by the pressure of packer or hose, and sets the regulator\u2019s outlet beside it, whichever comes first', () => {
  expect(at('hose')).toEqual(['pressure']);
  expect(at('hose', 'supply')).toEqual(['pressure', 'outlet-pressure']);
  expect(at('supply', 'packer')).toEqual(['outlet-pressure', 'pressure']);
  expect(at('supply')).toEqual(['pressure']);
  expect(at('supply', 'supply')).toEqual(['pressure', 'unused']);
});

it('takes a second sense line for a cross-check, and of three pressures two', () => {
  expect(at('packer', 'packer')).toEqual(['pressure', 'check-pressure']);
  expect(at('hose', 'packer')).toEqual(['pressure', 'check-pressure']);
  expect(at('hose', 'hose')).toEqual(['pressure', 'unused']);
  expect(at('hose', null)).toEqual(['pressure', 'unused']);
  expect(at('packer', 'supply', 'packer')).toEqual(['pressure', 'outlet-pressure', 'unused']);
});

it('goes by no voltage whose span nobody states while there is another, and leaves what is no pressure', () => {
  expect(
    pressureRoles([
      { quantity: 'press', place: 'hose', signal: 'voltage' },
      { quantity: 'press', place: 'hose', signal: 'ratio' },
      { quantity: 'temp', place: 'sleeve', signal: 'tc-k' },
    ]),
  ).toEqual(['unused', 'pressure', null]);
});
