// Audits a page as a phone would load it: `node audit.mjs ADDRESS TIMES`. Prints a line for each
// time: the scores of the categories below, of 100, in their order. What lost points in any but
// speed is told as an error, since nobody sees it from a score.
import { launch } from "chrome-launcher";
import lighthouse from "lighthouse";

const CATEGORIES = ["performance", "accessibility", "best-practices", "seo"];

const [address, times] = process.argv.slice(2);
const chromeFlags = ["--headless=new", "--no-sandbox", "--disable-dev-shm-usage"];
for (let time = 0; time < Number(times); time += 1) {
  const chrome = await launch({ chromeFlags });
  try {
    const options = { port: chrome.port, logLevel: "error", onlyCategories: CATEGORIES };
    const { lhr } = await lighthouse(address, options);
    if (lhr.runtimeError) throw new Error(lhr.runtimeError.message);
    console.log(CATEGORIES.map((name) => Math.round(lhr.categories[name].score * 100)).join(" "));
    for (const name of CATEGORIES.slice(1)) {
      for (const { id, weight } of lhr.categories[name].auditRefs) {
        const { score, title } = lhr.audits[id];
        if (weight > 0 && score !== null && score < 1) console.error(`${name}: ${title} (${id})`);
      }
    }
  } finally {
    await chrome.kill();
  }
}
