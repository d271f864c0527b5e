import type { Stage } from '../../watch/codes.ts';
import { type Format, METRIC } from '../create-format.ts';
import type { Instruction, Told } from '../en/instructions.ts';

type Say = (told?: Told) => Instruction;

/** Durations shorter than this have tenths of a second, s. */
const TENTHS_S = 3;
const NOBODY = 'Nadie en línea con el tubo ni sobre la boca.';
const NO_PLUG = 'Nadie cerca de los obturadores: uno puede salir disparado.';
const KINK = 'Un doblez puede esconder aire: tirar despacio de la cuerda, nadie en línea con el tubo.';
const LEAVE = 'Dejar la llave cerrada.';
/** Where it is only inferred that a hand has shut it. */
const SHUT_LEAVE = 'Cerrar la llave y dejarla así.';

/**
 * 'Listos en la llave' and 'Dejar la llave cerrada' share no word but the tap. A count stands first, so that an order
 * read short does not mean 'now'. Nothing here says that anything is safe or cured.
 */
export function instructions(f: Format) {
  const always =
    (say: string, besides: string): Say =>
    () => ({ say, besides });
  const to = ({ bar, units = METRIC }: Told = {}): string | null =>
    bar === undefined || bar === null ? null : f.pressure(bar, units);
  /** A count goes by whole seconds, to its end: 'in 2.0 s' after 'in 3 s' looks like another number. */
  const time = ({ s }: Told = {}): string | null =>
    s === undefined || s === null ? null : s < TENTHS_S ? `${f.fixed(s, 0)}\u00a0s` : f.duration(s);
  /** Rounded down, to the minute where seconds would only draw the eye: as the time slot has it. */
  const timeLeft = ({ s }: Told = {}): string | null =>
    s === undefined || s === null
      ? null
      : s < 600
        ? f.duration(Math.floor(Math.max(0, s)))
        : `${Math.floor(s / 60)}\u00a0min`;
  const openTo: Say = (told) => {
    const bar = to(told);
    return {
      say: bar === null ? 'Abrir la llave despacio.' : `Abrir despacio hasta ${bar}.`,
      besides: NOBODY,
    };
  };
  const overRated =
    (say: string): Say =>
    (told) => {
      const bar = to(told);
      const was = bar === null ? 'Pasó de su admisible' : `Estuvo a ${bar}, sobre su admisible`;
      return { say, besides: `${was}: inspeccionar el packer antes de volver a usarlo.` };
    };
  const topUp =
    (besides: string): Say =>
    (told) => {
      const bar = to(told);
      return { say: bar === null ? 'Reponer despacio.' : `Reponer despacio hasta ${bar}.`, besides };
    };
  const FIND_LOSS = always(
    'Buscar primero la pérdida.',
    'No dar aire, mantenerse lejos: puede haberse soltado una manguera o roto el packer.',
  );
  const JUMPED = always('Mirar el manómetro.', 'El sensor ha dado un salto: no dar aire según su lectura.');
  const PROVE_FIRST = 'Antes, probar el suministro (Más, Revisiones), o saltarlo.';
  const STANDS = always(
    'Cerrar la llave, ver el manómetro.',
    'La lectura no se mueve. ¿Hay una llave o la línea del sensor cerrada u obstruida? ¿Hay suministro?',
  );
  const NOT_RISING = {
    blocked: always(
      'Cerrar la llave, ver la manguera.',
      'El suministro está por encima del packer y no pasa nada. ¿Una llave cerrada, o un doblez?',
    ),
    level: always(
      'Ver el regulador.',
      'Suministro y lectura están iguales: no viene más. ¿Está ajustado? Con llave en la manguera, ¿hay un doblez?',
    ),
    escapes: always(
      'Cerrar la llave, oír si hay aire.',
      'Pasa aire y no sube: manguera suelta, fuga, línea del sensor obstruida, o se está desplegando.',
    ),
  };
  const stayed = (told?: Told): string => {
    const seen = time(told);
    return seen === null ? 'Se quedó en cero.' : `Se quedó en cero ${seen}.`;
  };
  const LOW_ZERO = always(
    'Leer el manómetro.',
    'Puede tener aire: el sensor lee de menos, su cero no es cero. Nadie junto al packer.',
  );
  /** How to pull, and what was seen, never that it is empty. */
  const pull: Say = (told) => ({
    say: 'Nadie en línea, tirar despacio.',
    besides: `${stayed(told)} ${KINK}`,
  });

  /** Of an air test: to a pressure in the small unit. */
  const slowly =
    (what: string, besides: string): Say =>
    ({ bar, units = METRIC } = {}) => ({
      say:
        bar === undefined || bar === null
          ? `${what} despacio.`
          : `${what} despacio a ${f.testPressure(bar, units)}.`,
      besides,
    });

  const INSTRUCTIONS = {
    prepare: {
      connect: always('Conectar el aparato.', 'Sin conexión: sin alarmas.'),
      'left-open': always(
        'Cortar el aire, alejarse.',
        'Puede haber un packer lleno sin vigilar. Cerrar la llave de aire, ver el manómetro, conectar y reanudar.',
      ),
      'left-open-seen': always(
        'Cortar el aire, alejarse.',
        'Puede haber un packer lleno, y sin reanudar no se vigila ningún límite. Ver el manómetro, reanudar.',
      ),
      'left-full': always(
        'Cortar el aire, alejarse.',
        'El packer de una sesión anterior no se vio vacío. Cerrar la llave de aire, ver el manómetro.',
      ),
      resume: always('Reanudar, o elegir el packer.', 'Una sesión de práctica quedó sin cerrar.'),
      packer: always('Elegir el packer.', 'Sin límite: no se avisa de sobrepresión.'),
      'packer-limited': always('Elegir el packer.', 'Hasta entonces vale el techo de la sesión anterior.'),
      zero: always(
        'Abrir el acople, poner a cero.',
        'Ver que está abierto. La lectura debe estar quieta cerca de cero.',
      ),
      pressure: always(
        'Primero, vaciar la línea.',
        'Está bajo presión: cerrar la llave de aire, abrir la purga, lejos. Ahora nunca abrir un acople.',
      ),
      'supply-failed': always(
        'Suministro sin probar: ver Revisiones.',
        'La manguera, fuera del packer hasta saber por qué.',
      ),
      'supply-open': always(
        'Abrir el suministro.',
        'Manguera fuera del packer, extremo cerrado. Abrir la llave de golpe y mucho; sujetar la manguera.',
      ),
      'supply-rises': always('Esperar: el suministro sube.', 'Tiene que estabilizarse.'),
      'supply-asked': always(
        '¿Está el packer en la manguera?',
        'La línea se llena más despacio que una manguera. Si lo está: cerrar la llave de aire en el acto.',
      ),
      'supply-watch': ((told) => {
        const bar = to(told);
        const left = time(told);
        return {
          say: left === null ? 'Esperar: se mide la subida.' : `Esperar ${left}: se mide la subida.`,
          besides: bar === null ? 'No tocar nada.' : `Está a ${bar}. No tocar nada.`,
        };
      }) as Say,
      'supply-lower': ((told) => {
        const bar = to(told);
        return {
          say: 'Bajar el regulador, no acoplar.',
          besides:
            bar === null
              ? 'El suministro está sobre el techo. Purgar antes un poco: puede haberse pasado.'
              : `El suministro está a ${bar}, sobre el techo. Purgar antes un poco: puede haberse pasado.`,
        };
      }) as Say,
      'supply-shut': ((told) => {
        const bar = to(told);
        return {
          say: 'Cerrar la llave de aire y pulsar.',
          besides:
            bar === null
              ? 'La línea tiene que aguantar lo que tiene.'
              : `Estaba a ${bar}. La línea tiene que aguantarlo.`,
        };
      }) as Say,
      'supply-tight': ((told) => {
        const left = time(told);
        return {
          say: 'Esperar, la llave sigue cerrada.',
          besides: left === null ? '¿Aguanta la línea?' : `¿Aguanta la línea ${left} más?`,
        };
      }) as Say,
      'supply-vent': ((told) => {
        const bar = to(told);
        return {
          say: 'Abrir la purga: vaciar la línea.',
          besides: bar === null ? 'El suministro está probado.' : `El suministro está probado, ${bar}.`,
        };
      }) as Say,
      checklist: always(
        'Responder los puntos de seguridad.',
        'Están en la lista de control y se preguntan antes del aire.',
      ),
      sound: always(
        'Probar el sonido de la alarma.',
        'Una vez al día, antes de dar aire: escuchar junto a la llave.',
      ),
      warm: always(
        'Calentar las sondas en la mano.',
        'Antes de mezclar la resina, cada una junto a un termómetro.',
      ),
      mix: always('Mezclar la resina y pulsar.', 'Al pulsar arranca el reloj de la vida de la mezcla.'),
      'mix-unproved': always(
        'Mezclar la resina y pulsar.',
        `${PROVE_FIRST} Al pulsar arranca la vida de la mezcla.`,
      ),
      'ready-unproved': always('Acoplar la manguera y empezar.', `${PROVE_FIRST} ${NOBODY}`),
      ready: ((told) => {
        const left = timeLeft(told);
        return {
          // The time alone was read as an order to let air in.
          say: left === null ? 'Acoplar la manguera y empezar.' : `Quedan ${left} para asentar.`,
          besides: `Acoplar la manguera, llave cerrada. ${NOBODY}`,
        };
      }) as Say,
    },
    seat: {
      open: (told) => ({ ...openTo(told), besides: `La manguera está acoplada al packer. ${NOBODY}` }),
      'was-over-rated': overRated('Desinflar del todo el packer.'),
      stands: STANDS,
      ...NOT_RISING,
      shut: always('Cerrar la llave.', 'Se ha llegado a la presión de asiento.'),
      'find-loss': FIND_LOSS,
      jumped: JUMPED,
      settle: ((told) => {
        const left = time(told);
        return {
          say: SHUT_LEAVE,
          besides: left === null ? 'Se estabiliza.' : `Se estabiliza. Leer el manómetro dentro de ${left}.`,
        };
      }) as Say,
      compare: always('Escribir lo que marca el manómetro.', 'Entretanto, llave cerrada.'),
      compared: always('Empezar a inflar.', 'Manómetro y sensor coinciden.'),
      differs: always(
        'Averiguar cuál falla.',
        'Manómetro y sensor discrepan: hasta entonces, creer la lectura más alta.',
      ),
    },
    inflate: {
      open: openTo,
      stands: STANDS,
      ...NOT_RISING,
      'was-over-rated': overRated('Desinflar del todo el packer.'),
      'find-loss': FIND_LOSS,
      jumped: JUMPED,
      ready: always('Listos en la llave.', 'Antes de cerrarla hay una cuenta atrás.'),
      'count-down': ((told) => ({
        say: `En ${time(told) ?? 'un momento'}: cerrar la llave.`,
        besides: NOBODY,
      })) as Say,
      'shut-now': always('Cerrar la llave ya.', 'Después, dejarla cerrada.'),
      'too-fast': ((told) => {
        const late = to(told);
        return {
          say: 'Muy rápido: cerrar algo la llave.',
          besides: late === null ? 'Una mano llegaría tarde.' : `Una mano llegaría tarde por ${late}.`,
        };
      }) as Say,
      uncounted: always(
        'Listos en la llave.',
        'Sin cuenta atrás: la subida no es regular. Guiarse por la presión.',
      ),
      'reads-low': ((told) => {
        const bar = to(told);
        return {
          say: bar === null ? 'Guiarse por el manómetro.' : `Por el manómetro, hasta ${bar}.`,
          besides: 'El sensor lee de menos: su número, su techo y su cuenta son falsos.',
        };
      }) as Say,
      'no-limit': always('Guiarse por la placa del packer.', 'Sin límite: no se avisa de sobrepresión.'),
      'in-band': always(SHUT_LEAVE, 'En la banda de trabajo y quieta: empezar la retención.'),
      over: ((told) => {
        const bar = to(told);
        return {
          say: bar === null ? 'Abrir un poco la purga.' : `Purgar despacio hasta ${bar}.`,
          besides: 'Sobre la banda de trabajo. Primero, cerrar la llave de aire.',
        };
      }) as Say,
    },
    hold: {
      'was-over-rated': overRated('Desinflar del todo el packer.'),
      'top-up': topUp('Bajo el mínimo: la manga puede despegarse de la pared.'),
      'top-up-soon': topUp('Cae hacia el mínimo. Buscar la fuga.'),
      'top-up-unknown': topUp('Hay fuga, y el mínimo no se sabe. Buscar la fuga.'),
      'leak-slow': always(
        'Buscar la fuga.',
        'Aún no reponer: el tiempo de curado llega antes que el mínimo.',
      ),
      'reads-low': always(
        'Leer el manómetro.',
        'El sensor lee de menos: no dar aire por su número. Escribir lo que marca el manómetro.',
      ),
      unread: always('Guiarse por el manómetro.', 'La lectura no se mueve: con ella no se vigila nada.'),
      'leak-high': ((told) => {
        const bar = to(told);
        return {
          say: 'Buscar la fuga.',
          besides: bar === null ? 'No reponer.' : `No reponer: no ha bajado de ${bar}.`,
        };
      }) as Say,
      'find-loss': FIND_LOSS,
      jumped: JUMPED,
      'vent-open': always(
        'Cerrar la purga, o decir desinflar.',
        'La purga se dio por abierta: el packer se vacía. Nadie junto al packer.',
      ),
      keep: always(LEAVE, 'Mirar esta pantalla a menudo.'),
      lift: ((told) => {
        const bar = to(told);
        return {
          say: LEAVE,
          besides:
            bar === null
              ? 'El calor del curado subirá la presión.'
              : `El calor del curado subirá la presión a ${bar}.`,
        };
      }) as Say,
      met: always('Tocar la muestra testigo.', 'La guardada a la temperatura del tubo. ¿Está dura?'),
      soft: always(LEAVE, 'La muestra testigo no está dura. Tocarla otra vez más tarde.'),
      warm: always('Tocar la muestra testigo.', 'La que se anotó no estuvo a la temperatura del tubo.'),
      early: always(LEAVE, 'La muestra consta como dura, el tiempo de curado no se ha alcanzado.'),
      doubted: always(
        'Ver dónde se guardó la muestra.',
        'Dura demasiado pronto: ¿más caliente que el tubo, o de otra resina? Dejar el packer con presión.',
      ),
      hard: always(
        'Empezar a desinflar.',
        'Muestra anotada como dura, tiempo de curado de la ficha técnica alcanzado.',
      ),
      'cure-not-judged': always(
        'Tocar la muestra testigo.',
        'La resina cura con luz: mirar si está dura toda ella.',
      ),
    },
    'let-down': {
      open: always('Desinflar despacio.', 'Una línea a cero no es un packer vacío.'),
      shut: always('Cerrar la purga: prueba.', 'Una línea a cero no es un packer vacío.'),
      wait: ((told) => {
        const left = time(told);
        return {
          say: 'Esperar, la purga sigue cerrada.',
          besides:
            left === null
              ? 'La lectura tiene que seguir en cero.'
              : `La lectura tiene que seguir en cero ${left} más.`,
        };
      }) as Say,
      stayed: (told) => ({ say: stayed(told), besides: KINK }),
      back: always('Abrir otra vez la purga.', 'El packer no está vacío: nadie tira, nadie desacopla.'),
      'reads-low': always(
        'Leer el manómetro.',
        'El sensor lee de menos: su cero no es cero. Seguir desinflando, escribir lo que marca el manómetro.',
      ),
      broken: always('Purgar a cero, probar otra vez.', 'La prueba se interrumpió y no dice nada.'),
      lost: always('Mantenerse lejos.', 'Sin lectura: tratar el packer como lleno.'),
    },
    done: {
      stayed: pull,
      'was-over-rated': overRated('Puede tener aire.'),
      'reads-low': LOW_ZERO,
      untested: always(
        'Purgar, cerrar la purga, probar.',
        'Puede tener aire: ninguna prueba lo ha visto seguir en cero.',
      ),
      unseen: always(
        'Tratar el packer como lleno.',
        'El sensor no lo ve aquí: una línea a cero no dice nada de él.',
      ),
      pressure: always('Aún bajo presión.', 'Desinflar antes de mover nada.'),
    },
    'air-test': {
      none: always(
        'No hay ensayo con aire previsto.',
        'La hoja de trabajo dice el método. Acabar, o elegir uno.',
      ),
      coarse: always(
        'Usar un sensor más fino.',
        'Su incertidumbre pasa de un décimo de la caída admitida: el plan dice cuál serviría.',
      ),
      plugs: always(
        'No ensayar aquí con aire.',
        'El agua freática pide más aire del que se da a los obturadores.',
      ),
      begin: always(
        'Poner y apuntalar obturadores.',
        'Packer fuera, tubo vacío. Un obturador puede salir disparado: nadie en su línea ni en el pozo.',
      ),
      fill: slowly('Dar aire', `Vigilar este número todo el rato. ${NO_PLUG}`),
      'top-up': slowly('Reponer', `Bajo la presión de ensayo no corre el tiempo de estabilizar. ${NO_PLUG}`),
      stabilise: always(SHUT_LEAVE, `El aire se estabiliza. ${NO_PLUG}`),
      'let-out': slowly(
        'Purgar',
        'Después cerrar purga y llave de aire y quitar el suministro: el tiempo empieza solo.',
      ),
      'bring-up': slowly('Dar aire', 'Después cerrarlo y quitar el suministro: el tiempo empieza solo.'),
      settle: always('No tocar nada.', 'Está a la presión de ensayo: el tiempo empieza solo.'),
      timing: always('No tocar nada.', `Se mide la caída. ${NO_PLUG}`),
      vent: always('Abrir la purga: todo el aire.', NO_PLUG),
      passed: always(
        'Soltar despacio los obturadores.',
        'Superado. A cero, una manguera doblada aún puede esconder aire: fuera de su línea.',
      ),
      failed: always(
        'Buscar por dónde se va el aire.',
        'No superado. También pierden obturadores y mangueras: enjabonarlos, ensayar otra vez.',
      ),
      unsaid: always(
        'Esperar más, ensayar otra vez.',
        'No se puede decir si aguanta: dejar que el aire tome la temperatura del tubo, dar sombra al sensor.',
      ),
      broken: always('Ensayar otra vez, o acabar.', 'El ensayo se interrumpió y no dice nada.'),
    },
    abandoned: {
      pressure: always('Desinflar despacio.', 'Antes de mover nada. Nadie junto al packer.'),
      'reads-low': LOW_ZERO,
      zero: always('Cerrar la purga y probar.', 'Puede tener aire: probar antes de mover nada.'),
      stayed: pull,
    },
  } satisfies Record<Stage, Record<string, Say>>;

  return { INSTRUCTIONS };
}
