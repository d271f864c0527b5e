import type { LinkError } from '../../link/status.ts';
import type { Advice } from '../en/link.ts';

export const BESIDE = {
  title: 'Temperaturas de un segundo adaptador',
  text: 'Presión, vigilancia y botón siguen en el aparato conectado; del segundo solo se leen temperaturas, a la hora del reloj de este ordenador. Cada uno sigue cuando el otro se pierde. Una segunda presión no entra aquí: pide un solo aparato con las dos.',
  device: 'Conectar un termómetro del protocolo',
  mapped: {
    registers: (name: string) => `Leer el segundo bus con «${name}»`,
    columns: (name: string) => `Leer la segunda línea de texto con «${name}»`,
  },
  known: (deviceId: string) => `Conectar otra vez ${deviceId}`,
  knownText: 'Ya se leyó antes junto a este aparato. Su puerto se toma sin volver a preguntar.',
  state: (deviceId: string, state: string) => `Segundo adaptador ${deviceId}: ${state}`,
  unnamed: 'aún no se sabe',
  disconnect: 'Desconectar el segundo adaptador',
  unread: 'Está conectado y la sesión aún no lo lee.',
  read: 'Leerlo en esta sesión',
  refused: 'La sesión no lo toma tal como está. Aplicar la hoja de trabajo y probar otra vez.',
  doubt: (text: string) => `Segundo adaptador. ${text}`,
};

export const BESIDE_LOST: Advice = {
  title: 'El segundo adaptador ya no está',
  todo: 'Faltan sus temperaturas; la presión sigue. Meter bien su cable: vuelve solo.',
};

export const BESIDE_ERROR: { readonly [E in LinkError]?: Advice } = {
  'port-gone': BESIDE_LOST,
  'other-device': {
    title: 'Responde otro segundo adaptador',
    todo: 'No se lee. Volver a poner el primero, o desconectar el segundo adaptador y conectar este.',
  },
  rescaled: {
    title: 'El segundo adaptador volvió con otra escala',
    todo: 'Con la primera escala leería mal y parecería bueno, así que no se lee. Desconectarlo y conectarlo otra vez para tomar la escala nueva.',
  },
};
