import { DEVICE_FAULTS, type DeviceFault } from '../../link/frames.ts';

interface FaultText {
  readonly now: string;
  readonly was: string;
}

const FAULT: Record<DeviceFault, FaultText> = {
  store: {
    now: 'El aparato no puede guardar su límite: tras un reinicio no vigila nada. Darle corriente estable y hacerlo reparar después de este trabajo',
    was: 'el aparato no podía guardar su límite',
  },
  watchdog: {
    now: 'El aparato se colgó y se reinició solo: mirar si su límite está activo, revisar su corriente',
    was: 'el aparato se colgó y se reinició solo',
  },
  'no-conversions': {
    now: 'La vigilancia propia del aparato está ciega: su canal de presión no convierte nada. Quedarse donde se oiga este ordenador, vigilar el manómetro, revisar el conector del sensor',
    was: 'la vigilancia propia del aparato estaba ciega: su canal de presión no convertía nada',
  },
  supply: {
    now: 'La corriente del aparato es demasiado baja: su límite se toma más bajo y no se puede subir. Revisar su corriente y el manómetro',
    was: 'la corriente del aparato era demasiado baja',
  },
  'sensor-low': {
    now: 'La vigilancia propia del aparato puede estar ciega: su sensor lee más bajo de lo que puede uno sano. Vigilar el manómetro, revisar el conector del sensor',
    was: 'la vigilancia propia del aparato pudo estar ciega: su sensor leía más bajo de lo que puede uno sano',
  },
  'no-limit': {
    now: 'El aparato no tiene un límite válido: no vigila nada hasta que aquí se ponga uno',
    was: 'el aparato no tenía un límite válido',
  },
};
const UNKNOWN: FaultText = {
  now: 'El aparato avisa de un fallo que este programa no conoce: vigilar el manómetro',
  was: 'el aparato avisó de un fallo que este programa no conoce',
};

const isKnown = (code: string | undefined): code is DeviceFault =>
  (DEVICE_FAULTS as readonly (string | undefined)[]).includes(code);

export const deviceFault = (code: string | undefined): FaultText => (isKnown(code) ? FAULT[code] : UNKNOWN);
