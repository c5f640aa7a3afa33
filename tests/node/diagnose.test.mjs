// Check points and what readings at them say is wrong, held against the module as it
// ships: their form, classic faults, and what no right reading is.
import assert from "node:assert/strict";
import { test } from "node:test";
import Ajv2020 from "ajv/dist/2020.js";
import { diagnose, readings, rig, schema, told, wiring } from "./load.mjs";

const KEYS = {
  readings: ["contract_version", "key", "points", "coils", "problems"],
  point: [
    "point", "step", "act", "place", "probes", "effort", "lifted", "foretold", "cannot_exclude", "finer", "title", "text",
  ],
  finer: ["low", "expected", "high", "text"],
  foretold: ["nominal", "expected", "low", "high"],
  terminal: ["at", "number", "pair", "coil", "sign"],
  coil: ["coil", "agreement"],
  diagnosis: [
    "contract_version", "key", "agreements", "questions", "explanations", "next", "polarity", "sound", "problems",
  ],
  question: ["question", "text"],
  explanation: ["share", "fit", "faults"],
  fault: ["kind", "text", "run", "terminals", "coil", "driver", "group", "times", "network"],
};
const has = (value, kind) => assert.deepEqual(Object.keys(value), KEYS[kind]);

const ajv = (name) => new Ajv2020({ strict: true }).compile(schema(name));
const ofReadings = ajv("readings.json");
const ofList = ajv("diagnose_request.json");
const ofDiagnosis = ajv("diagnosis.json");

/** Two single 2 Ω drivers on one cup, in parallel. */
const pair = (fields = {}) => ({ drivers: [{ count: 2, coils: 1, ohms: 2, ...fields }], box: { cups: "one" } });
const PARALLEL = "1a||2a";
/** The last check of a plan: the reading at the amplifier's end of the cable. */
const lastCheck = (request, key) =>
  readings(request, key).points.filter(({ place }) => place === "step").at(-1).point;
const LAST = lastCheck(pair(), PARALLEL);

const PLANS = {
  "two in parallel on a cup": [pair(), PARALLEL],
  "coils measured": [pair({ dc_ohms: [1.8, 2.9] }), PARALLEL],
  "no box": [rig(), "1:(1a+1b)||(2a+2b)"],
  "two outputs": [
    {
      drivers: [{ count: 2, coils: 2, ohms: 4 }],
      amplifier: { channels: [{ least_ohms: 2 }, { least_ohms: 2 }] },
      box: { cups: "driver" },
    },
    "1:1a||1b;2:2a||2b",
  ],
};

function isPoint(one) {
  has(one, "point");
  assert.match(one.point, /^[1-9][0-9]*(\.[a-z]+\.[0-9a-d-]+)?$/);
  assert.equal(one.act, Number(one.point.split(".")[0]));
  assert.equal(one.place, one.point.split(".")[1] ?? "step");
  assert.ok([1, 10, 30].includes(one.effort));
  assert.equal(one.lifted, one.effort === 30);
  for (const probe of one.probes ?? []) has(probe, "terminal");
  if (one.foretold !== null) has(one.foretold, "foretold");
  one.cannot_exclude.forEach((fault) => has(fault, "fault"));
  const kinds = one.cannot_exclude.map(({ kind }) => kind);
  assert.equal(new Set(kinds).size, kinds.length, `${one.point}: ${kinds}`);
  if (one.place === "basket" || one.point === "1") assert.deepEqual(kinds, []);
  if (one.finer !== null) {
    has(one.finer, "finer");
    assert.ok(one.finer.low < one.finer.expected && one.finer.expected < one.finer.high);
    assert.ok(kinds.length > 0, "what nothing needs");
  }
}

for (const [name, [request, key]] of Object.entries(PLANS)) {
  test(`check points in the contract's form, in the order of the work: ${name}`, () => {
    const before = structuredClone(request);
    const found = readings(request, key);
    assert.deepEqual(request, before);
    assert.deepEqual(told(found), []);
    has(found, "readings");
    assert.ok(ofReadings(found), JSON.stringify(ofReadings.errors));
    assert.ok(!ofReadings({ ...found, more: 1 }), "the schema lets a stray field pass");
    assert.deepEqual(JSON.parse(JSON.stringify(found)), found);
    const order = found.points.map(({ act }) => act);
    assert.deepEqual(order, order.toSorted((a, b) => a - b));
    assert.equal(new Set(found.points.map(({ point }) => point)).size, found.points.length);
    found.points.forEach(isPoint);
    // What an act reads, the plan foretells too, and asks for with the same probes.
    const plan = wiring(request, key);
    const acts = plan.steps.flatMap((step) => step.acts);
    for (const one of found.points) {
      assert.ok(plan.steps[one.step - 1].acts.some(({ number }) => number === one.act), one.point);
    }
    for (const one of found.points.filter(({ place }) => place === "step")) {
      const act = acts[one.act - 1];
      assert.deepEqual([one.foretold, one.probes, one.title], [act.foretold, act.probes, act.title]);
    }
    const checks = acts.filter(({ kind }) => ["leads", "check"].includes(kind));
    assert.equal(found.points.filter(({ place }) => place === "step").length, checks.length);
  });

  test(`readings that are right leave a rig sound, and every point is taken: ${name}`, () => {
    const { points } = readings(request, key);
    const read = points.map(({ point, foretold }) => ({ point, reads: foretold?.expected ?? "open" }));
    const found = diagnose(request, key, read);
    assert.deepEqual(told(found), []);
    has(found, "diagnosis");
    assert.ok(ofDiagnosis(found), JSON.stringify(ofDiagnosis.errors));
    assert.ok(!ofDiagnosis({ ...found, more: 1 }), "the schema lets a stray field pass");
    assert.equal(found.agreements.length, points.length);
    assert.ok(ofList(read), JSON.stringify(ofList.errors));
    const kinds = found.explanations[0].faults.map(({ kind }) => kind);
    assert.ok(kinds.includes("nothing"), JSON.stringify(found.explanations[0]));
    assert.equal(found.polarity, true);
    assert.ok(found.sound > 0.5 && found.sound <= 1 + 1e-9, `${found.sound}`);
  });
}

test("only coils that were measured are judged", () => {
  assert.deepEqual(readings(...PLANS["no box"]).coils, []);
  const { coils } = readings(...PLANS["coils measured"]);
  coils.forEach((coil) => has(coil, "coil"));
  assert.deepEqual(coils.map(({ coil }) => coil), ["1a", "2a"]);
  // Common practice, no source: a 2 Ω coil measures 1.4 to 2.1 Ω, so 2.9 Ω is another one.
  assert.equal(coils[1].agreement, "too_high");
});

// Worked from first principles: three coils of 4 Ω have 3.5 Ω each, so 1.17 Ω; four 0.88 Ω.
test("three of four in parallel are within the range, and doubtful", () => {
  const four = { drivers: [{ count: 4, coils: 1, ohms: 4 }], box: { cups: "one" } };
  const key = "1a||2a||3a||4a";
  const last = lastCheck(four, key);
  const says = (reads) => diagnose(four, key, [{ point: "1", reads: 0.2 }, { point: last, reads }]);
  const doubted = says(1.4);
  assert.deepEqual([told(doubted), doubted.agreements], [[], ["right", "doubtful"]]);
  assert.ok(doubted.sound < 0.5 && doubted.next !== null, `${doubted.sound}`);
  assert.ok(ofDiagnosis(doubted), JSON.stringify(ofDiagnosis.errors));
  assert.deepEqual(says(1.1).agreements, ["right", "right"]);
});

// From first principles: 1/3 Ω planned is 0.23 to 0.35 Ω, and a meter of tenths is off by two.
test("a third of an ohm cannot be told from a short by tenths, but by four wires", () => {
  const three = (ohms) => ({ drivers: [{ count: 3, coils: 1, ohms }], box: { cups: "one" } });
  const point = readings(three(1), "1a||2a||3a").points.filter(({ place }) => place === "step").at(-1);
  assert.ok(point.cannot_exclude.some(({ kind }) => kind === "strand"));
  assert.deepEqual([point.finer.low.toFixed(3), point.finer.high.toFixed(3)], ["0.233", "0.350"]);
  const [much] = readings(three(4), "1a+2a+3a").points.filter(({ place }) => place === "step").slice(-1);
  assert.ok(much.cannot_exclude.every(({ kind }) => kind !== "strand"));
  assert.equal(much.finer, null);
});

// Worked from first principles: one 2 Ω coil alone where two in parallel should be.
test("2.2 Ω where 1 Ω should be: a run is missing or a coil is open", () => {
  const found = diagnose(pair(), PARALLEL, [{ point: "1", reads: 0.2 }, { point: LAST, reads: 2.2 }]);
  assert.deepEqual([told(found), found.key, found.agreements], [[], PARALLEL, ["right", "too_high"]]);
  assert.ok(ofDiagnosis(found), JSON.stringify(ofDiagnosis.errors));
  const [first] = found.explanations;
  has(first, "explanation");
  for (const fault of first.faults) {
    has(fault, "fault");
    assert.ok(["missing", "coil_open"].includes(fault.kind), fault.text);
    if (fault.kind === "missing") {
      const run = wiring(pair(), PARALLEL).runs[fault.run - 1];
      assert.deepEqual(fault.terminals, [run.from, run.to]);
      assert.match(fault.text, new RegExp(`^Run ${fault.run}, `));
    } else {
      assert.equal(fault.coil, `${fault.driver}a`);
    }
  }
  const shares = found.explanations.map(({ share }) => share);
  assert.deepEqual(shares, shares.toSorted((a, b) => b - a));
  assert.ok(shares.length <= 8 && shares.reduce((a, b) => a + b) < 1 + 1e-9);
  // Something tells the rest apart, and easy causes come first.
  isPoint(found.next);
  assert.ok(readings(pair(), PARALLEL).points.some(({ point }) => point === found.next.point));
  found.questions.forEach((question) => has(question, "question"));
  assert.deepEqual(found.questions.map(({ question }) => question), ["amplifier_off", "meter_right", "cool"]);
  assert.equal(found.polarity, false);
});

test("following what is read next comes to the one fault", () => {
  // Coil 2a is open; what a meter then shows follows from first principles: 2 Ω at 0.85 and
  // 0.2 Ω of leads across what 1a feeds, no end across 2a alone.
  const shown = { along: 0.2, across: 1.9, step: 1.9 };
  const list = [{ point: "1", reads: 0.2 }, { point: LAST, reads: 1.9 }];
  for (const question of ["amplifier_off", "meter_right", "cool"]) list.push({ question, answer: true });
  let found = diagnose(pair(), PARALLEL, list);
  assert.deepEqual(found.agreements.slice(2), [null, null, null]);
  assert.deepEqual(found.questions, []);
  for (let reads = 0; found.next !== null; reads += 1) {
    assert.ok(reads < 12, "no end of readings");
    const { point, place } = found.next;
    const open = point.endsWith(".2a") && place === "lifted";
    const alone = place === "lifted" || place === "apart" ? 1.9 : shown[place];
    list.push({ point, reads: open ? "open" : alone });
    found = diagnose(pair(), PARALLEL, list);
    assert.deepEqual(told(found), []);
  }
  assert.deepEqual(found.explanations[0].faults.map(({ kind, coil }) => [kind, coil]), [["coil_open", "2a"]]);
});

test("leads that do not touch, leads that were not read, and whole ohms", () => {
  const open = diagnose(pair(), PARALLEL, [{ point: "1", reads: "open" }]);
  assert.deepEqual([told(open), open.agreements], [[], ["open"]]);
  const first = diagnose(pair(), PARALLEL, [{ point: LAST, reads: 1.1 }]);
  assert.deepEqual([first.agreements, first.next.point], [["leads_first"], "1"]);
  const whole = diagnose(pair(), PARALLEL, [{ point: "1", reads: 0.2 }, { point: LAST, reads: 2, step: 1 }]);
  assert.deepEqual([told(whole), whole.agreements], [[], ["right", "coarse"]]);
});

test("other coils are told with their driver and their ohms over those stated", () => {
  // Two 2 Ω coils in series, and one of them twice that: 6 Ω in place of 4 Ω.
  const last = lastCheck(pair(), "1a+2a");
  const list = [{ point: "1", reads: 0.2 }, { point: last, reads: 0.2 + 0.875 * 6 }];
  const faults = diagnose(pair(), "1a+2a", list).explanations.flatMap((one) => one.faults);
  const others = faults.filter(({ kind }) => kind === "other_driver");
  assert.deepEqual(others.map(({ driver, times }) => [driver, times]).sort(), [[1, 2], [2, 2]]);
  for (const { group, run, coil, terminals } of others) {
    assert.deepEqual([group, run, coil, terminals], [null, null, null, []]);
  }
});

test("the order of readings does not matter, and of two at one point the last counts", () => {
  const list = [{ point: "1", reads: 0.2 }, { point: LAST, reads: 2.2 }];
  const one = diagnose(pair(), PARALLEL, list);
  const other = diagnose(pair(), PARALLEL, list.toReversed());
  assert.deepEqual(other.explanations, one.explanations);
  const again = diagnose(pair(), PARALLEL, [{ point: LAST, reads: "open" }, ...list]);
  assert.deepEqual([again.explanations, again.next], [one.explanations, one.next]);
  assert.deepEqual(diagnose(pair(), PARALLEL, list), one);
});

const REFUSED = [
  ["left out", undefined, ["readings missing"]],
  ["null", null, ["readings wrong_type"]],
  ["one alone", { point: "1", reads: 0.2 }, ["readings wrong_type"]],
  ["text", "open", ["readings wrong_type"]],
  ["a set", new Set([{ point: "1", reads: 0.2 }]), ["readings wrong_type"]],
  ["too many", Array.from({ length: 201 }, () => ({ point: "1", reads: 0.2 })), ["readings out_of_range"]],
  ["no objects", [null, 5, [], "1", new Map()], [0, 1, 2, 3, 4].map((i) => `readings[${i}] wrong_type`)],
  ["nothing in it", [{}], ["readings[0].point missing", "readings[0].reads missing"]],
  ["not read", [{ point: "1" }], ["readings[0].reads missing"]],
  ["read nowhere", [{ reads: 1, step: 0.01 }], ["readings[0].point missing"]],
  ["not answered", [{ question: "cool", answer: undefined }], ["readings[0].answer missing"]],
  ["not asked", [{ answer: false }], ["readings[0].question missing"]],
  ["both", [{ point: "1", reads: 1, question: "cool", answer: true }], ["readings[0].question not_possible_here"]],
  ["text for a number", [{ point: "1", reads: "0.2" }], ["readings[0].reads not_one_of"]],
  ["not a number", [{ point: "1", reads: NaN }], ["readings[0].reads out_of_range"]],
  ["below nothing", [{ point: "1", reads: -0.1 }], ["readings[0].reads out_of_range"]],
  ["a point nobody has", [{ point: "here", reads: 1 }], ["readings[0].point not_one_of"]],
  ["an act too many", [{ point: "99", reads: 1 }], ["readings[0].point not_one_of"]],
  ["an act that reads nothing", [{ point: "3", reads: 1 }], ["readings[0].point not_one_of"]],
  ["a coil too many", [{ point: `${LAST}.across.3a`, reads: 1 }], ["readings[0].point not_one_of"]],
  [
    "several",
    [
      { point: "1", reads: 0.2 },
      { point: "99", reads: 1 },
      { point: 1, reads: [], step: "0.1", when: 1 },
      { question: "why", answer: "yes" },
    ],
    [
      "readings[2].point wrong_type",
      "readings[2].reads wrong_type",
      "readings[2].step wrong_type",
      "readings[2].when unknown_field",
      "readings[3].question not_one_of",
      "readings[3].answer wrong_type",
      "readings[1].point not_one_of",
    ],
  ],
];

for (const [name, list, want] of REFUSED) {
  test(`readings that are none: ${name}`, () => {
    const found = diagnose(pair(), PARALLEL, list);
    assert.deepEqual(told(found), want);
    assert.deepEqual([found.agreements, found.questions, found.explanations], [[], [], []]);
    assert.deepEqual([found.key, found.next, found.polarity, found.sound], [null, null, false, null]);
    for (const { message } of found.problems) assert.match(message, /^[A-Z].*\.$/);
    assert.ok(ofDiagnosis(found), JSON.stringify(ofDiagnosis.errors));
  });
}

test("what is wrong with request, key and readings is told at once", () => {
  assert.deepEqual(told(readings()), [" not_an_object", "key missing"]);
  assert.deepEqual(told(readings(pair(), "1a")), ["key unknown_configuration"]);
  assert.deepEqual(readings(pair(), 5).points, []);
  assert.deepEqual(told(diagnose()), [" not_an_object", "key missing", "readings missing"]);
  assert.deepEqual(told(diagnose({}, 1, [{ point: "1" }])), [
    "drivers missing", "key wrong_type", "readings[0].reads missing",
  ]);
  assert.deepEqual(told(diagnose(pair(), "1a", [])), ["key unknown_configuration"]);
});

test("garbage never throws, and is looked into no deeper than its kind", () => {
  const loop = [];
  loop.push(loop);
  const revoked = Proxy.revocable([], {});
  revoked.revoke();
  const throws = Object.defineProperty({ point: "1" }, "reads", {
    enumerable: true,
    get() { throw new Error("no"); },
  });
  const deep = { point: "1", reads: {} };
  for (let at = deep.reads, i = 0; i < 100_000; i += 1) at = at.more = {};
  for (const [list, want] of [
    [loop, "readings[0] wrong_type"],
    [revoked.proxy, "readings wrong_type"],
    [[throws], "readings[0].reads wrong_type"],
    [[deep], "readings[0].reads wrong_type"],
    [new Array(1e9), "readings out_of_range"],
    [() => [], "readings wrong_type"],
    [Symbol("readings"), "readings wrong_type"],
    [10n, "readings wrong_type"],
    [[{ point: "1", reads: 1n }], "readings[0].reads wrong_type"],
    [[{ point: "9".repeat(1_000_000), reads: 1 }], "readings[0].point out_of_range"],
    [[{ point: "\ud800", reads: 1 }], "readings[0].point not_one_of"],
  ]) {
    assert.ok(told(diagnose(pair(), PARALLEL, list)).includes(want), want);
  }
});
