import { chosen } from './chosen.ts';

export const {
  DEVICE_GUARD,
  PLACE,
  NUMBERED,
  PLACE_TITLE,
  SECOND_TITLE,
  STAGE,
  STAGE_ACTION,
  STANDING,
  stageName,
} = chosen('terms');
