import type { DemoNames } from '../../job/demo.ts';

export const DEMO_NAMES: DemoNames = {
  title: 'Práctica: grieta a 12 m, gres de 150 mm',
  site: 'Patio de prácticas, del pozo P3 al P4',
  client: 'Cliente de práctica',
  notes: 'Inventado para practicar.',
  packer: 'Packer de práctica 100-150',
  leakCheck: 'en el tubo de prueba',
  resin: 'Resina de práctica, dos componentes',
  transducer: 'Transductor 0-4 bar',
  reference: 'Manómetro patrón G-3',
  sleeveProbe: 'Sonda, manga',
  airProbe: 'Sonda, aire del packer',
  pipeProbe: 'Sonda, tubo',
};
