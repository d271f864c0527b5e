import { chosen } from './chosen.ts';

export const { DEVICE_GUARD, PLACE, PLACE_TITLE, STAGE, STAGE_ACTION, STAGE_HINT, STANDING, stageName } =
  chosen('terms');
