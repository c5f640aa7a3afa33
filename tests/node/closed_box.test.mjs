// What may be in a closed box, held against the module as it ships: its form, what a
// workshop would say, and what no right question is.
import assert from "node:assert/strict";
import { test } from "node:test";
import Ajv2020 from "ajv/dist/2020.js";
import { closed_box, schema, told } from "./load.mjs";

const KEYS = {
  box: [
    "contract_version", "hint", "lowest_ohms", "lowest_exact", "amplifier_least_ohms", "loads", "text", "problems",
  ],
  load: ["ohms", "exact", "likely", "fillings"],
  filling: ["drivers", "coils", "ohms", "exact", "coils_in_path", "paths", "likely"],
};

const ASKED = {
  "a usual box": { reading: 3.2 },
  "with leads": { reading: 3.2, leads: 0.2, step: 0.01 },
  "leads first": { reading: 0.9, leads: null },
  "no end": { reading: "open" },
  "a short": { reading: 0.2, leads: 0.2 },
  "whole ohms": { reading: 2, step: 1 },
  "below the leads": { reading: 0, leads: 2 },
  "beyond drivers": { reading: 900000 },
  "a problem": { reading: -1, extra: true },
};

for (const [name, asked] of Object.entries(ASKED)) {
  test(`exactly the contract's fields, in its order, as the schema says: ${name}`, () => {
    const before = structuredClone(asked);
    const found = closed_box(asked);
    assert.deepEqual(asked, before);
    assert.deepEqual(Object.keys(found), KEYS.box);
    for (const load of found.loads) {
      assert.deepEqual(Object.keys(load), KEYS.load);
      assert.ok(load.fillings.length >= 1 && load.fillings.length <= 4);
      for (const one of load.fillings) {
        assert.deepEqual(Object.keys(one), KEYS.filling);
        assert.equal(one.coils_in_path * one.paths, one.drivers * one.coils);
        const apart = Math.abs((one.ohms * one.coils_in_path) / one.paths - load.ohms);
        assert.ok(apart < 1e-9, `${one.exact} makes ${load.exact}`);
      }
    }
    const validate = new Ajv2020({ strict: true }).compile(schema("closed_box.json"));
    assert.ok(validate(found), JSON.stringify(validate.errors));
    assert.ok(!validate({ ...found, more: 1 }), "the schema lets a stray field pass");
    assert.deepEqual(JSON.parse(JSON.stringify(found)), found);
  });

  test(`the schema of what is asked agrees: ${name}`, () => {
    const validate = new Ajv2020({ strict: true }).compile(schema("closed_box_request.json"));
    assert.equal(validate(asked), closed_box(asked).problems.length === 0);
  });
}

test("each reading has its hint", () => {
  const hints = Object.values(ASKED).map((asked) => closed_box(asked).hint);
  assert.deepEqual(hints, [
    "loads", "loads", "leads_first", "open", "short", "coarse", "below_leads", "unusual", null,
  ]);
});

// Common practice, no source: a 4 Ω load reads a little over 3 Ω, and amplifiers are
// stable at 4, 2, 1 or 0.5 Ω.
test("3.2 Ω is a 4 Ω load before anything else, and asks for an amplifier stable at 2 Ω", () => {
  const found = closed_box({ reading: 3.2, leads: 0.2 });
  assert.deepEqual([found.loads[0].exact, found.amplifier_least_ohms], ["4", 2]);
  assert.deepEqual([found.lowest_exact, found.lowest_ohms], ["8/3", 8 / 3]);
  assert.equal(Math.min(...found.loads.map(({ ohms }) => ohms)), found.lowest_ohms);
  const sum = found.loads.reduce((all, { likely }) => all + likely, 0);
  assert.ok(Math.abs(sum - 1) < 1e-9);
  assert.match(found.text, /hint.*not a proof/);
});

test("everything that is wrong is told at once, at its path, and nothing throws", () => {
  for (const asked of [undefined, null, 5, "open", [], new Map(), () => 1]) {
    assert.deepEqual(told(closed_box(asked)), [" not_an_object"]);
  }
  assert.deepEqual(told(closed_box()), [" not_an_object"]);
  assert.deepEqual(told(closed_box({})), ["reading missing"]);
  for (const [asked, problems] of [
    [{ reading: null }, ["reading wrong_type"]],
    [{ reading: "3.2" }, ["reading not_one_of"]],
    [{ reading: "OL" }, ["reading not_one_of"]],
    [{ reading: -0.1 }, ["reading out_of_range"]],
    [{ reading: NaN }, ["reading out_of_range"]],
    [{ reading: [1] }, ["reading wrong_type"]],
    [
      { reading: true, leads: "0.2", step: 0, cup: 1 },
      ["reading wrong_type", "leads wrong_type", "step out_of_range", "cup unknown_field"],
    ],
    [{ reading: 1, leads: -1 }, ["leads out_of_range"]],
    [{ reading: 1, leads: 11 }, ["leads out_of_range"]],
  ]) {
    const found = closed_box(asked);
    assert.deepEqual(told(found), problems);
    assert.deepEqual([found.hint, found.loads, found.lowest_ohms, found.text], [null, [], null, null]);
    for (const { message } of found.problems) assert.match(message, /^[A-Z].*\.$/);
  }
  const throws = Object.defineProperty({}, "reading", { enumerable: true, get() { throw new Error("no"); } });
  assert.deepEqual(told(closed_box(throws)), ["reading wrong_type"]);
});
