/**
 * Words before a command that has the real serial stack to itself: a network of its own, so that the app's fixed port is
 * free and no other browser hears of the emulated plug; pseudo-terminals of its own, since the path that a device gave
 * back is somebody else's next one, and an app that opens it again would read there; and process ids of its own, so
 * that whatever hangs in it ends with it. Linux and root only.
 */
export const APART = [
  'unshare',
  '--net',
  '--mount',
  '--pid',
  '--fork',
  '--kill-child',
  '--mount-proc',
  'sh',
  '-c',
  [
    'ip link set lo up',
    'mount -t devpts -o newinstance,ptmxmode=0666 devpts /dev/pts',
    'mount --bind /dev/pts/ptmx /dev/ptmx',
    'exec "$@"',
  ].join(' && '),
  'sh',
];
