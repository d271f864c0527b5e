import type { SensorDocument } from '../../job/sensor-document.ts';
import type { NumberRules } from '../../widgets/NumberField.tsx';

// What a sensor measures decides what its values are told in, and its uncertainties; its signal, what that is told in.

export const valueIn = ({ quantity }: SensorDocument): Pick<NumberRules, 'kind'> => ({ kind: quantity });

const SPREAD: Readonly<Record<SensorDocument['quantity'], string>> = { pressure: 'bar', temperature: 'K' };
export const spreadIn = ({ quantity }: SensorDocument) => ({ unit: SPREAD[quantity] });

const SIGNAL: Readonly<Record<SensorDocument['signal'], string>> = {
  current: 'µA',
  ratio: 'ppm',
  voltage: 'µV',
  digital: '',
  thermocouple: '',
};
export const signalIn = ({ signal }: SensorDocument) => ({ unit: SIGNAL[signal] });
