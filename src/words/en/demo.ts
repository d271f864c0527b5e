import type { DemoNames } from '../../job/demo.ts';

/** Names in the invented job for practice. Places, people, packer and resin do not exist. */
export const DEMO_NAMES: DemoNames = {
  title: 'Practice: crack at 12.4 m, 150 mm clay',
  site: 'Practice yard, manhole P3 to P4',
  client: 'Practice client',
  notes: 'Invented for practice.',
  packer: 'Practice packer 100-150',
  leakCheck: 'in the test pipe',
  resin: 'Practice resin, two parts',
  transducer: 'Transducer 0-4 bar',
  reference: 'Test gauge G-3',
  sleeveProbe: 'Probe, sleeve',
  airProbe: 'Probe, air in the packer',
  pipeProbe: 'Probe, pipe',
};
