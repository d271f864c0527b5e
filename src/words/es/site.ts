import type { SecondPressure } from '../../job/codes.ts';
import type { Line, PipeSetup, Tap } from '../../job/setup.ts';

export const TAP: Record<Tap, string> = {
  packer: 'Packer (línea de medida propia)',
  hose: 'Manguera (tras la última llave)',
  supply: 'Suministro (salida del regulador, o tras una válvula antirretorno)',
  unknown: 'No se sabe',
};

export const SECOND_PLACE: Record<SecondPressure, string> = {
  'outlet-pressure': 'salida del regulador',
  'check-pressure': 'packer, una segunda línea de medida',
};

export const TAP_MEANS: Record<Tap, string> = {
  packer: 'La lectura es la presión propia del packer.',
  hose: 'Mientras pasa aire la lectura está por encima de la presión del packer; sin flujo es la suya.',
  supply: 'La lectura no es la presión del packer: solo aviso de sobrepresión, sin control de fugas.',
  unknown: 'Se toma como que no es la presión del packer: solo aviso de sobrepresión, sin control de fugas.',
};

export const LINE: Record<Line, string> = {
  closed: 'Llave cerrada',
  'supplied-relieving': 'Con suministro, regulador con alivio',
  'supplied-nonrelieving': 'Con suministro, regulador sin alivio',
  unknown: 'No se sabe',
};

export const LINE_MEANS: Record<Line, string> = {
  closed: 'Se puede ver una fuga. El calor del curado sube la presión.',
  'supplied-relieving':
    'El regulador repone y suelta: una fuga no se puede ver, lo que añade el calor del curado se suelta.',
  'supplied-nonrelieving':
    'El regulador repone pero no suelta: una fuga no se puede ver, el calor del curado sube la presión.',
  unknown: 'Ni una fuga ni una subida por el calor del curado se pueden juzgar con certeza.',
};

export const MATERIAL: Record<PipeSetup['material'], string> = {
  clay: 'Gres',
  concrete: 'Hormigón',
  pvc: 'PVC',
  pe: 'PE',
  iron: 'Fundición',
  grp: 'PRFV',
  unknown: 'No se sabe',
};
