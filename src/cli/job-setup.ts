import { type JobBundle, readBundle } from '../job/bundle.ts';
import type { Setup } from '../job/setup.ts';
import type { DeviceDescription } from '../plan/device.ts';
import { makeSetup } from '../plan/setup.ts';
import { fault } from './fault.ts';

/** Reads a job file. @throws InputFault naming the member */
export function readJob(text: string, name: string): JobBundle {
  const bundle = readBundle(text);
  if (bundle.ok) return bundle.value;
  const [issue] = bundle.issues;
  throw fault((f, { issues: { issueText } }) => {
    if (issue === undefined) return f.notAJob(name);
    return issue.path === '' ? f.job(name, issueText(issue)) : f.jobEntry(name, issue.path, issueText(issue));
  });
}

/** The setup that the plan makes of the job, as it would before a live run with this device. */
export function jobSetup(bundle: JobBundle, device: DeviceDescription | null): Setup {
  return makeSetup({ bundle, settings: null, device, number: 1, practice: false }).setup;
}
