import type { DemoNames } from '../../job/demo.ts';

/** Names in the invented job for practice. Places, people, packer and resin do not exist. */
export const DEMO_NAMES: DemoNames = {
  title: 'Übung: Riss bei 12,4 m, Steinzeug 150 mm',
  site: 'Übungshof, Schacht P3 bis P4',
  client: 'Übungsauftraggeber',
  notes: 'Für die Übung erfunden.',
  packer: 'Übungspacker 100-150',
  leakCheck: 'im Prüfrohr',
  resin: 'Übungsharz, zwei Teile',
  transducer: 'Drucksensor 0-4 bar',
  reference: 'Prüfmanometer G-3',
  sleeveProbe: 'Fühler, Kurzliner',
  airProbe: 'Fühler, Luft im Packer',
  pipeProbe: 'Fühler, Rohr',
};
