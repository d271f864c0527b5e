import type { SecondPressure } from '../../job/codes.ts';
import type { Place } from '../../job/setup.ts';
import type { DeviceGuardState } from '../../link/frames.ts';
import type { Stage, Standing } from '../../watch/codes.ts';

export const STAGE: Record<Stage, string> = {
  prepare: 'Preparar',
  seat: 'Asentar',
  inflate: 'Inflar',
  hold: 'Retención',
  'let-down': 'Desinflar',
  done: 'Acabado',
  'air-test': 'Ensayo',
  abandoned: 'Abandonado',
};

export const stageName = (stage: Stage, attempt: number): string =>
  attempt > 1 ? `${STAGE[stage]} ${attempt}` : STAGE[stage];

export const STAGE_ACTION: Record<Stage, string> = {
  prepare: 'Volver a preparar',
  seat: 'Empezar a asentar',
  inflate: 'Empezar a inflar',
  hold: 'Empezar la retención',
  'let-down': 'Empezar a desinflar',
  done: 'Acabar',
  'air-test': 'Ir al ensayo con aire',
  abandoned: 'Abandonar este intento',
};

export const PLACE: Record<Place, string> = {
  sleeve: 'manga',
  air: 'aire del packer',
  pipe: 'pared del tubo',
  ground: 'terreno',
  cup: 'vaso testigo',
};

/** Where several of them are named alike: the one of this number. */
export const NUMBERED = (title: string, n: number): string => `${title} ${n}`;

export const PLACE_TITLE: Record<Place, string> = {
  sleeve: 'Manga',
  air: 'Aire del packer',
  pipe: 'Pared del tubo',
  ground: 'Terreno',
  cup: 'Vaso testigo',
};

export const SECOND_TITLE: Record<SecondPressure, string> = {
  'outlet-pressure': 'Presión de suministro',
  'check-pressure': 'Segundo sensor',
};

export const DEVICE_GUARD: Record<DeviceGuardState, string> = {
  unarmed: 'apagado',
  armed: 'activo',
  tripped: 'ha saltado',
  silenced: 'ha saltado, zumbador callado',
};

export const STANDING: Record<Standing, { readonly mark: string; readonly means: string }> = {
  'no-limit': {
    mark: 'Sin límite: sin aviso',
    means: 'No se ha elegido packer, así que nada avisa aquí de su presión admisible.',
  },
  'no-margin': {
    mark: 'Sin margen',
    means:
      'Se eligió trabajar a la presión admisible. Un sensor que lee de menos, o el calor del curado, la hace pasar de ella.',
  },
  practice: { mark: 'Práctica', means: 'Equipo de práctica: nada de aquí es una línea real.' },
  'not-zeroed': {
    mark: 'Cero sin tomar',
    means: 'El cero del sensor no se tomó con el acople abierto.',
  },
  uncalibrated: {
    mark: 'Sensor sin calibrar',
    means: 'La escala la propone el aparato. Por eso la incertidumbre es mayor.',
  },
  'device-unarmed': {
    mark: 'Límite del aparato apagado',
    means: 'El aparato no vigila el límite por sí mismo: quedarse donde se oiga este ordenador.',
  },
  'no-hold-by-tap': {
    mark: 'Retención no juzgada aquí',
    means: 'El sensor no lee la presión del packer (ver la toma en la hoja de trabajo).',
  },
  'packer-not-inspected': {
    mark: 'Inspeccionar el packer',
    means: 'Pasó de su presión admisible en una sesión anterior, y desde entonces no consta inspección.',
  },
  'only-one-seen': {
    mark: 'Solo se ve un packer',
    means:
      'De esta línea cuelgan dos packers. Una fuga, una caída o una retención de uno no se distingue de la del otro.',
  },
  'cure-not-judged': {
    mark: 'Curado no juzgado',
    means: 'La resina cura con luz: el tiempo a temperatura no dice nada de ella.',
  },
  'hold-under-working': {
    mark: 'Retenida bajo trabajo',
    means:
      'La retención empezó muy por debajo de la presión de trabajo y no ha llegado a ella: la manga puede no estar pegada a la pared.',
  },
  'hold-over-working': {
    mark: 'Retenida sobre trabajo',
    means:
      'La retención empezó por encima de la presión de trabajo: al calor del curado le queda menos sitio hasta el techo de lo previsto.',
  },
};
