// What the contract promises of an answer's form, held against the module as it ships.
import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { test } from "node:test";
import Ajv2020 from "ajv/dist/2020.js";
import { configurations, exported, folder, rig, schema, told } from "./load.mjs";

const KEYS = {
  answer: ["contract_version", "total", "total_exact", "before_filters", "loads", "configurations", "problems"],
  load: ["ohms", "exact", "configurations", "verdict", "even"],
  configuration: [
    "rank", "key", "verdict", "even", "joined_at_driver", "outputs", "driver_shares", "coil_shares", "runs",
  ],
  output: [
    "way", "channels", "network", "ohms", "exact", "verdict",
    "available_watts", "usable_watts", "target_watts", "overheats",
  ],
  available: ["low", "high", "basis"],
  problem: ["path", "code", "message"],
};

const REQUESTS = {
  "a rig that fits": rig(),
  "no amplifier": { drivers: [{ count: 2, coils: 1, ohms: 2 }] },
  "nothing stated": rig({ amplifier: { channels: [{}] } }),
  "a bridge": rig({
    amplifier: {
      channels: [
        { least_ohms: 2, rated: [{ ohms: 4, watts: 150 }, { ohms: 2, watts: 250 }] },
        { least_ohms: 2, rated: [{ ohms: 4, watts: 150 }, { ohms: 2, watts: 250 }] },
      ],
      bridges: [{ channels: [1, 2], least_ohms: 4 }],
    },
  }),
  "both filters off": rig({ joined_only: false, even_only: false }),
  "no watts": { ...rig(), drivers: [{ count: 3, coils: 2, ohms: "4/3" }] },
  "limit 0": rig({ limit: 0 }),
  "too many": { drivers: [{ count: 8, coils: 2, ohms: 2 }], joined_only: false, even_only: false },
  "problems": { drivers: [{ count: 0, coils: 3 }], amplifier: {} },
  "not an object": 5,
};

/** Every value in a tree of plain JSON; anything else fails the test. */
function walk(value, visit, path = "answer") {
  visit(value, path);
  if (Array.isArray(value)) {
    value.forEach((entry, i) => walk(entry, visit, `${path}[${i}]`));
  } else if (value !== null && typeof value === "object") {
    Object.entries(value).forEach(([name, entry]) => walk(entry, visit, `${path}.${name}`));
  }
}

test("the folder holds one wasm, the declarations and the schemas", () => {
  const names = readdirSync(folder);
  assert.equal(names.filter((name) => name.endsWith(".wasm")).length, 1);
  for (const name of ["coilwright.js", "coilwright.d.ts", "package.json", "schema"]) {
    assert.ok(names.includes(name), name);
  }
  assert.deepEqual(readdirSync(`${folder}/schema`).sort(), [
    "answer.json", "closed_box.json", "closed_box_request.json", "diagnose_request.json", "diagnosis.json",
    "readings.json", "request.json", "rigs_file.json", "wiring.json",
  ]);
});

test("it exports what the contract names", () => {
  assert.equal(typeof exported.default, "function");
  assert.equal(typeof configurations, "function");
  assert.equal(typeof exported.wiring, "function");
  assert.equal(typeof exported.closed_box, "function");
  assert.equal(typeof exported.readings, "function");
  assert.equal(typeof exported.diagnose, "function");
  assert.equal(typeof exported.open, "function");
  assert.deepEqual(Object.entries(exported.open(rig())).map(([name, one]) => `${name} ${typeof one}`), [
    "page function", "close function",
  ]);
  // Nothing else is there, and what its types declare is the same.
  const names = ["closed_box", "configurations", "default", "diagnose", "open", "readings", "wiring"];
  assert.deepEqual(Object.keys(exported).sort(), names);
  const types = readFileSync(`${folder}/coilwright.d.ts`, "utf8");
  const declared = [...types.matchAll(/^export (default )?function (\w+)/gm)];
  assert.deepEqual(declared.map(([, main, name]) => (main ? "default" : name)).sort(), names);
});

for (const [name, request] of Object.entries(REQUESTS)) {
  test(`exactly the contract's fields, in its order: ${name}`, () => {
    const answer = configurations(request);
    assert.deepEqual(Object.keys(answer), KEYS.answer);
    for (const load of answer.loads) assert.deepEqual(Object.keys(load), KEYS.load);
    for (const problem of answer.problems) assert.deepEqual(Object.keys(problem), KEYS.problem);
    for (const configuration of answer.configurations) {
      assert.deepEqual(Object.keys(configuration), KEYS.configuration);
      for (const output of configuration.outputs) {
        assert.deepEqual(Object.keys(output), KEYS.output);
        if (output.available_watts) assert.deepEqual(Object.keys(output.available_watts), KEYS.available);
      }
    }
  });

  test(`plain JSON, null where nothing is known: ${name}`, () => {
    const answer = configurations(request);
    walk(answer, (value, path) => {
      const plain =
        value === null ||
        Array.isArray(value) ||
        ["string", "boolean"].includes(typeof value) ||
        (typeof value === "number" && Number.isFinite(value)) ||
        (typeof value === "object" && Object.getPrototypeOf(value) === Object.prototype);
      assert.ok(plain, `${path} is ${String(value)}`);
    });
    assert.deepEqual(JSON.parse(JSON.stringify(answer)), answer);
  });

  test(`as the schema says: ${name}`, () => {
    const validate = new Ajv2020({ strict: true }).compile(schema("answer.json"));
    const answer = configurations(request);
    assert.ok(validate(answer), JSON.stringify(validate.errors));
    assert.ok(!validate({ ...answer, more: 1 }), "the schema lets a stray field pass");
    assert.ok(!validate({ ...answer, total: undefined }), "the schema lets a missing field pass");
  });

  test(`with a problem there is nothing else, without one a total: ${name}`, () => {
    const answer = configurations(request);
    if (answer.problems.length === 0) {
      assert.ok(Number.isInteger(answer.total));
    } else {
      assert.equal(answer.total, null);
      assert.deepEqual([answer.loads, answer.configurations], [[], []]);
    }
  });
}

test("two single-coil 2 Ω drivers make 1 Ω and 4 Ω", () => {
  // Common practice, no source.
  const answer = configurations({ drivers: [{ count: 2, coils: 1, ohms: 2 }] });
  assert.deepEqual(told(answer), []);
  assert.deepEqual(answer.loads.map(({ ohms, exact }) => [ohms, exact]), [[1, "1"], [4, "4"]]);
  assert.equal(answer.total, 2);
  const networks = answer.configurations.map(({ outputs }) => outputs[0].network);
  assert.deepEqual(networks.sort(), ["1a + 2a", "1a ∥ 2a"]);
});

test("the limit cuts the list and nothing else", () => {
  const all = configurations(rig({ joined_only: false, even_only: false }));
  const some = configurations(rig({ joined_only: false, even_only: false, limit: 3 }));
  assert.equal(all.total, all.configurations.length);
  assert.ok(all.total > 3);
  assert.deepEqual(some.configurations, all.configurations.slice(0, 3));
  assert.deepEqual([some.total, some.loads], [all.total, all.loads]);
});

test("the same request gives the same answer", () => {
  assert.deepEqual(configurations(rig()), configurations(rig()));
});
