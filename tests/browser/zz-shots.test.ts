import { test } from "vitest";
import { startApp } from "/work/main/tests/browser/support/app.ts";
const views: [string,string][] = [
 ["reading","?build=base&state=KOEO&ask=expect&red=G2%2B&black=G2-"],
 ["ohms","?build=base&state=KOEO&ask=expect&red=G2%2B&black=B3&meter=ohms".replace("B3&","B3.X:3&")],
 ["faulty","?build=base&state=CRANK&ask=expect&red=M1.50&black=G2-&fault=resistance:XE1:1=0.25"],
 ["way","?build=base&state=CRANK&ask=between&from=G2%2B&to=M1.50&readings=1&fault=resistance:XE1:1=0.25"],
 ["trace","?build=base&state=CRANK&ask=trace&point=XE1:1&readings=1&fault=resistance:XE1:1=0.25"],
];
test("shots", async () => {
  const app = await startApp();
  for (const [name,q] of views) for (const [dev,w,h,scheme] of [["tab",1280,800,"light"],["tabd",1280,800,"dark"],["ph",390,844,"dark"]] as const) {
    const page = await app.open(q,{viewport:{width:w,height:h},colorScheme:scheme});
    await page.waitForTimeout(500); if (dev==="ph") await page.locator(".figure, .stair").first().evaluate(e=>e.scrollIntoView({block:"center"}));
    await page.screenshot({path:`/tmp/readings/${name}-${dev}.png`, fullPage: false});
    if (dev==="tab") { const p = page.locator("section[aria-label=Answer]"); await p.evaluate(e=>{(e as HTMLElement).style.maxHeight="none"; document.querySelector<HTMLElement>(".screen")!.style.height="auto"; document.querySelector<HTMLElement>(".work")!.style.gridTemplateRows="300px auto";}); await page.waitForTimeout(200); await p.screenshot({path:`/tmp/readings/${name}-pane.png`}); 
      if (name==="faulty") { await page.emulateMedia({media:"print"}); await page.setViewportSize({width:1060,height:740}); await page.screenshot({path:"/tmp/readings/sheet.png"}); }
    }
    await page.context().close();
  }
  await app.close();
});
