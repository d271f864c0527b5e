import type { ShownCaution } from '../said/cautions-at.ts';

export { CAUTIONS_AT } from '../said/cautions-at.ts';

export const CAUTION: Record<ShownCaution, string> = {
  'not-a-safety-device':
    'Este programa vigila y avisa. No es un dispositivo de seguridad ni sustituye a una válvula de seguridad.',
  'stored-energy':
    'Un packer inflado almacena energía: un reventón puede matar. Mantenerse fuera de la línea del tubo y lejos de la boca. Nunca inflar un packer fuera de un tubo o confinamiento más de lo que permite su fabricante. Usar un regulador, y una válvula de seguridad tarada a la presión admisible o por debajo.',
  'big-packer':
    'Los packers grandes a baja presión no son más seguros: la energía almacenada y la fuerza en los extremos crecen con el volumen y el área.',
  unrestrained:
    'Sobre un hueco, una pared que falta, una acometida abierta o con un extremo fuera, un packer no está confinado: puede reventar por debajo de su admisible.',
  'hose-whip': 'Las mangueras dan latigazos: nunca abrir un acople bajo presión.',
  'dammed-water':
    'Un tubo taponado embalsa su agua: sótanos aguas arriba, empuje sobre el packer, una oleada al soltarlo.',
  'explosive-gas':
    'El gas de alcantarilla y el estireno pueden explotar: la electrónica y los cables en la boca necesitan lo que pidan las normas locales.',
  'no-warning': 'Sin aviso no significa sin peligro.',
  'resin-hazard':
    'Isocianatos, estireno, peróxidos, endurecedores epoxi: seguir la ficha de datos de seguridad, ventilar, llevar guantes. La resina mezclada que sobra en un cubo se calienta y puede arder.',
  'confined-space':
    'Entrar en pozos es trabajo en espacio confinado: seguir la ley local y tener el permiso.',
  'engineer-design':
    'El cálculo de una reparación (espesor, idoneidad) es de un técnico competente donde la ley lo diga. Los números del plan son una comprobación, no un proyecto.',
  empty:
    'Una manguera purgada marca cero mucho antes de que un packer grande esté vacío, y un doblez o una válvula antirretorno puede marcar cero para siempre. Este programa no puede decir que un packer se pueda sacar.',
  plugs:
    'El aire entre obturadores almacena energía: un obturador que resbala sale disparado y puede matar, también a una décima de bar. Apuntalar los dos, nadie en el pozo ni en línea con el tubo, nunca más de lo que pide el ensayo, todo el aire fuera antes de tocar un obturador. Seguir al fabricante de los obturadores y las normas locales.',
  witness:
    'Antes de desinflar, tocar la muestra testigo guardada a la temperatura del tubo. Una muestra de una furgoneta caliente endurece horas antes.',
};
