import type { HANDOVER as ENGLISH } from '../en/handover.ts';

export const HANDOVER: typeof ENGLISH = {
  make: 'Paquete para el cliente',
  what: 'Un fichero con el registro, su certificado, las fotos y cómo comprobarlos. El certificado en PDF: abrirlo e imprimir.',
  making: 'Juntando el paquete',
  saved: 'El paquete está guardado.',
  share: 'Compartir',
  shareRest: 'Compartir certificado y fotos',
  shareRestText:
    'Este navegador no comparte ficheros zip: el paquete con el registro se guarda aquí, enviarlo aparte.',
  shareTitle: 'Registro de una reparación',
  shared: 'Entregado.',
  print: 'Imprimir, o guardar como PDF',
  again: 'Guardar otra vez el paquete',
};
