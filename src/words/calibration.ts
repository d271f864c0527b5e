import { chosen } from './chosen.ts';

export const { CALIBRATION, CALIBRATION_REFUSAL } = chosen('calibration');
