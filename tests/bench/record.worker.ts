import { createOpfsStore } from '../../src/record/stores/opfs.ts';
import { measureRecord } from './recordWork.ts';

createOpfsStore('bench')
  .then(measureRecord)
  .then(
    (times) => self.postMessage({ times }),
    (error: unknown) => self.postMessage({ error: String(error) }),
  );
