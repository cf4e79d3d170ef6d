import { AxeBuilder } from '@axe-core/playwright';
import { launchBrowser } from '/work/main/tests/browser/browser.ts';
const b = await launchBrowser();
const base='http://127.0.0.1:4871'; const J='6f1a2c30-52b7-4d18-9a41-0c5e7d1f2c03';
const ctx = await b.newContext({viewport:{width:390,height:844}});
const p = await ctx.newPage(); p.setDefaultTimeout(60000);
await p.goto(base+`/clock?product=contact-solvent&job=${J}&at=${Date.parse('2026-05-13T01:00:00Z')}`);
await p.getByRole('button',{name:'Run the clock'}).click();
await p.locator('.clock-result').waitFor();
for (const open of [false,true]) {
 if (open) await p.evaluate(()=>{for(const d of document.querySelectorAll('details')) d.open=true});
 console.log(open, await p.evaluate(()=>document.documentElement.scrollWidth-document.documentElement.clientWidth));
 const t=Date.now(); const r=await new AxeBuilder({page:p}).withTags(['wcag2a','wcag2aa','wcag21a','wcag21aa','wcag22aa','best-practice']).analyze();
 console.log(Date.now()-t, r.violations.map(v=>v.id+': '+v.nodes[0]?.html));
}
await p.goto(base+`/job/${J}/day/2026-05-13`); await p.locator('.ahead-work').first().waitFor();
for (const open of [false,true]) {
 if (open) await p.evaluate(()=>{for(const d of document.querySelectorAll('details')) d.open=true});
 const t=Date.now(); const r=await new AxeBuilder({page:p}).withTags(['wcag2a','wcag2aa','wcag21a','wcag21aa','wcag22aa','best-practice']).analyze();
 console.log('day',open,Date.now()-t, await p.evaluate(()=>document.querySelectorAll('*').length), r.violations.map(v=>v.id+': '+v.nodes[0]?.html));
}
await b.close();
