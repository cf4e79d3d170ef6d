import fc from 'fast-check';
import { it } from 'vitest';
import { simulateDay } from '../../src/planner/index.ts';
import { planOn, type JobName } from '../fixtures/planner/job.ts';
import { faultsOf } from '../fixtures/planner/check-run.ts';
import { seededRandom } from '../../src/units/index.ts';
it('x', () => {
  const tally = new Map<string, number>();
  const kinds = new Map<string, number>();
  let runs = 0;
  for (let seed = 1; seed <= 60; seed++) {
    const r = seededRandom(seed);
    const job = (['boat-store','parish-room','seed-workshop','net-hall'] as JobName[])[seed % 4]!;
    const members = 4;
    const cols = Array.from({length: members}, () => ({ base: 5+25*r(), amp: 8*r(), dew: 2+10*r(), wind: 12*r()*r(), gustf: 1+r(), rainP: r()*r()*0.5, sun: 900*r(), seedr: seededRandom(seed*100+7) }));
    const rain = cols.map(c => Array.from({length: 60}, () => r() < c.rainP ? r()*2 : 0));
    const hours = r() < 0.2 ? 8 + Math.floor(12*r()) : 44;
    const air=(h:number,m:number)=>cols[m]!.base + cols[m]!.amp*Math.sin((h-9)*Math.PI/12);
    const plan = planOn({ job, weather: { members, hours, airTempC: air, dewPointC:(h,m)=>air(h,m)-cols[m]!.dew, windMps:(_h,m)=>cols[m]!.wind, gustMps:(_h,m)=>cols[m]!.wind*cols[m]!.gustf, rainMm:(h,m)=>rain[m]![h]!, solarWm2:(h,m)=>Math.max(0,cols[m]!.sun*Math.sin((h%24-5)*Math.PI/15)) }});
    for (let m=0;m<members;m++) for (let k=0;k<18;k++) {
      const run = simulateDay(plan, m, { startMs: plan.shift.startMs + k*30*60000 });
      runs++;
      kinds.set(run.kind+'/'+run.cause, (kinds.get(run.kind+'/'+run.cause)??0)+1);
      for (const f of faultsOf(plan, m, run)) { const key = f.replace(/[\d.:]+/g,'#'); if(!tally.has(key)) console.log(job, seed, m, k, f, run.kind, run.redone); tally.set(key,(tally.get(key)??0)+1); }
    }
  }
  console.log(runs, [...kinds], [...tally].sort((a,b)=>b[1]-a[1]));
});
