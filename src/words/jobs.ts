import { chosen } from './chosen.ts';

export const { JOBS } = chosen('jobs');
