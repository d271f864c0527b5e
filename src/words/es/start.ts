import type { Format } from '../create-format.ts';
import * as alarmTitles from './alarm-titles.ts';
import * as day from './day.ts';
import * as evidenceErrors from './evidence-errors.ts';
import { issues } from './issues.ts';
import * as jobs from './jobs.ts';
import * as link from './link.ts';
import * as page from './page.ts';
import * as sound from './sound.ts';
import * as ui from './ui.ts';
import * as welcome from './welcome.ts';

export const start = (format: Format) => ({
  format,
  alarmTitles,
  day,
  evidenceErrors,
  issues: issues(format),
  jobs,
  link,
  page,
  sound,
  ui,
  welcome,
});
