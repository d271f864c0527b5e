export const ABOUT = {
  title: 'Acerca de',
  lead: 'Este programa vigila y avisa. No es un dispositivo de seguridad ni sustituye a una válvula de seguridad.',
  cautions: 'Precauciones',
  howTitle: 'Lo que hace',
  how: [
    'Lee el sensor de presión y los termopares de la línea de inflado de un packer y avisa antes de que se llegue a la presión admisible del packer.',
    'Sigue la retención y el tiempo de curado, y guarda un registro de todo lo que vino del aparato.',
    'Funciona sin red. Los registros se quedan en este navegador hasta guardarlos en otro sitio.',
  ],
  cannotTitle: 'Lo que no puede saber',
  cannot: [
    'Si el sensor está donde dice la hoja de trabajo, o lee bien: comparar el manómetro.',
    'Qué presión hay mientras no llega lectura: entonces, cerrar la llave de aire y tratar el packer como lleno.',
    'Si la resina está dura: solo lo dice la muestra testigo guardada a la temperatura del tubo.',
    'Si el packer está vacío: una línea a cero no lo dice.',
  ],
  licences: 'Bibliotecas y tipo de letra de este programa',
  licencesText: 'Cada una con su propia licencia, con el texto que la acompañaba.',
  noText: 'El paquete no trae el texto de su licencia.',
  version: (version: string) => `Steadybar ${version}`,
};
