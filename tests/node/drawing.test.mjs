// The drawing of `wiring`, set into a page of somebody else's: it changes nothing there,
// nothing there changes it, and it needs no style that a policy could forbid.
import assert from "node:assert/strict";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { browser, serve } from "./browser.mjs";
import { rig, wiring } from "./load.mjs";

const EACH = "1:(1a+1b)||(2a+2b)";
const drawing = (fields, key = EACH) => {
  const { drawing, problems } = wiring(rig(fields), key);
  assert.deepEqual(problems, []);
  return drawing;
};
const ONE = drawing({ box: { cups: "driver" } });
const OTHER = drawing({ box: { cups: "one" } }, "1:1a||1b||2a||2b");

// A picture and words of another kind, by attributes alone, with classes as ours may be named.
const FOREIGN = `<p id="words" class="d-sign">Words of <b>somebody else</b></p>
<svg id="picture" width="120" height="60" fill="#0a5" font-family="serif"><title>Somebody's</title>
<rect class="d-body" width="50" height="50"/><path class="d-conductor" d="M0 0L9 9" stroke="#05a"/>
<g class="d-run d-plus"><path class="d-conductor" d="M9 9L9 50"/></g><text class="d-name" x="60" y="30">theirs</text></svg>`;
const page = (head) => `<!doctype html><html lang="en"><meta charset="utf-8"><title>theirs</title>
<link rel="icon" href="data:,">${head}<body>${FOREIGN}<div id="here"></div><div id="there"></div>
<svg height="5000"></svg>`;
// What a page may hand down to all that stands in it.
const HOSTILE = `<style>body { font: italic 900 30px monospace; letter-spacing: 4px; word-spacing: 9px; fill: red;
stroke: blue; text-anchor: end; direction: rtl; color: lime }</style>`;

let place, chromium;
const servers = {};

before(async () => {
  place = mkdtempSync(join(tmpdir(), "coilwright-drawing-"));
  writeFileSync(join(place, "index.html"), page(""));
  writeFileSync(join(place, "hostile.html"), page(HOSTILE));
  servers.strict = await serve(place, {
    "Content-Security-Policy": "default-src 'none'; img-src data:; style-src 'none'; script-src 'none'",
  });
  servers.free = await serve(place);
  chromium = await browser();
});

after(async () => {
  await chromium?.quit();
  await Promise.all(Object.values(servers).map(({ close }) => close()));
  rmSync(place, { recursive: true, force: true });
});

/** Every property of everything that a selector finds, as it is in force. */
const styles = (selector) =>
  chromium.run(
    `return [...document.querySelectorAll(arguments[0])].map((element) => {
       const style = getComputedStyle(element);
       return Object.fromEntries([...style].map((name) => [name, style.getPropertyValue(name)]));
     });`,
    selector,
  );
/** Sets a drawing into a place; what of it the policy forbade is told. */
const set = (id, text) =>
  chromium.run(
    `window.forbidden ??= [];
     document.addEventListener("securitypolicyviolation", (event) => forbidden.push(event.violatedDirective));
     document.getElementById(arguments[0]).innerHTML = arguments[1];`,
    id,
    text,
  );
/** Where two lists of styles differ: which element and property, before and after. */
function differences(old, now, left = []) {
  assert.equal(now.length, old.length);
  const names = (one) => Object.keys(one).filter((name) => !left.includes(name));
  return old.flatMap((one, i) =>
    names(one).filter((name) => now[i][name] !== one[name]).map((name) => `${i} ${name}: ${one[name]}, ${now[i][name]}`),
  );
}

const THEIRS = "html, body, #words, #words *, #picture, #picture *";

test("nothing of the page changes by it, under a policy or without one", async () => {
  for (const { address } of [servers.strict, servers.free]) {
    await chromium.open(address);
    const old = await styles(THEIRS);
    assert.equal(old.length, 11);
    await set("here", ONE);
    await set("there", OTHER);
    assert.equal((await styles("#here > svg, #there > svg")).length, 2);
    const now = await styles(THEIRS);
    assert.deepEqual(differences(old.slice(2), now.slice(2)), []);
    // The page as a whole is longer by the drawings.
    const longer = ["height", "block-size", "perspective-origin", "transform-origin"];
    assert.deepEqual(differences(old.slice(0, 2), now.slice(0, 2), longer), []);
  }
});

test("under a policy without any style it looks as it does without one", async () => {
  const seen = {};
  for (const [name, { address }] of Object.entries(servers)) {
    await chromium.open(address);
    await set("here", ONE);
    seen[name] = await styles("#here svg, #here svg *");
    // What a policy forbids is told after a while.
    await chromium.until("window.waited ??= Date.now(); return Date.now() - waited > 200 ? true : null");
    assert.deepEqual(await chromium.run("return forbidden"), [], name);
  }
  assert.ok(seen.strict.length > 60);
  assert.deepEqual(differences(seen.free, seen.strict), []);
  await chromium.open(servers.strict.address);
  await set("here", ONE);
  // Ink on white, and copper where a run is positive: as on paper.
  const looks = [
    ["svg > rect:first-of-type", "fill", "rgb(255, 255, 255)"],
    [".d-body", "fill", "rgb(253, 251, 245)"],
    [".d-body", "stroke", "rgb(27, 31, 41)"],
    [".d-body-label", "fill", "rgb(27, 31, 41)"],
    [".d-body-label", "font-weight", "700"],
    [".d-plus .d-conductor", "stroke", "rgb(154, 67, 18)"],
    [".d-plus .d-conductor", "fill", "none"],
    [".d-plus .d-tracer", "stroke-dasharray", "7px, 5px"],
    [".d-minus .d-conductor", "stroke", "rgb(27, 31, 41)"],
    [".d-hit", "stroke", "none"],
  ];
  for (const [selector, property, value] of looks) {
    const found = await styles(`#here ${selector}`);
    assert.ok(found.length > 0, selector);
    for (const style of found) assert.equal(style[property], value, `${selector} ${property}`);
  }
});

test("what a page hands down to everything in it does not reach the drawing", async () => {
  const names = [
    "fill", "stroke", "stroke-width", "font-family", "font-style", "font-weight", "letter-spacing", "word-spacing",
    "text-anchor", "direction",
  ];
  const seen = [];
  for (const path of ["", "hostile.html"]) {
    await chromium.open(`${servers.free.address}${path}`);
    await set("here", ONE);
    const all = await styles("#here svg, #here svg :not(title, desc)");
    seen.push(all.map((style) => names.map((name) => style[name])));
  }
  assert.ok(seen[0].length > 60);
  assert.deepEqual(seen[1], seen[0]);
});

test("two drawings in one page leave each other alone, and each is called what it shows", async () => {
  await chromium.open(servers.strict.address);
  await set("here", ONE);
  const alone = await styles("#here svg, #here svg *");
  await set("there", OTHER);
  assert.deepEqual(differences(alone, await styles("#here svg, #here svg *")), []);
  const ids = await chromium.run("return [...document.querySelectorAll('svg [id]')].map(({ id }) => id)");
  assert.equal(ids.length, 4);
  assert.equal(new Set(ids).size, 4);
  assert.deepEqual(await chromium.told("#here svg"), ["image", "As wired: (1a + 1b) ∥ (2a + 2b)"]);
  assert.deepEqual(await chromium.told("#there svg"), ["image", "As wired: 1a ∥ 1b ∥ 2a ∥ 2b"]);
  const described = await chromium.run(
    `return [...document.querySelectorAll("#here svg, #there svg")].map((svg) => {
       const element = document.getElementById(svg.getAttribute("aria-describedby"));
       return svg.contains(element) && element.localName === "desc" && element.textContent;
     });`,
  );
  assert.deepEqual(described, [
    "2 drivers, 2 terminal cups, amplifier at 2 Ω; 10 runs of wire, each with its number. A positive run has a stripe, a negative one is plain, one between parts in series is thin, and every terminal has its sign. Runs that hop over each other do not touch. The steps tell each run in words.",
    "2 drivers, 1 terminal cup, amplifier at 0.5 Ω; 10 runs of wire, each with its number. A positive run has a stripe, a negative one is plain, one between parts in series is thin, and every terminal has its sign. Runs that hop over each other do not touch. The steps tell each run in words.",
  ]);
});
