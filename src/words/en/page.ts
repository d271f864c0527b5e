/** What the bare page says before and without any program; the names under which the browser installs it. */
export const PAGE = {
  name: 'Steadybar',
  description: 'Packer pressure and cure watch for pipe repairs',
  noScript: 'Steadybar needs JavaScript. Watch the dial gauge.',
};
