/** What the bare page says before and without any program; the names under which the browser installs it. */
export const PAGE = {
  name: 'Steadybar',
  description: 'Packer pressure and cure watch for pipe repairs',
  noScript: 'Steadybar needs JavaScript. Watch the dial gauge.',
  /** Where the program does not start. */
  guard: {
    title: 'Steadybar could not start',
    nothing: 'Nothing is being watched and no alarm can come. Watch the dial gauge and keep clear.',
    todo: 'Reload this page. If it stays like this, close every window of Steadybar and open it again, bring the browser up to date, or use another one. Runs and documents that were saved stay in this browser: do not clear its data.',
    reload: 'Reload this page',
    detail: 'What the browser says:',
    late: 'nothing; the program did not come in time.',
    missing: 'a part of the program could not be had:',
  },
};
