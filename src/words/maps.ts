import { chosen } from './chosen.ts';

export const {
  BAUD,
  DECIMAL_MARK,
  MAPS,
  PARITY,
  READ_FUNCTION,
  READING_UNIT,
  REGISTER_TYPE,
  REGISTERS,
  SUGGESTED_PLACE,
  WORD_ORDER,
} = chosen('maps');
