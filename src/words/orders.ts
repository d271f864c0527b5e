import { chosen } from './chosen.ts';

export type { Instruction, Told } from './en/instructions.ts';
export type { Figure, Order, Scene } from './said/orders.ts';

export const { INSTRUCTIONS, PRESSURE_SLOT, STAGE_KEY, TIME_NOW, TIME_SLOT, VERBS } = chosen('orders');
