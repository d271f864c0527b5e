// What the tests need beyond npm's packages: a Chromium and a C compiler. Found where they usually are, installed
// by apt on Debian as root, else named in one line so that the user can install them.

import { spawn, spawnSync } from 'node:child_process';
import { accessSync, constants, existsSync, readFileSync } from 'node:fs';
import path from 'node:path';

const BROWSERS = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
];

/** Where Debian keeps libraries, by processor. */
const LIB_FOLDERS = ['x86_64-linux-gnu', 'aarch64-linux-gnu'];

function onPath(name) {
  for (const dir of (process.env.PATH ?? '').split(path.delimiter)) {
    const file = path.join(dir, name);
    try {
      accessSync(file, constants.X_OK);
      return file;
    } catch {
      // not here
    }
  }
  return null;
}

export const isRoot = () => typeof process.getuid === 'function' && process.getuid() === 0;

function isDebian() {
  return (
    existsSync('/etc/os-release') && /^(ID|ID_LIKE)=.*debian/m.test(readFileSync('/etc/os-release', 'utf8'))
  );
}

export function findChromium() {
  const named = process.env.CHROMIUM_PATH;
  if (named && existsSync(named)) return named;
  return BROWSERS.find((file) => existsSync(file)) ?? onPath('chromium') ?? onPath('google-chrome') ?? null;
}

export const findCompiler = () => onPath('cc') ?? onPath('gcc') ?? onPath('clang') ?? null;

let updated = false;
function apt(packages) {
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  if (!updated) spawnSync('apt-get', ['update', '-qq'], { stdio: 'inherit', env });
  updated = true;
  console.log(`installing ${packages.join(' ')} by apt-get …`);
  return (
    spawnSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...packages], {
      stdio: ['ignore', 'ignore', 'inherit'],
      env,
    }).status === 0
  );
}

/**
 * @param {{ name: string, find: () => string | null, packages: string[], hint: string }} need
 * @returns {string | null} the program's path, or null after one line that says what to install
 */
function provide({ name, find, packages, hint }) {
  const found = find();
  if (found) return found;
  if (isRoot() && isDebian() && onPath('apt-get') && apt(packages)) {
    const installed = find();
    if (installed) return installed;
  }
  console.log(`not found: ${name}; install ${hint}`);
  return null;
}

export const provideChromium = () =>
  provide({
    name: 'Chromium',
    find: findChromium,
    packages: ['chromium'],
    hint: 'Chromium or Chrome, or set CHROMIUM_PATH to its program file',
  });

export const provideCompiler = () =>
  provide({
    name: 'a C compiler',
    find: findCompiler,
    packages: ['gcc', 'libc6-dev'],
    hint: 'gcc or clang with the C library headers',
  });

const FIREFOXES = [
  '/usr/bin/firefox-esr',
  '/usr/bin/firefox',
  '/Applications/Firefox.app/Contents/MacOS/firefox',
];

function findFirefox() {
  const named = process.env.FIREFOX_PATH;
  if (named && existsSync(named)) return named;
  return FIREFOXES.find((file) => existsSync(file)) ?? onPath('firefox') ?? null;
}

export const provideFirefox = () =>
  provide({
    name: 'Firefox',
    find: findFirefox,
    packages: ['firefox-esr'],
    hint: 'Firefox 151 or later, or set FIREFOX_PATH to its program file',
  });

const WEBKIT = ['webkit2gtk-driver', 'xvfb'];

/** WebKitGTK's small browser, which comes with its library; null where its driver or a screen for it is missing. */
function findMiniBrowser() {
  if (onPath('WebKitWebDriver') === null || onPath('Xvfb') === null) return null;
  const named = process.env.MINIBROWSER_PATH;
  if (named && existsSync(named)) return named;
  const libraries = [
    '/usr/lib',
    ...LIB_FOLDERS.map((folder) => path.join('/usr/lib', folder)),
    '/usr/libexec',
  ];
  for (const library of libraries)
    for (const version of ['webkitgtk-6.0', 'webkit2gtk-4.1', 'webkit2gtk-4.0']) {
      const file = path.join(library, version, 'MiniBrowser');
      if (existsSync(file)) return file;
    }
  return null;
}

export const provideWebKit = () =>
  provide({
    name: 'WebKitGTK’s MiniBrowser with its WebDriver, and Xvfb',
    find: findMiniBrowser,
    packages: WEBKIT,
    hint: 'WebKitGTK with its WebDriver and Xvfb (Debian: webkit2gtk-driver xvfb)',
  });

/** The other engines' browsers that are not here, by Debian's packages. */
export const missingEngines = () => [
  ...(findFirefox() === null ? ['firefox-esr'] : []),
  ...(findMiniBrowser() === null ? WEBKIT : []),
];

/** What the firmware's ports are compiled with and run in: each by the file that is looked for, and Debian's packages. */
const CROSS = [
  [() => onPath('avr-gcc') !== null && existsSync('/usr/lib/avr/include/avr/io.h'), ['gcc-avr', 'avr-libc']],
  [() => onPath('arm-none-eabi-gcc') !== null, ['gcc-arm-none-eabi']],
  [
    () => existsSync('/usr/include/simavr/sim_avr.h') && existsSync('/usr/include/libelf.h'),
    ['libsimavr-dev', 'libelf-dev'],
  ],
];

export const missingCross = () => CROSS.flatMap(([isHere, packages]) => (isHere() ? [] : packages));

/**
 * Begins to install what takes a minute or two, beside the parts that need none of it.
 * @param {readonly string[]} missing Debian's packages
 * @returns {() => Promise<void>} waits for the end of it
 */
export function beginInstall(missing) {
  if (missing.length === 0 || !isRoot() || !isDebian() || !onPath('apt-get')) return async () => {};
  console.log(`installing ${missing.join(' ')} by apt-get, beside the tests …`);
  const update = updated ? '' : 'apt-get update -qq; ';
  const install = `${update}exec apt-get install -y -qq --no-install-recommends ${missing.join(' ')}`;
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const child = spawn('sh', ['-c', install], { stdio: ['ignore', 'ignore', 'inherit'], env });
  const ended = new Promise((resolve) => {
    child.on('error', resolve);
    child.on('exit', resolve);
  });
  return async () => {
    await ended;
  };
}

/** Tools that the full run looks for besides: each by the command that is looked for and Debian's package. */
export function provideTools(commands) {
  const missing = Object.entries(commands).filter(([command]) => onPath(command) === null);
  if (missing.length > 0 && isRoot() && isDebian()) apt([...new Set(missing.map(([, name]) => name))]);
  for (const [command, name] of missing)
    if (onPath(command) === null) console.log(`not found: ${command}; install ${name}`);
}

export { onPath };
