// How a configuration is wired, held against the module as it ships: its form, a classic
// job, and what no right request or key is.
import assert from "node:assert/strict";
import { test } from "node:test";
import Ajv2020 from "ajv/dist/2020.js";
import { configurations, rig, schema, told, wiring } from "./load.mjs";

const KEYS = {
  wiring: [
    "contract_version", "key", "joined_at_amplifier", "star_refused", "imbalance", "cups", "joined", "runs",
    "steps", "parts", "drawing", "problems",
  ],
  imbalance: ["ratio", "decibels", "least_driver"],
  cup: ["number", "coils"],
  joined: ["role", "output", "terminals"],
  terminal: ["at", "number", "pair", "coil", "sign"],
  run: ["number", "from", "to", "role", "stage", "output", "metres", "amps", "most_amps"],
  step: ["number", "stage", "driver", "runs", "title", "text", "caution", "acts"],
  act: [
    "number", "kind", "run", "driver", "coil", "stage", "probes", "ends", "foretold", "title", "text", "caution",
  ],
  foretold: ["nominal", "expected", "low", "high"],
  parts: ["wire", "cups", "splices", "ends", "caps"],
  wire: ["stage", "runs", "metres", "amps"],
  ends: ["driver", "cup", "amplifier"],
};

const EACH = "1:(1a+1b)||(2a+2b)";
/** Every act of a plan, in its order. */
const acts = ({ steps }) => steps.flatMap((step) => step.acts);
const PLANS = {
  "no box": [rig(), EACH],
  "one cup": [rig({ box: { cups: "one" } }), EACH],
  "a cup for each driver, a star": [rig({ box: { cups: "driver", fed: "star" } }), EACH],
  "one conductor a terminal": [
    rig({ box: { driver_terminals: { push_on: true }, amplifier_terminals: { conductors: 1 } } }),
    EACH,
  ],
  "no amplifier, a coil left out, facing in": [
    { drivers: [{ count: 2, coils: 2, ohms: 4, unused_coils: 1 }], box: { mounted_reversed: [2], vehicle: false } },
    "1a+2a",
  ],
};

for (const [name, [request, key]] of Object.entries(PLANS)) {
  test(`exactly the contract's fields, in its order, as the schema says: ${name}`, () => {
    const plan = wiring(request, key);
    assert.deepEqual(told(plan), []);
    const has = (value, kind) => assert.deepEqual(Object.keys(value), KEYS[kind]);
    has(plan, "wiring");
    has(plan.imbalance, "imbalance");
    assert.match(plan.drawing, /^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg".*<\/svg>\n$/s);
    // Every run is drawn, and no other; one that hops over others comes in pieces.
    const drawn = new Set(Array.from(plan.drawing.matchAll(/data-run="(\d+)"/g), ([, run]) => Number(run)));
    assert.deepEqual([...drawn].sort((a, b) => a - b), plan.runs.map((_, at) => at));
    for (const cup of plan.cups) has(cup, "cup");
    for (const set of plan.joined) {
      has(set, "joined");
      for (const terminal of set.terminals) has(terminal, "terminal");
    }
    for (const run of plan.runs) {
      has(run, "run");
      for (const end of [run.from, run.to]) has(end, "terminal");
    }
    for (const step of plan.steps) has(step, "step");
    for (const act of acts(plan)) {
      has(act, "act");
      assert.equal(act.foretold !== null, ["leads", "coils", "check"].includes(act.kind));
      if (act.foretold !== null) has(act.foretold, "foretold");
      for (const probe of act.probes ?? []) has(probe, "terminal");
    }
    has(plan.parts, "parts");
    has(plan.parts.ends, "ends");
    for (const wire of plan.parts.wire) has(wire, "wire");
    const validate = new Ajv2020({ strict: true }).compile(schema("wiring.json"));
    assert.ok(validate(plan), JSON.stringify(validate.errors));
    assert.ok(!validate({ ...plan, more: 1 }), "the schema lets a stray field pass");
    assert.deepEqual(JSON.parse(JSON.stringify(plan)), plan);
  });

  test(`every run is placed by one act, or laid and landed by two: ${name}`, () => {
    const plan = wiring(request, key);
    const kinds = (run) => acts(plan).filter((act) => act.run === run.number).map(({ kind }) => kind);
    for (const run of plan.runs) {
      assert.deepEqual(kinds(run), run.stage === "cable" ? ["lay", "land"] : ["join"]);
    }
    for (const counted of [plan.steps, acts(plan)]) {
      assert.deepEqual(counted.map(({ number }) => number), counted.map((_, i) => i + 1));
    }
    assert.equal(acts(plan).at(-1).kind, "power_on");
  });

  test(`a step is what hands do in one go: ${name}`, () => {
    const plan = wiring(request, key);
    const ends = (run) => [run.from, run.to].map(({ at, number }) => `${at} ${number}`).sort();
    for (const step of plan.steps) {
      assert.ok(step.acts.length > 0 && step.title !== "" && step.text !== "", `step ${step.number}`);
      assert.equal(step.driver !== null, step.stage === "driver");
      assert.deepEqual(step.runs, step.acts.flatMap(({ run }) => run ?? []));
      assert.ok(step.runs.length <= 2, `step ${step.number} places ${step.runs}`);
      const [one, other = one] = step.runs.map((number) => plan.runs[number - 1]);
      if (one) assert.deepEqual([other.stage, ends(other)], [one.stage, ends(one)]);
      // What can hurt at an act is told at its step.
      for (const { caution } of step.acts) assert.ok(caution === null || step.caution.includes(caution));
    }
    assert.ok(plan.steps.length < acts(plan).length);
  });
}

test("two dual drivers in series-parallel on one cup take eight runs", () => {
  // Worked from first principles: 8 − 2 runs without a box, and a cup adds two.
  const plan = wiring(...PLANS["one cup"]);
  assert.equal(plan.runs.length, 8);
  assert.equal(wiring(...PLANS["no box"]).runs.length, 6);
  assert.deepEqual(plan.cups, [{ number: 1, coils: ["1a", "1b", "2a", "2b"] }]);
  assert.equal(acts(plan).find(({ run }) => run === 1).title, "Run 1: 1a − to 1b +");
  assert.equal(plan.steps.find(({ runs }) => runs.includes(3)).title, "Runs 3 and 4: driver 1 to driver 2");
});

test("two single drivers in parallel behind one cup take nine steps", () => {
  const plan = wiring({ drivers: [{ count: 2, coils: 1, ohms: 2 }], box: { cups: "one" } }, "1a||2a");
  // Leads, each driver, drivers together, the box, the cable, power off, landed, power on.
  assert.deepEqual(plan.steps.map(({ stage, driver, runs }) => [stage, driver, runs]), [
    ["driver", 1, []], ["driver", 1, []], ["driver", 2, []], ["together", null, [1, 2]], ["box", null, [3, 4]],
    ["cable", null, [5, 6]], ["amplifier", null, []], ["amplifier", null, [5, 6]], ["amplifier", null, []],
  ]);
});

test("drivers mounted facing in are read to the last one", () => {
  const drivers = [{ count: 16, coils: 1, ohms: 4 }];
  const all = Array.from({ length: 16 }, (_, i) => i + 1);
  const key = all.map((driver) => `${driver}a`).join("||");
  const positive = (mounted_reversed) =>
    wiring({ drivers, box: { mounted_reversed } }, key).joined[0].terminals.filter(({ at }) => at === "coil");
  assert.deepEqual(new Set(positive(all).map(({ sign }) => sign)), new Set(["-"]));
  assert.deepEqual(new Set(positive([]).map(({ sign }) => sign)), new Set(["+"]));
  const refused = (mounted_reversed) => told(wiring({ drivers, box: { mounted_reversed } }, key));
  assert.deepEqual(refused([...all, 1]), ["box.mounted_reversed out_of_range"]);
  assert.deepEqual(refused([1, 1]), ["box.mounted_reversed[1] repeated"]);
});

const HOSTILE = "<img src=x onerror=alert(1)>\"'&]]>";

test("what drivers are called stands in the drawing as text, shortened and in full", () => {
  const drivers = (name) => [{ name, count: 2, coils: 2, ohms: 2, watts: 500 }];
  const named = (name) => wiring(rig({ drivers: drivers(name) }), EACH);
  const texts = ({ drawing }) => drawing.match(/<text class="d-name".*?<\/text>/gs) ?? [];
  assert.deepEqual(texts(named(null)), []);
  assert.deepEqual(texts(named("  ")), []);
  const short = texts(named("Rear doors"));
  assert.equal(short.length, 2);
  for (const text of short) assert.match(text, /unicode-bidi="plaintext">Rear doors<\/text>$/);
  const [long] = texts(named("W".repeat(60)));
  assert.match(long, />(<title>W{60}<\/title>)W{5,20}…<\/text>$/);
  const hostile = named(HOSTILE);
  assert.ok(texts(hostile)[0].includes("<title>&lt;img src=x onerror=alert(1)&gt;&quot;&#39;&amp;]]&gt;</title>"));
  const elements = new Set([...hostile.drawing.matchAll(/<([a-z]+)/g)].map(([, name]) => name));
  assert.deepEqual([...elements].sort(), ["desc", "g", "path", "rect", "svg", "text", "title"]);
  // Two kinds: each driver has its own group's.
  const both = [...drivers("Front"), { name: "Boot", count: 1, coils: 1, ohms: 4 }];
  const plan = wiring(rig({ drivers: both, even_only: false }), "1:(1a+1b)||(2a+2b)||3a");
  assert.deepEqual(told(plan), []);
  assert.deepEqual(texts(plan).map((text) => text.match(/>([^<]*)<\/text>/)[1]), ["Front", "Front", "Boot"]);
  // A name is no part of the plan.
  const { drawing, steps, ...rest } = named("Rear doors");
  const { drawing: plain, steps: others, ...other } = named(null);
  assert.deepEqual(rest, other);
  const done = (steps) => acts({ steps }).map(({ kind, run }) => [kind, run]);
  assert.deepEqual(done(steps), done(others));
  assert.ok(acts({ steps }).some(({ title }) => title === "Check driver 2 (Rear doors)"));
  assert.ok(steps.some(({ title }) => title === "Driver 2 (Rear doors) by itself"));
  assert.deepEqual(told(named("x".repeat(61))), ["drivers[0].name out_of_range"]);
});

test("every key of the list is wired, however it is written", () => {
  const request = rig({ joined_only: false, even_only: false });
  for (const { key, runs } of configurations(request).configurations) {
    const plan = wiring(request, key);
    assert.deepEqual([told(plan), plan.key, plan.runs.length], [[], key, runs]);
  }
  assert.deepEqual(wiring(rig(), " 1: (2b + 2a) ∥ (1b + 1a) "), wiring(rig(), EACH));
});

const revoked = Proxy.revocable({}, {});
revoked.revoke();
const BAD_KEYS = [
  ["left out", undefined, "key missing"],
  ["null", null, "key wrong_type"],
  ["a number", 1, "key wrong_type"],
  ["true", true, "key wrong_type"],
  ["a list", [EACH], "key wrong_type"],
  ["an object", { key: EACH }, "key wrong_type"],
  ["boxed text", new String(EACH), "key wrong_type"],
  ["a symbol", Symbol(EACH), "key wrong_type"],
  ["a function", () => EACH, "key wrong_type"],
  ["a big integer", 10n, "key wrong_type"],
  ["a revoked proxy", revoked.proxy, "key wrong_type"],
  ["empty", "", "key unknown_configuration"],
  ["no network", "hello", "key unknown_configuration"],
  ["half a surrogate pair", "\ud800", "key unknown_configuration"],
  ["a coil too few", "1:1a+1b+2a", "key unknown_configuration"],
  ["a coil twice", "1:1a+1a+1b+2a+2b", "key unknown_configuration"],
  ["a channel that is not there", EACH.replace("1:", "2:"), "key unknown_configuration"],
  ["mixed without brackets", "1:1a+1b||2a+2b", "key unknown_configuration"],
  ["very long", "(".repeat(1_000_000), "key unknown_configuration"],
];

for (const [name, key, want] of BAD_KEYS) {
  test(`a key that is none: ${name}`, () => {
    const plan = wiring(rig(), key);
    assert.deepEqual(told(plan), [want]);
    assert.deepEqual([plan.cups, plan.joined, plan.runs, plan.steps], [[], [], [], []]);
    assert.deepEqual([plan.key, plan.imbalance, plan.parts, plan.drawing], [null, null, null, null]);
    const validate = new Ajv2020({ strict: true }).compile(schema("wiring.json"));
    assert.ok(validate(plan), JSON.stringify(validate.errors));
  });
}

test("what is wrong with the request is told, with the key and without", () => {
  for (const request of [undefined, null, 5, [], new Map()]) {
    assert.deepEqual(told(wiring(request, EACH)), [" not_an_object"]);
  }
  assert.deepEqual(told(wiring()), [" not_an_object", "key missing"]);
  assert.deepEqual(told(wiring({}, 1)), ["drivers missing", "key wrong_type"]);
  const mixed = wiring(rig({ box: { cups: "driver" } }), "1:(1a+2a)||(1b+2b)");
  assert.deepEqual(told(mixed), ["box.cups not_possible_here"]);
  assert.deepEqual(told(wiring(rig({ box: { cups: "two" } }), EACH)), ["box.cups not_one_of"]);
});

test("the request is left as it was, and the same question gives the same plan", () => {
  const request = rig({ box: { cups: "one", mounted_reversed: [1] } });
  const before = structuredClone(request);
  assert.deepEqual(wiring(request, EACH), wiring(request, EACH));
  assert.deepEqual(request, before);
});
