import type { LinkError, LinkState } from '../../link/status.ts';
import type { StoreErrorCode } from '../../record/stores/store.ts';
import type { Advice, EngineOnlyError } from '../en/link.ts';

export const LINK_STATE: Record<LinkState, string> = {
  unsupported: 'Este navegador no tiene puerto serie',
  'no-permission': 'Ningún aparato permitido aún',
  idle: 'Sin conexión',
  opening: 'Abriendo el puerto',
  greeting: 'Preguntando al aparato quién es',
  streaming: 'Conectado',
  stopped: 'Conectado, sin medir',
  lost: 'Aparato perdido',
  retrying: 'Probando otra vez',
  closing: 'Cerrando',
};

export const LINK_ERROR: Record<LinkError, Advice> = {
  'port-busy': {
    title: 'El puerto está ocupado',
    todo: 'Cerrar la otra pestaña o el programa que tiene el aparato y conectar otra vez.',
  },
  'port-gone': {
    title: 'El aparato ya no está',
    todo: 'Meter bien el cable, primero en el ordenador; ir al otro extremo solo cuando el manómetro marque cero. La sesión sigue sola cuando el aparato vuelve.',
  },
  'open-failed': {
    title: 'El puerto no se abre',
    todo: 'Sacar el cable del ordenador, esperar cinco segundos, meterlo otra vez y conectar.',
  },
  'no-hello': {
    title: 'En este puerto no responde nada',
    todo: 'No ha llegado nada de él. Elegir otro puerto, o comprobar que el aparato tiene corriente y que su firmware habla este protocolo.',
  },
  speed: {
    title: 'Llegan bytes, pero no texto: velocidad equivocada o cable con interferencias',
    todo: 'Poner el aparato a 500000 o 115200 baudios y conectar otra vez. Si antes funcionaba, cambiar el cable.',
  },
  'not-protocol': {
    title: 'Lo que llega es texto, pero no de este protocolo',
    todo: 'Elegir otro puerto, o cargar en el aparato un firmware que hable este protocolo.',
  },
  'line-ends': {
    title: 'Las líneas del aparato acaban en CR',
    todo: 'No se lee ninguna, para no adivinar nada. Su firmware tiene que acabar cada línea solo con LF (protocolo, 1 Lines).',
  },
  check: {
    title: 'La suma de control al final de las líneas no cuadra',
    todo: 'Si antes funcionaba, cambiar el cable. Si el firmware es nuevo: CRC-32C de todo hasta la última coma inclusive, en ocho cifras hexadecimales minúsculas (protocolo, 1 Lines).',
  },
  form: {
    title: 'Las líneas tienen otra forma que el protocolo',
    todo: 'Su suma de control es correcta, así que el firmware las manda así. Actualizar este programa o el firmware del aparato.',
  },
  deaf: {
    title: 'Al aparato se le oye, pero él no oye',
    todo: 'Llegan sus líneas y no responde a ninguna orden. Revisar el hilo que va al aparato y sus conectores.',
  },
  'half-hello': {
    title: 'El aparato no dice todos sus canales',
    todo: 'Responde, pero falta una línea de su saludo. Conectar otra vez; si no ayuda, actualizar su firmware.',
  },
  version: {
    title: 'El aparato habla otra versión del protocolo',
    todo: 'Actualizar este programa o el firmware del aparato.',
  },
  'other-device': {
    title: 'Responde otro aparato',
    todo: 'No se lee ni guarda ningún límite. Conectar otra vez el primero; dentro de una sesión se puede tomar este en su lugar. Sin sesión: desconectar, conectarlo y tomar su cero.',
  },
  rescaled: {
    title: 'El aparato volvió con otra escala',
    todo: 'Tiene el nombre del aparato que se leía, y sus canales son otros: con la primera escala su presión saldría mal y parecería buena. No se lee ni se le dice el límite. Guiarse por el manómetro. Conectar el aparato como estaba; dentro de una sesión se puede tomar con su escala nueva. Sin sesión: conectar otra vez y tomar su cero.',
  },
  'no-pressure': {
    title: 'El aparato no tiene canal de presión',
    todo: 'Conectar el aparato que lleva el sensor de presión.',
  },
  'no-temperature': {
    title: 'El segundo adaptador no tiene temperatura',
    todo: 'Solo sirve para temperaturas, junto al aparato de la presión. Elegir el puerto del termómetro.',
  },
  'same-port': {
    title: 'Este puerto ya se está leyendo',
    todo: 'De él viene la presión. Elegir el puerto del otro adaptador.',
  },
  'alike-ports': {
    title: 'Los dos adaptadores se fueron, y son iguales',
    todo: 'Un bus o una línea de texto no tiene nombre propio, así que nadie podría decir qué puerto es cuál: no se lee nada hasta conectar otra vez cada uno. Los adaptadores de dos clases, o enchufados uno tras otro, vuelven solos.',
  },
  'command-failed': {
    title: 'El aparato no respondió a una orden',
    todo: 'Las lecturas pueden seguir, pero no se le puede decir su límite. Revisar el cable y sus conectores.',
  },
  'write-failed': {
    title: 'No se pudo escribir al aparato',
    todo: 'Revisar el cable. El límite propio del aparato puede estar apagado.',
  },
  'read-recovered': {
    title: 'El cable tuvo interferencias y vuelve a funcionar',
    todo: 'Queda marcado un hueco. Si se repite, cambiar el cable.',
  },
  'limit-not-kept': {
    title: 'El aparato no guarda el límite que se le pidió',
    todo: 'Comparar el límite mostrado con la placa del packer: bajo presión solo se puede bajar. Un aparato sin alarma propia no guarda ninguno: quedarse donde se oiga este ordenador, con el manómetro a la vista.',
  },
  'no-unit': {
    title: 'En el bus no responde ninguna unidad',
    todo: 'Comprobar su alimentación y que A y B no están cruzados. Después comparar con su ficha técnica lo que dice el mapa de registros: dirección de la unidad, velocidad y paridad.',
  },
  'bus-garbled': {
    title: 'Lo que llega por el bus está revuelto',
    todo: 'Dos unidades con la misma dirección responden a la vez, la paridad o la velocidad no coinciden, o el cable tiene interferencias. Dejar una sola unidad en el bus y probar otra vez.',
  },
  'other-master': {
    title: 'Alguien más pregunta en este bus',
    todo: 'Un bus tiene un solo maestro. Quitar el otro, o leer otro bus: dos se revuelven las respuestas.',
  },
  'no-columns': {
    title: 'Llegan líneas, y lo que pide el mapa de columnas no está en ellas',
    todo: 'No se adivina nada: una línea con otras columnas se guarda en el registro y no se lee. Abrir el mapa de columnas y compararlo con la última línea.',
  },
};

export const TRYING = (baudRate: number): string => `Probando a ${baudRate} baudios.`;
export const STOP_TRYING = 'Dejar de probar';
export const LAST_LINE = 'Última línea:';

export const LINE_TOO_SLOW = (asked: string, most: string, baudRate: number): Advice => ({
  title: `El aparato dice dar ${asked} lecturas por segundo, y a ${baudRate} baudios su línea lleva ${most}`,
  todo: 'Se perderán lecturas o llegarán tarde. Pedir menos en la hoja de trabajo, o poner el aparato a más velocidad y conectar otra vez.',
});

export const SPAN_UNKNOWN: Advice = {
  title: 'No se sabe la escala del sensor de presión',
  todo: 'El aparato manda una tensión y no dice qué tensiones son el cero y el fondo de escala, así que no se muestra presión. Escribir ambas en el documento del sensor y poner ese sensor en la hoja de trabajo.',
};

const STORE_ERROR: Record<StoreErrorCode, Advice> = {
  full: {
    title: 'El disco está lleno',
    todo: 'Quitar sesiones viejas después de guardarlas en otro sitio. La vigilancia sigue.',
  },
  denied: {
    title: 'El navegador se niega a guardar',
    todo: 'Salir de la navegación privada, o permitir el almacenamiento a esta página.',
  },
  busy: {
    title: 'El registro está abierto en otro sitio',
    todo: 'Cerrar la otra pestaña de este programa.',
  },
  missing: { title: 'No se encuentra', todo: 'Se quitó, o es de otro navegador u ordenador.' },
  stale: {
    title: 'Entretanto se cambió en otro sitio',
    todo: 'Abrirlo otra vez y repetir el cambio.',
  },
  corrupt: {
    title: 'El registro guardado está dañado',
    todo: 'Se muestra la parte sana; la parte dañada se dice.',
  },
  failed: {
    title: 'No se pudo guardar',
    todo: 'Probar otra vez. Si falla de nuevo, reiniciar el navegador. La vigilancia sigue.',
  },
  silent: {
    title: 'El almacenamiento del navegador no responde',
    todo: 'Ahora no se puede guardar nada. Con el packer vacío, cerrar el navegador con todas sus ventanas y abrirlo otra vez. La vigilancia sigue.',
  },
};

export const STORE_CAUSE: Record<StoreErrorCode, string> = {
  full: 'el disco está lleno',
  denied: 'el navegador se niega a guardar',
  busy: 'el registro está abierto en otro sitio',
  missing: 'no se encuentra',
  stale: 'entretanto se cambió en otro sitio',
  corrupt: 'el registro guardado está dañado',
  failed: 'no se pudo guardar',
  silent: 'el almacenamiento del navegador no responde',
};

const ENGINE_ONLY: Record<EngineOnlyError, Advice> = {
  'run-locked': {
    title: 'Otra pestaña lleva este trabajo',
    todo: 'Ir a esa pestaña, o cerrarla y probar otra vez.',
  },
  'no-run': { title: 'No hay ninguna sesión abierta', todo: 'Empezar primero a grabar.' },
  'run-open': { title: 'Ya hay una sesión abierta', todo: 'Terminar primero la sesión abierta.' },
  'not-connected': {
    title: 'No hay ningún aparato conectado',
    todo: 'Conectar el aparato o el equipo de práctica.',
  },
  'not-a-rig': {
    title: 'Esto solo funciona en el equipo de práctica',
    todo: 'Conectar el equipo de práctica.',
  },
  refused: { title: 'Rechazado', todo: 'El motivo está al lado.' },
  'bad-request': {
    title: 'El programa se pidió a sí mismo algo mal',
    todo: 'Es un fallo del programa. Reiniciarlo; el registro se conserva.',
  },
  internal: {
    title: 'El programa ha fallado por dentro',
    todo: 'Vigilar el manómetro. Recargar la página; una sesión abierta se vuelve a ofrecer.',
  },
};

export const ENGINE_ERROR: Record<LinkError | StoreErrorCode | EngineOnlyError, Advice> = {
  ...LINK_ERROR,
  ...STORE_ERROR,
  ...ENGINE_ONLY,
};
