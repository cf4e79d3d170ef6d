import { it } from 'vitest';
import { simulateDay, optionFor, searchDays } from '../../src/planner/index.ts';
import { planOn } from '../fixtures/planner/job.ts';
it('x', () => {
  for (const job of ['boat-store','parish-room','seed-workshop','net-hall'] as const) {
    const t0=performance.now();
    const plan = planOn({ job });
    const t1=performance.now();
    const run = simulateDay(plan, 0, { startMs: plan.shift.startMs });
    const t2=performance.now();
    for(let k=0;k<100;k++) simulateDay(plan, 0, { startMs: plan.shift.startMs });
    const t3=performance.now();
    console.log(job, run.kind, run.cause, new Date(run.endMs).toISOString(), run.rainSafeMs && new Date(run.rainSafeMs).toISOString(), 'idle', run.idleMs/60000, 'redo', run.redone, plan.steps.length, plan.work.sectionM2, plan.work.bay, 'prep', t1-t0, 'sim', (t3-t2)/100, 'nightSeal', plan.nightSealMs/6e4);
    if (job==='boat-store'||job==='seed-workshop') console.log(plan.steps.map((s,n)=>`${s.activity.id} ${new Date(run.startMs[n]!).toISOString().slice(11,16)}-${new Date(run.doneMs[n]!).toISOString().slice(11,16)} safe:${s.activity.forRainSafe} closes:${s.closes} after:${s.after} ${s.activity.rules}`).join('\n'));
  }
});
