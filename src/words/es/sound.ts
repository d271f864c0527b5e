import type { SoundCode } from '../en/sound.ts';

export const SOUND_NAME: Record<SoundCode, string> = {
  urgent: 'Urgente',
  lost: 'Lectura perdida',
  high: 'Importante',
  low: 'Menor',
  cue: 'Llave pronto',
  tick: 'Cada segundo',
  now: 'Cerrarla ya',
  reached: 'Tiempo de curado alcanzado',
  well: 'La alarma terminó',
};

export const NO_SOUND: Record<'press' | 'system' | 'not-heard', string> = {
  press: 'El sonido está apagado hasta pulsar en cualquier parte de esta página.',
  system:
    'De este ordenador no sale sonido: las alarmas solo se ven. Revisar su salida de sonido y tener esta pantalla a la vista.',
  'not-heard':
    'El sonido de prueba no se oyó: las alarmas solo se ven. Subir el volumen del ordenador y probar otra vez, o tener esta pantalla a la vista.',
};

export const SOUND_TEST = {
  title: '¿Lo oye la cuadrilla?',
  text: 'Una vez al día, antes de dar aire: ponerse junto a la llave, pulsar, escuchar.',
  play: 'Tocar la alarma urgente',
  heard: 'Se oye',
  notHeard: 'No se oye',
  heardToday: 'Oída hoy.',
};
