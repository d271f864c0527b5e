import type { Format } from '../create-format.ts';
import * as about from './about.ts';
import { account } from './account.ts';
import * as archive from './archive.ts';
import * as backup from './backup.ts';
import * as bench from './bench.ts';
import * as budget from './budget.ts';
import * as calibration from './calibration.ts';
import * as card from './card.ts';
import * as checklists from './checklists.ts';
import * as docs from './docs.ts';
import * as due from './due.ts';
import { events } from './events.ts';
import { evidence } from './evidence.ts';
import * as fields from './fields.ts';
import * as handover from './handover.ts';
import * as help from './help.ts';
import * as history from './history.ts';
import * as maps from './maps.ts';
import * as office from './office.ts';
import * as photos from './photos.ts';
import { plan } from './plan.ts';
import * as records from './records.ts';
import * as review from './review.ts';
import * as settings from './settings.ts';
import * as sheet from './sheet.ts';
import * as site from './site.ts';
import type { watch } from './watch.ts';
import * as witness from './witness.ts';

/** What the other pages say. */
export const further = (format: Format, seen: ReturnType<typeof watch>) => ({
  about,
  account: account(format, seen.supply),
  archive,
  backup,
  bench: { ...bench, ...bench.benchReasons(format) },
  budget,
  calibration,
  card,
  checklists,
  docs,
  due,
  events: events(format, seen.alarms, seen.hold, seen.supply, seen.airTest, seen.cup),
  evidence: evidence(format),
  fields,
  handover,
  help,
  history,
  maps,
  office,
  photos,
  plan: plan(seen.refusals),
  records,
  review,
  settings,
  sheet,
  site,
  witness,
});
