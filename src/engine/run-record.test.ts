import { describe, expect, it, vi } from 'vitest';
import { scanRun } from '../record/reader.ts';
import { StoreError } from '../record/stores/store.ts';
import { fileOf } from './run-list.ts';
import { openSideFiles } from './side-files.ts';
import { snapshotName } from './snapshot.ts';
import { createCurrentBench } from './testing/current.ts';
import { restoredRows } from './trace.ts';

async function recording(runId: string) {
  const b = createCurrentBench();
  b.greet();
  const { record, released } = await b.record(runId);
  b.current.startRecorded(record, b.current.live.early?.entries() ?? [], 0);
  record.begin();
  /** Half seconds of samples, each flushed as the pulse does. */
  const halves = async (n: number) => {
    for (let i = 0; i < n; i++) {
      await b.stream(10, 0.5);
      record.flush();
    }
  };
  return { b, record, released, halves };
}

describe('what is put to rest of an open run', () => {
  it('is its pages with each flush, and its line in the list at once and then every half minute', async () => {
    const { b, record, halves } = await recording('r-1');
    await b.timers.run(0);
    expect(await b.runList.list()).toMatchObject([{ runId: 'r-1', state: 'open', readings: 0 }]);
    await halves(1);
    const scan = scanRun(await b.files.kill().readAll(fileOf('r-1')));
    expect(scan).toMatchObject({ samples: 10, end: null, damage: [] });
    expect(record.view()).toMatchObject({ runId: 'r-1', resumed: false, storeFault: null });
    expect(record.view().savedUs).toBe(record.run.nowUs);
    await halves(58);
    await b.timers.run(0);
    expect((await b.runList.list())[0]?.readings).toBe(0);
    await halves(1);
    await b.timers.run(0);
    expect((await b.runList.list())[0]?.readings).toBe(600);
  });

  it('is a snapshot once a minute, which goes with the run', async () => {
    const { b, record, halves } = await recording('r-2');
    await halves(119);
    const names = async () => (await b.files.list()).map((f) => f.name);
    expect(await names()).not.toContain(snapshotName('r-2'));
    await halves(1);
    await b.timers.run(0);
    expect(await names()).toContain(snapshotName('r-2'));
    await record.end().settle();
    expect(await names()).not.toContain(snapshotName('r-2'));
  });

  it('a snapshot that comes to rest after the end goes all the same', async () => {
    const { b, record, halves } = await recording('r-3');
    const { open } = b.files;
    let go = (): void => {};
    const wait = new Promise<void>((resolve) => {
      go = resolve;
    });
    b.files.open = async (name) => {
      if (name === snapshotName('r-3')) await wait;
      return open.call(b.files, name);
    };
    await halves(120);
    await record.end().settle();
    go();
    await b.timers.run(0);
    expect((await b.files.list()).map((f) => f.name)).not.toContain(snapshotName('r-3'));
  });

  it('ends with its end mark, its trace, outline and line, and then gives its names back', async () => {
    const { b, record, released, halves } = await recording('r-4');
    await halves(4);
    await b.stream(3, 0.5);
    const ending = record.end();
    expect(ending.whole).toBe(true);
    expect(released).toEqual([]);
    await ending.settle();
    expect(released).toEqual(['r-4']);
    expect(await b.runList.list()).toMatchObject([{ runId: 'r-4', state: 'ended', readings: 43 }]);
    const scan = scanRun(await b.files.readAll(fileOf('r-4')));
    expect(scan).toMatchObject({ samples: 43, end: 'ended' });
    const side = await openSideFiles(b.files, 'r-4');
    expect(restoredRows(side!)).toBe(43);
    expect((await b.files.list()).map((f) => f.name)).toContain('r-4.out');
  });

  it('gives its bytes with what was still to be written', async () => {
    const { b, record } = await recording('r-5');
    await b.stream(7, 0.5);
    expect(scanRun(record.pages(0)).samples).toBe(7);
    expect(record.pages(record.pages(0).length)).toHaveLength(0);
  });

  it('what a store refuses is told once and ends when all is kept again; an end that fails is written when there is room', async () => {
    const b = createCurrentBench();
    b.greet();
    const file = await b.files.open(fileOf('r-6'));
    let full = false;
    const { record, released } = await b.record('r-6b', {
      file: {
        get size() {
          return file.size;
        },
        append(bytes) {
          if (full) throw new StoreError('full', 'no room');
          file.append(bytes);
        },
        flush: () => file.flush(),
        truncate: (size) => file.truncate(size),
        read: (offset, length) => file.read(offset, length),
        close: () => undefined,
      },
    });
    b.current.startRecorded(record, [], 0);
    record.begin();
    full = true;
    for (let i = 0; i < 3; i++) {
      await b.stream(10, 0.5);
      record.flush();
    }
    expect(b.said).toEqual(['full']);
    expect(record.view().storeFault).toBe('full');
    full = false;
    record.flush();
    expect(b.said).toEqual(['full', null]);
    full = true;
    await b.stream(1, 0.5);
    await expect(record.writeOut()).rejects.toMatchObject({ code: 'full' });
    const ending = record.end();
    expect(ending.whole).toBe(false);
    const settled = vi.fn();
    const settling = ending.settle().then(settled);
    await b.timers.run(2000);
    expect(await b.runList.list()).toMatchObject([{ state: 'open' }]);
    expect(released).toEqual(['r-6b']);
    expect(settled).not.toHaveBeenCalled();
    full = false;
    await b.timers.run(1000);
    await settling;
    expect(await b.runList.list()).toMatchObject([{ state: 'ended' }]);
    expect(scanRun(file.read(0, file.size))).toMatchObject({ samples: 31, end: 'ended' });
  });

  it('given up ends without what waits, and stays an open run in the list', async () => {
    const { b, record, released, halves } = await recording('r-7');
    await halves(2);
    await record.end(true).settle();
    expect(released).toEqual(['r-7']);
    expect(await b.runList.list()).toMatchObject([{ runId: 'r-7', state: 'open' }]);
    expect(scanRun(await b.files.readAll(fileOf('r-7')))).toMatchObject({ samples: 20, end: null });
  });
});
