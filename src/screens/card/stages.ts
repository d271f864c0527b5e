import type { Setup } from '../../job/setup.ts';
import type { Stage } from '../../watch/codes.ts';
import type { DisplayUnits } from '../../words/format.ts';
import { INSTRUCTIONS as I } from '../../words/orders.ts';

export interface CardStage {
  readonly stage: Stage;
  /** What the live page says in it, one after the other. */
  readonly says: readonly string[];
}

/** The work in its order, each stage with the sentences that the live page has for it. @param setup null: of no job */
export function cardStages(setup: Setup | null, units: DisplayUnits): readonly CardStage[] {
  const limits = setup?.limits ?? null;
  const seat = { bar: limits?.seatBar ?? null, units };
  const working = { bar: limits?.workingBar ?? null, units };
  const all: readonly (readonly [Stage, readonly { readonly say: string }[]])[] = [
    ['prepare', [I.prepare.zero(), I.prepare.mix(), I.prepare.ready()]],
    ['seat', [I.seat.open(seat), I.seat.shut(), I.seat.compare()]],
    ['inflate', [I.inflate.open(working), I.inflate.ready(), I.inflate['in-band']()]],
    ['hold', [I.hold.keep(), I.hold.met()]],
    ['let-down', [I['let-down'].open(), I['let-down'].shut(), I['let-down'].wait()]],
    ['done', [I.done.stayed()]],
    ['air-test', [I['air-test'].begin(), I['air-test'].timing(), I['air-test'].vent()]],
  ];
  return all
    .filter(([stage]) => stage !== 'seat' || limits === null || limits.seatBar !== null)
    .filter(([stage]) => stage !== 'air-test' || setup === null || setup.airTest !== undefined)
    .map(([stage, told]) => ({ stage, says: told.map((t) => t.say) }));
}
