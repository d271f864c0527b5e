import { createOpfsStore } from '../../src/record/stores/opfs.ts';
import { measureRecord } from './record-work.ts';

createOpfsStore('bench')
  .then(measureRecord)
  .then(
    (times) => self.postMessage({ times }),
    (error: unknown) => self.postMessage({ error: String(error) }),
  );
