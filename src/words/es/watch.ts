import type { Format } from '../create-format.ts';
import { airTest } from './air-test.ts';
import { alarms } from './alarms.ts';
import * as beside from './beside.ts';
import * as cautions from './cautions.ts';
import * as checks from './checks.ts';
import { cup } from './cup.ts';
import * as demo from './demo.ts';
import { doubts } from './doubts.ts';
import * as face from './face.ts';
import { hold } from './hold.ts';
import { instructions } from './instructions.ts';
import { lanes } from './lanes.ts';
import * as live from './live.ts';
import { orders } from './orders.ts';
import { practice } from './practice.ts';
import { refusals } from './refusals.ts';
import * as slots from './slots.ts';
import * as sources from './sources.ts';
import { supply } from './supply.ts';
import * as terms from './terms.ts';
import * as zero from './zero.ts';

export const watch = (format: Format) => {
  const said = alarms(format);
  const supplied = supply(format);
  return {
    airTest: airTest(format),
    alarms: said,
    cautions,
    checks,
    cup: cup(format),
    demo,
    doubts: doubts(format),
    face,
    hold: hold(format),
    lanes: lanes(format),
    live,
    orders: { ...orders(format, said), ...instructions(format), ...slots },
    practice: practice(format),
    refusals: refusals(format),
    beside,
    sources,
    supply: supplied,
    terms,
    zero,
  };
};
