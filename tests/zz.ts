import { openStand } from '/work/wt/show/tests/stand/stand.ts';
import { keepJob, upToHold } from '/work/wt/show/tests/stand/repair.ts';
const s = await openStand({folder:'/work/wt/show/dist'});
let t=performance.now();
const lap=(w:string)=>{console.log(w,((performance.now()-t)/1000).toFixed(1));t=performance.now();};
try { await keepJob(s); await upToHold(s); lap('to hold'); 
const v=await s.view(); console.log(v.bar, v.alarms.map(a=>a.alarm+a.state));
for (let i=0;i<3;i++){ await s.pass(300); lap('300 s'); }
const w=await s.view(); console.log(w.bar, w.cure, w.alarms.map(a=>a.alarm+a.state));
} finally { await s.close(); console.log(s.faults); }
