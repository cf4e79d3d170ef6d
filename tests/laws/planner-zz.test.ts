import { it } from 'vitest';
import { simulateDay, dayPlan, prepare, STARTER_LIMITS, type DayPlan, shiftOn } from '../../src/planner/index.ts';
import { planOn, jobOf, earlyOn, type JobName } from '../fixtures/planner/job.ts';
import { weatherOf } from '../fixtures/planner/weather.ts';
import { seededRandom } from '../../src/units/index.ts';
it('x', () => {
  const tally = new Map<string, number>(); let n=0;
  for (let seed = 1; seed <= 150; seed++) {
    const r = seededRandom(seed);
    const job = (['boat-store','parish-room','seed-workshop','net-hall'] as JobName[])[seed % 4]!;
    const members = 3;
    const cols = Array.from({length: members}, () => ({ base: 8+15*r(), amp: 6*r(), dew: 4+8*r(), wind: 8*r(), sun: 700*r(), rainP: 0.15*r() }));
    const rain = cols.map(c => Array.from({length: 60}, () => r() < c.rainP ? r()*2 : 0));
    const air=(h:number,m:number)=>cols[m]!.base + cols[m]!.amp*Math.sin((h-9)*Math.PI/12);
    const w = { members, hours:48, airTempC: air, dewPointC:(h:number,m:number)=>air(h,m)-cols[m]!.dew, windMps:(h:number,m:number)=>cols[m]!.wind*(1+0.4*Math.sin(h/3+m)), gustMps:(h:number,m:number)=>1.5*cols[m]!.wind*(1+0.4*Math.sin(h/3+m)), rainMm:(h:number,m:number)=>rain[m]![h]!, solarWm2:(h:number,m:number)=>Math.max(0,cols[m]!.sun*Math.sin((h%24-5)*Math.PI/15)) };
    const base = planOn({ job, weather: w });
    const { prepared, work, shift } = base;
    const mk = (weather: typeof w, limits = STARTER_LIMITS, crew = {}) => { const hourly = weatherOf(weather); const j=jobOf(job,{crew}); const p = prepare({...j, hourly, nowMs: earlyOn(hourly), limits}); return dayPlan(p, work, shiftOn(j.job.crew, shift.day, j.job.site.timeZone)); };
    const extraH = 7+Math.floor(9*r());
    const variants: Record<string, DayPlan> = {
      moreRain: mk({...w, rainMm:(h,m)=>rain[m]![h]! + (h===extraH?1:0)}),
      dew: mk(w, {...STARTER_LIMITS, dewMarginMinK: 5}),
      sheet: mk(w, {...STARTER_LIMITS, sheetWindMps: 6, sheetGustMps: 9}),
      roof: mk(w, {...STARTER_LIMITS, roofWindMps: 7, roofGustMps: 11}),
      rainL: mk(w, {...STARTER_LIMITS, rainMmPerHour: 0.05}),
      cold: mk(w, {...STARTER_LIMITS, coldNightShare: 0}),
      shorter: mk(w, STARTER_LIMITS, {dayEnd: '15:30'}),
    };
    { const p = mk(w); const d=mk(w); for (let i=0;i<d.prepared.grid.steps;i++) d.prepared.grid.sunElevationDeg[i]! -= 12; variants['light'] = dayPlan({...d.prepared} as never, work, shift); }
    for (let k=0;k<14;k++) for (const [name, v] of Object.entries(variants)) {
      const startMs = shift.startMs + k*1800000;
      let a=0,b=0; const detail:string[]=[];
      for (let m=0;m<members;m++) { const x=simulateDay(base,m,{startMs}); const y=simulateDay(v,m,{startMs}); if(x.kind==='finished')a++; if(y.kind==='finished')b++; if (y.kind==='finished'&&x.kind!=='finished') {tally.set(name+' '+x.kind+'/'+x.cause,(tally.get(name+' '+x.kind+'/'+x.cause)??0)+1); detail.push(`m${m} ${x.kind}/${x.cause}`);} n++; }
      if (b>a) { const key='COUNT '+name; if(!tally.has(key)) console.log(name, job, 'seed', seed, 'k',k, a,'->',b, detail, 'extraH', extraH); tally.set(key,(tally.get(key)??0)+1); }
    }
  }
  console.log(n, [...tally]);
}, 120000);
