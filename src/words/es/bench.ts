import type { BenchPoint, ReasonOf, RefusedLine, Verdict } from '../../job/bench-codes.ts';
import type { DisplayUnits, Format } from '../create-format.ts';
import type { BENCH as ENGLISH, Told } from '../en/bench.ts';

/** Under it a device lets its limit be raised or taken away (firmware-protocol/SPEC.md, 7). */
const SMALL_BAR = 0.1;

type Sentence = (told: Told, units: DisplayUnits) => string;

export const BENCH: typeof ENGLISH = {
  title: 'Banco de pruebas',
  lead: 'Probar un aparato hecho o comprado antes de que vigile un packer: qué dice su línea, qué muestran sus sensores, si se oye su propia alarma. Entretanto no cuelga ningún packer de la línea.',
  connectTitle: 'Conectar el aparato que se prueba',
  connect: 'Conectar un aparato',
  connectOther: 'Elegir otro puerto',
  practice: 'Probar con el equipo de práctica',
  disconnect: 'Desconectar',
  inRun:
    'Hay una sesión en marcha. Entretanto el banco no toma puertos ni prueba nada: seguir cuando la sesión haya terminado.',
  toLive: 'Ir a En vivo',
  limitSet:
    'Hay un límite en vigor para un packer que puede estar lleno. El banco solo mira; terminar eso primero.',
  listening: (device: string, firmware: string) => `${device}, firmware ${firmware}`,
  nobody: 'Aún nadie ha dicho quién es.',
  listened: (time: string) => `Escuchado durante ${time}.`,
  again: 'Empezar de nuevo',
  points: 'Lo que se encontró',
  channel: (index: number) => `canal ${index}`,
  tries: 'Por probar a mano',
  zeroText: 'Abrir la línea al aire, esperar un momento.',
  zero: 'Tomar el cero aquí',
  spanText: 'Bombear hasta una presión quieta y escribir lo que marca el patrón.',
  reference: 'El patrón marca',
  compare: 'Comparar',
  warmText: 'Tomar la punta de una sonda en la mano caliente y pulsar; tenerla un minuto.',
  warm: (index: number, place: string | null) =>
    place === null ? `En mi mano: canal ${index}` : `En mi mano: canal ${index}, ${place}`,
  warmPractice: 'Práctica: tomar todas las sondas en la mano',
  warmPracticeEnd: 'Práctica: soltar las sondas',
  guardText: (bar: string) =>
    `Su propio límite se pone en ${bar} y el aparato lo confirma. Después, bombear a mano, sin packer, hasta que suene. Este ordenador también da su alarma, como debe.`,
  arm: (bar: string) => `Poner su límite en ${bar}`,
  pump: 'Está activo. Bombear despacio hasta pasar el límite.',
  heardAsk: 'Ha saltado. ¿Se oyó su zumbador?',
  heard: 'Se oyó',
  notHeard: 'No se oyó',
  takeAway: 'Quitar otra vez el límite',
  putBack: 'Poner su límite como estaba',
  stillArmed: (bar: string) =>
    `El aparato aún guarda el límite de esta prueba, ${bar}. Sacar primero la presión y después quitarlo; una sesión pone el suyo.`,
  taken: 'El límite de la prueba está quitado.',
  lines: 'Líneas como llegaron',
  linesText: 'La más nueva primero. Una línea rechazada está con su motivo; de ella no se leyó nada.',
  linesMade: 'Esta fuente no habla el protocolo: las líneas son lo que se hizo de lo que llegó.',
  noLines: 'Por la línea no ha llegado nada.',
  read: 'leída',
  baud: (n: number) => `${n} baudios`,
  refusedTitle: 'Líneas rechazadas',
  refusedCount: (n: number) => (n === 1 ? '1 línea' : `${n} líneas`),
  keepTitle: 'Guardarlo como prueba del aparato',
  by: 'Probado por (iniciales)',
  notes: 'Notas',
  keep: 'Guardar esta prueba',
  kept: 'Guardada con los sensores del aparato.',
  keptPractice: 'Guardada como práctica. No es prueba de un aparato real.',
  records: 'Pruebas de banco',
  noRecords: 'Aún no hay ninguna. Un aparato probado arriba se puede guardar aquí.',
  open: 'Abrir un fichero de prueba',
  imported: 'Añadida. Queda marcada como venida de un fichero.',
  fileRefused: (what: string) => `No se tomó: ${what}`,
  gone: 'Esta prueba ya no está aquí.',
  recordTitle: (device: string) => `Prueba de banco de ${device}`,
  practiceMark: 'PRÁCTICA: ningún aparato real',
  fileMark: 'De un fichero: no se probó en este ordenador',
  device: 'Aparato',
  firmware: 'Firmware',
  when: 'Guardada',
  byRow: 'Probado por',
  speed: 'Velocidad',
  listenedRow: 'Escuchado',
  said: 'Lo que dice de sí mismo',
  print: 'Imprimir',
  export: 'Guardar como fichero',
  notProved: 'Dice cómo estaba este aparato ese día, en ese ordenador. No es una calibración.',
  toBench: 'Probarlo en el banco',
  fromSensors: 'Banco: probar un aparato',
  sensorNone: 'No hay guardada ninguna prueba de banco del aparato de este sensor.',
  sensorNoDevice: 'Escribir arriba el aparato: aquí aparecerán sus pruebas de banco.',
};

export const VERDICT: Readonly<Record<Verdict, string>> = {
  good: 'Bien',
  doubtful: 'Dudoso',
  bad: 'Mal',
  'not-tried': 'Sin probar',
};

export const POINT: Readonly<Record<BenchPoint, string>> = {
  lines: 'Líneas leídas',
  rate: 'Ritmo',
  lost: 'Muestras perdidas',
  clock: 'Reloj',
  restarts: 'Reinicios',
  step: 'Escalón más pequeño',
  noise: 'Ruido',
  drift: 'Deriva',
  zero: 'Cero',
  span: 'Rango',
  supply: 'Tensión del sensor',
  warm: 'Mano caliente',
  guard: 'Su propia alarma',
};

export const REFUSED: Readonly<Record<RefusedLine, string>> = {
  garbage: 'no es línea del protocolo: una letra desconocida, o bytes que no son texto',
  crc: 'su suma de control no cuadra: alterada, o calculada de otra manera',
  form: 'su suma de control es buena y su forma no: un campo fuera de rango, que falta o que sobra',
  long: 'más de 128 bytes sin acabar',
  partial: 'media línea, cortada al abrir el puerto: no es un fallo',
  unknown: 'de una versión posterior del protocolo: no es un fallo',
};

export function benchReasons(f: Format) {
  const n = (value: number | null): string => (value === null ? '–' : f.count(value));
  const fixed = (value: number | null, digits: number): string =>
    value === null ? '–' : f.fixed(value, digits);
  const small = (mbar: number | null, units: DisplayUnits): string =>
    f.quantity('smallPressure', mbar, units, 1);
  const smallBar = (bar: number | null, units: DisplayUnits): string =>
    f.quantity('smallPressure', bar === null ? null : bar * 1000, units);
  const kelvin = (k: number | null, units: DisplayUnits): string =>
    f.quantity('temperatureDifference', k, units);

  const refused: Sentence = (t) => `${n(t.value)} de ${n(t.against)} líneas rechazadas.`;
  const rate: Sentence = (t) =>
    t.against === null
      ? `${fixed(t.value, 1)} muestras por segundo.`
      : `${fixed(t.value, 1)} muestras por segundo; el aparato dice ${fixed(t.against, 0)}.`;
  const lost: Sentence = (t) => `Faltan ${n(t.value)} de ${n(t.against)} muestras.`;
  const clock: Sentence = (t) =>
    `${fixed(t.value, 0)} ± ${fixed(t.against, 0)} ppm frente al reloj de este ordenador.`;
  const step: Sentence = (t, u) => `${small(t.value, u)} por escalón (${n(t.against)} bits).`;
  const noise: Sentence = (t, u) =>
    `${small(t.value, u)}, ${fixed(t.against, 1)} cuentas (desviación típica); ${fixed(t.more, 0)} cuentas de mínima a máxima en un segundo.`;
  const drift: Sentence = (t, u) =>
    `${f.pressureRate(t.value, u)} ± ${f.pressureRate(t.against, u)}, en ${f.duration(t.more)} en reposo.`;
  const zero: Sentence = (t, u) =>
    `La línea abierta lee ${smallBar(t.value, u)}; se pueden restar como máximo ${smallBar(t.against, u)}.`;
  const span: Sentence = (t, u) =>
    `Difiere ${smallBar(t.value, u)} a ${f.pressure(t.more, u)}; entre ambos se admiten ${smallBar(t.against, u)}.`;
  const supply: Sentence = (t) =>
    `Lo más bajo ${fixed(t.against, 2)} V de ${fixed(t.more, 2)} V, ${t.value === null ? '–' : f.percent(Math.max(0, t.value))} por debajo.`;
  const warm: Sentence = (t, u) =>
    `Se movió ${kelvin(t.value, u)} desde ${f.temperature(t.against, u)} en ${f.duration(t.more)}.`;
  const tripped: Sentence = (t, u) =>
    `Saltó a ${f.pressure(t.value, u)}, límite ${f.pressure(t.against, u)}.`;
  const and =
    (first: Sentence, second: string): Sentence =>
    (t, u) =>
      `${first(t, u)} ${second}`;
  const only =
    (text: string): Sentence =>
    () =>
      text;

  const reasons: { readonly [P in BenchPoint]: Readonly<Record<ReasonOf<P>, Sentence>> } = {
    lines: {
      few: (t) => `Hasta ahora ${n(t.against)} líneas: muy pocas.`,
      clean: refused,
      some: and(refused, 'Alguna suelta es un chasquido en el cable; vigilarlo.'),
      many: and(refused, 'Cambiar el cable; si el firmware es nuevo, comparar una línea con el protocolo.'),
    },
    rate: {
      few: only('Escuchar diez segundos.'),
      kept: rate,
      slow: and(rate, 'Lento: una previsión durante el inflado tiene poco en que apoyarse.'),
      'too-slow': and(rate, 'Demasiado lento para un inflado. Subir los baudios, o mandar menos canales.'),
    },
    lost: {
      few: only('Hasta ahora muy pocas muestras.'),
      none: lost,
      some: and(lost, 'Cada una es un hueco en el registro.'),
      many: and(lost, 'La línea es lenta para ese ritmo, o el aparato está muy ocupado.'),
    },
    clock: {
      few: (t) => `Escuchados ${f.duration(t.more)} de un minuto.`,
      close: clock,
      off: and(clock, 'Un oscilador basto: los ritmos se desvían otro tanto.'),
      'far-off': and(clock, 'Su tic no es de 100 µs: corregir el firmware.'),
    },
    restarts: {
      few: (t) => `Escuchados ${f.duration(t.against)} de un minuto.`,
      none: (t) => `Ninguno en ${f.duration(t.against)}.`,
      restarted: (t) =>
        `Se reinició ${n(t.value)} veces: corriente floja, un watchdog, o se sacó el enchufe (entonces, empezar de nuevo).`,
    },
    step: {
      'no-channel': only('No tiene canal de presión.'),
      fine: step,
      coarse: and(step, 'Una fuga pequeña se ve tarde.'),
      'too-coarse': and(
        step,
        'Demasiado basto para una retención: un convertidor más fino, o un sensor de menor rango.',
      ),
      'no-scale': only(
        'Su línea no dice qué señal es el cero y cuál el fondo de escala: escribir ambas en el documento del sensor.',
      ),
    },
    noise: {
      few: only('Dejar la línea en reposo diez segundos.'),
      quiet: noise,
      noisy: and(noise, 'Apantallar el cable del sensor, o promediar más.'),
      'too-noisy': and(
        noise,
        'Demasiado para ver una fuga o una previsión: apantallar, poner a tierra, separar la corriente.',
      ),
      frozen: and(
        noise,
        'No se movió ni una cuenta: el escalón es mayor que el ruido, o el sensor está clavado. Bombear un poco.',
      ),
      'no-reading': only('El sensor no da presión: hilo roto, sensor que falta, rango equivocado.'),
    },
    drift: {
      few: (t) => `${f.duration(t.more)} de tres minutos en reposo.`,
      steady: drift,
      drifts: and(drift, 'Dejarlo calentar un cuarto de hora y empezar de nuevo.'),
      unsure: and(drift, 'Aún no es seguro: dejarlo más tiempo en reposo.'),
      'drifts-far': and(
        drift,
        'Tanto como una fuga de las que se avisan. Calentarlo y empezar de nuevo; si sigue, el sensor no sirve para una retención.',
      ),
    },
    zero: {
      'not-taken': only('Aún sin tomar.'),
      'not-still': only('La línea se movió. Abrirla, esperar, tomarlo otra vez.'),
      near: zero,
      far: and(zero, 'Más de la mitad de eso: vigilarlo.'),
      'too-far': and(zero, 'Rechazado: línea bajo presión, rango equivocado, o un sensor desviado.'),
      'no-reading': only('No había presión de que tomarlo.'),
    },
    span: {
      'not-compared': only('Aún sin comparar.'),
      'not-still': only('La línea se movió. Esperar a que esté quieta, comparar otra vez.'),
      agrees: span,
      'too-low': and(span, 'Tan abajo que dice poco del rango: comparar más arriba.'),
      'just-off': and(span, 'Justo fuera: tomar el cero y comparar otra vez.'),
      differs: and(span, 'Rango o escala equivocados, o el patrón está desviado.'),
    },
    supply: {
      'not-measured': only('El aparato no la mide.'),
      few: only('Escuchar diez segundos.'),
      steady: supply,
      sags: and(supply, 'Cede: un puerto flojo, un cable largo.'),
      'sags-far': and(supply, 'Demasiado baja: otro puerto, un concentrador con corriente.'),
      'told-low': and(supply, 'El propio aparato la da por demasiado baja.'),
    },
    warm: {
      'not-held': only('Aún no se ha tenido en la mano.'),
      holding: and(warm, 'Seguir teniéndola.'),
      rises: warm,
      little: and(warm, 'Poco: ¿estaba la punta en la mano?'),
      none: and(warm, 'No subió: en cortocircuito, o se tenía otra sonda.'),
      falls: and(warm, 'Bajó: los dos hilos están cambiados.'),
      'no-reading': only('No da temperatura: abierta, o sin enchufar.'),
    },
    guard: {
      'not-armed': only('Aún sin probar.'),
      refused: (_, u) =>
        `Rechazado: solo admite otro límite por debajo de ${f.pressure(SMALL_BAR, u)}. Sacar la presión y probar otra vez.`,
      armed: (t, u) => `Límite ${f.pressure(t.against, u)}; pico hasta ahora ${f.pressure(t.more, u)}.`,
      'not-asked': and(tripped, 'Decir si se oyó.'),
      heard: and(tripped, 'Se oyó.'),
      late: and(tripped, 'Se oyó, pero tarde: bombear despacio y probar otra vez.'),
      absent: only('El aparato no tiene alarma propia: solo avisa este ordenador.'),
      'no-answer': only('No respondió a la orden: no oye nada, o no se le puede decir un límite.'),
      'not-kept': only('No guarda el límite que se le dio.'),
      silent: (t, u) =>
        `Se bombeó a ${f.pressure(t.more, u)} con un límite de ${f.pressure(t.against, u)}, y no saltó.`,
      mute: and(tripped, 'No dice que suene su zumbador.'),
      'not-heard': and(tripped, 'No se oyó: un zumbador más fuerte, o su hilo.'),
    },
  };
  return {
    foundText(point: BenchPoint, reason: string, told: Told, units: DisplayUnits): string {
      const of: Readonly<Record<string, Sentence>> = reasons[point];
      return Object.hasOwn(of, reason) ? of[reason]!(told, units) : '';
    },
  };
}
