import { expect, it } from 'vitest';
import { blankPacker } from '../../job/packer-document.ts';
import { english } from '../../words/testing/english.ts';
import { packerTold } from './packer.ts';

it('of a packer its name and its serial number are told, where they are known', () => {
  const packer = { ...blankPacker('Long one'), notes: 'for us alone', reliefBar: 1.8 };
  const told = (serial: string) => packerTold({ ...packer, serial }, english).filter((text) => text !== '');
  expect(told('P-7')).toEqual(['Long one', 'serial P-7']);
  expect(told('')).toEqual(['Long one']);
  expect(packerTold(null, english)).toEqual([]);
});
