/** Threads of a browser on cores that are so many times slower, each on one of its own: by the scheduler's quotas (Linux, root). */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmdirSync, writeFileSync } from 'node:fs';

const ROOT = '/sys/fs/cgroup/cpu';
const PERIOD_US = 20_000;

export interface SlowCores {
  /** Threads that were slowed down so far. */
  readonly threads: number;
  /** Once the browser is closed. */
  stop(): void;
}

export const canSlowCores = (): boolean => existsSync(`${ROOT}/cpu.cfs_quota_us`) && process.getuid?.() === 0;

/** Renderers of the browser with this profile. */
function renderersOf(profile: string): string[] {
  return readdirSync('/proc').filter((pid) => {
    if (!/^\d+$/.test(pid)) return false;
    try {
      const line = readFileSync(`/proc/${pid}/cmdline`, 'utf8');
      return line.includes('--type=renderer') && line.includes(profile);
    } catch {
      return false;
    }
  });
}

/**
 * Each thread that runs script gets a group of its own with a share of one core; what the engine does beside it (compiling,
 * collecting) is left as fast as it is.
 * @param slower times
 */
export function slowCores(profile: string, slower: number): SlowCores {
  const groups = new Map<string, string>();
  const look = (): void => {
    for (const pid of renderersOf(profile))
      for (const tid of readdirSync(`/proc/${pid}/task`)) {
        if (groups.has(tid)) continue;
        try {
          const name = readFileSync(`/proc/${pid}/task/${tid}/comm`, 'utf8').trim();
          if (tid !== pid && !name.startsWith('DedicatedWorker')) continue;
          const group = `${ROOT}/steadybar-slow-${process.pid}-${tid}`;
          mkdirSync(group);
          writeFileSync(`${group}/cpu.cfs_period_us`, String(PERIOD_US));
          writeFileSync(`${group}/cpu.cfs_quota_us`, String(Math.round(PERIOD_US / slower)));
          // What else runs on the machine takes nothing of its share.
          writeFileSync(`${group}/cpu.shares`, '65536');
          writeFileSync(`${group}/tasks`, tid);
          groups.set(tid, group);
        } catch {
          // The thread has ended in between.
        }
      }
  };
  look();
  const timer = setInterval(look, 20);
  return {
    get threads() {
      return groups.size;
    },
    stop() {
      clearInterval(timer);
      for (const group of groups.values()) {
        try {
          rmdirSync(group);
        } catch {
          // A thread of it is still ending: an empty group does no harm.
        }
      }
    },
  };
}
