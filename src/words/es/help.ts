/** Donde una cuadrilla se para y pregunta: qué es esto, qué hago. De dos a cuatro frases, leídas en el sitio. */
export const HELP = {
  supply:
    'Antes de que el packer esté en la manguera, se abre el suministro contra un extremo cerrado. Donde se estabiliza es hasta donde lo llevaría una llave que se deja abierta: tiene que quedar por debajo del techo. Si sigue subiendo solo, el regulador deja pasar aire (subida lenta): repararlo o poner otro. Después, vaciar la manguera por la purga antes de acoplar nada.',
  zero: 'Con el acople abierto a la vista no hay presión en la línea: lo que lee entonces el sensor es su propio error, y se resta desde ese momento. Nunca poner a cero una línea que pueda estar bajo presión: el error quedaría escondido en cada lectura. Si el cero se rechaza por estar demasiado lejos, la línea no está abierta o el sensor está dañado.',
  gauge:
    'El manómetro es la segunda opinión sobre el único sensor: con la llave cerrada, los dos tienen que marcar lo mismo. Mirarlo de frente y escribir lo que marca, no lo que dice la pantalla. Si difieren, vale el más alto, y se busca cuál está mal antes de meter más aire.',
  probe:
    'Tener juntos la sonda y el termómetro en la mano caliente hasta que los dos estén quietos. Una sonda que no sigue está en cortocircuito, invertida o en otro canal, y haría parecer caliente una manga fría. Se hace antes de mezclar la resina: hasta entonces la sonda no gana tiempo de curado por encima de la temperatura del terreno.',
  sample:
    'Un poco de la misma mezcla se guarda tan frío como el tubo: bajado con una cuerda, no en el furgón, y nadie entra por él. Se toca antes de desinflar: si no está dura, se espera, diga lo que diga la cuenta. Una muestra guardada en caliente está dura horas antes y no prueba nada.',
  cup: 'Un vaso de la misma mezcla con una sonda dentro muestra si este lote reacciona como debe: se calienta antes que la manga, que es fina. Pesar lo que se echa: más masa se calienta más y va más rápido. Habla del lote, no de la manga: la muestra testigo se toca igual.',
  working:
    'La presión de trabajo es a la que se retiene el packer. Queda por encima del mínimo, bajo el cual la manga se puede soltar de la pared, y por debajo del techo, que es la presión admisible menos la incertidumbre de la lectura. Una línea cerrada sube cuando la resina se calienta, sin más aire: la propuesta del plan deja sitio para eso.',
  tap: 'La toma es donde la línea del sensor sale de la línea de aire. Seguir la manguera con la mano desde el sensor hasta el packer: con una válvula antirretorno, un acople que se cierra solo o una llave cerrada en medio, el sensor lee el suministro y no el packer. Entonces solo se avisa de sobrepresión; la retención y la fuga no se juzgan.',
  airTest:
    'La reparación terminada se cierra con un obturador en cada extremo, se lleva a la presión de ensayo y se deja reposar; después se mide la caída de presión. La pantalla lleva paso a paso, y el resultado cuenta con la incertidumbre del sensor. También puede fugar un obturador o una manguera: enjabonarlos antes de culpar a la reparación. Nadie junto a los obturadores mientras haya aire entre ellos.',
  marks:
    'La escala es la presión, desde cero abajo hasta por encima de la admisible arriba. La admisible es el tope del packer, y en el techo, por debajo, llega la alarma. La placa llena es donde debe acabar la etapa; por debajo del mínimo la manga se puede soltar. También se ve hasta dónde llevará el calor del curado una línea cerrada.',
  seal: 'Sellar firma el registro con la clave propia de este ordenador: quien tenga el fichero ve si algo se cambió desde entonces. No prueba dónde estaba el sensor ni que el reloj fuera bien. Otro ordenador que refrenda el diario de control recuerda dónde acababa: así no se puede quitar ni rehacer una sesión sin que se note.',
  registers:
    'El mapa dice en qué registros del aparato están la presión y las temperaturas, y cómo sus números pasan a bar y °C. Todo está en la lista de registros del fabricante: dirección, tipo, orden de las palabras, escala. Probarlo antes de un trabajo: con el acople abierto tiene que leer cero, y con aire en la línea, lo que marca el manómetro.',
  columns:
    'Cada línea del aparato es una lectura; sus valores están en columnas contadas desde 1 por la izquierda, o llevan nombre. Decir cuál es la presión y cuáles son temperaturas, cada una en su unidad. Probarlo antes de un trabajo: con el acople abierto tiene que leer cero, y con aire en la línea, lo que marca el manómetro.',
};
