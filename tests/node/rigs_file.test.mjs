// The schema of a file of saved rigs: it takes what was saved, finished or not, and refuses
// what is damaged. The reader behind it is tested beside itself, with the same example.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import Ajv2020 from "ajv/dist/2020.js";
import { closed_box, configurations, diagnose, schema, told, wiring } from "./load.mjs";

const example = new URL("../../crates/module/tests/marigold.json", import.meta.url);
const marigold = () => JSON.parse(readFileSync(example, "utf8"));
const validate = new Ajv2020({ strict: true }).compile(schema("rigs_file.json"));

/** The example after a change to its first rig. */
const changed = (change) => {
  const file = marigold();
  change(file.rigs[0], file);
  return file;
};

test("the example is a file of saved rigs", () => {
  assert.ok(validate(marigold()), JSON.stringify(validate.errors));
});

test("its finished rig is what the module answers", () => {
  const [{ request, key, readings, closed_box: shown, compared }] = marigold().rigs;
  assert.deepEqual(told(configurations(request)), []);
  assert.deepEqual(told(wiring(request, key)), []);
  assert.deepEqual(told(diagnose(request, key, readings)), []);
  assert.deepEqual(told(closed_box(shown)), []);
  for (const one of compared) assert.deepEqual(told(wiring(one.request ?? request, one.key)), []);
});

test("its unfinished rig is none that the module answers, and no damage", () => {
  const [, { request, closed_box: shown }] = marigold().rigs;
  const asked = new Ajv2020({ strict: true }).compile(schema("request.json"));
  assert.ok(!asked(request));
  assert.ok(told(configurations(request)).includes("drivers[0].ohms missing"));
  assert.deepEqual(told(closed_box(shown)), ["reading missing"]);
});

const TAKEN = [
  ["a rig with nothing but an empty request", (rig, file) => (file.rigs = [{ request: {} }])],
  ["everything null that may be left out", (rig) => {
    for (const name of Object.keys(rig)) if (name !== "request") rig[name] = null;
  }],
  ["two hundred rigs", (rig, file) => (file.rigs = Array(200).fill(rig))],
  ["no driver groups", (rig) => (rig.request.drivers = [])],
  ["too many coils", (rig) => (rig.request.drivers = [{ count: 16, coils: 4, ohms: 2 }])],
  ["half a rated point", (rig) => (rig.request.amplifier.channels[0].rated = [{ watts: 500 }])],
  ["a bridge of channels that are not there", (rig) => (rig.request.amplifier.bridges = [{ channels: [0, 16] }])],
  ["a typed text with a tab", (rig) => (rig.typed = [{ path: "drivers[0].ohms", text: "4\t5" }])],
  ["the longest name, in characters", (rig) => (rig.name = "𝛀".repeat(60))],
];

for (const [name, change] of TAKEN) {
  test(`taken: ${name}`, () => {
    assert.ok(validate(changed(change)), JSON.stringify(validate.errors));
  });
}

const DAMAGED = [
  ["another version", (rig, file) => (file.contract_version = 2)],
  ["no version", (rig, file) => delete file.contract_version],
  ["no rigs", (rig, file) => (file.rigs = [])],
  ["a rig too many", (rig, file) => (file.rigs = Array(201).fill(rig))],
  ["a list alone", (rig, file) => (file.rigs = 5)],
  ["a stray field of the file", (rig, file) => (file.saved = "today")],
  ["no request", (rig) => delete rig.request],
  ["a stray field of a rig", (rig) => (rig.colour = "red")],
  ["a stray field deep inside", (rig) => (rig.request.amplifier.channels[0].rated[1].amps = 20)],
  ["a field called constructor", (rig) => (rig.request.constructor = 1)],
  ["a count in text", (rig) => (rig.request.drivers[0].count = "2")],
  ["three coils", (rig) => (rig.request.drivers[0].coils = 3)],
  ["more cups than there can be", (rig) => (rig.request.box.cup_count = 17)],
  ["a driver twice", (rig) => (rig.request.box.mounted_reversed = [2, 2])],
  ["a bridge of one channel", (rig) => (rig.request.amplifier.bridges = [{ channels: [1] }])],
  ["a name that is too long", (rig) => (rig.name = "a".repeat(61))],
  ["a line break in a name", (rig) => (rig.name = "Float,\nrear")],
  ["a typed text without its place", (rig) => delete rig.typed[0].path],
  ["a typed number", (rig) => (rig.typed[0].text = 4)],
  ["too long a typed text", (rig) => (rig.typed[0].text = "4".repeat(1001))],
  ["step 0", (rig) => (rig.step = 0)],
  ["an act done twice", (rig) => (rig.done = [1, 2, 1])],
  ["a reading in text", (rig) => (rig.readings[0].reads = "0.2")],
  ["a word that is no reading", (rig) => (rig.closed_box.reading = "OL")],
  ["something compared without a key", (rig) => delete rig.compared[0].key],
  ["five compared", (rig) => (rig.compared = Array(5).fill({ key: "1a" }))],
];

for (const [name, change] of DAMAGED) {
  test(`refused: ${name}`, () => {
    assert.ok(!validate(changed(change)));
  });
}
