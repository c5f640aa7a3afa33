// What goes in: no value of JavaScript's makes the module throw, and each is answered
// as the contract says.
import assert from "node:assert/strict";
import { test } from "node:test";
import vm from "node:vm";
import Ajv2020 from "ajv/dist/2020.js";
import { closed_box, configurations, diagnose, open, readings, rig, schema, told, wiring } from "./load.mjs";
import { numbers } from "./random.mjs";

const driver = (fields) => ({ drivers: [{ count: 2, coils: 1, ohms: 2, ...fields }] });
const throwing = (name, rest = {}) =>
  Object.defineProperty({ ...rest }, name, {
    enumerable: true,
    get() {
      throw new Error("thrown by the test");
    },
  });
const revoked = (target) => {
  const { proxy, revoke } = Proxy.revocable(target, {});
  revoke();
  return proxy;
};
const refusing = (target) =>
  new Proxy(target, {
    ownKeys() {
      throw new Error("refused by the test");
    },
  });
const looped = {};
looped.drivers = [looped, [looped]];
looped.amplifier = looped;
const sparse = [];
sparse.length = 4294967295;
class Rig {
  drivers = [{ count: 2, coils: 1, ohms: 2 }];
}

const NO_OBJECT = [" not_an_object"];
const REFUSED = [
  ["nothing", undefined, NO_OBJECT],
  ["null", null, NO_OBJECT],
  ["a number", 5, NO_OBJECT],
  ["not a number", NaN, NO_OBJECT],
  ["text", "{}", NO_OBJECT],
  ["true", true, NO_OBJECT],
  ["a list", [], NO_OBJECT],
  ["a function", () => {}, NO_OBJECT],
  ["a symbol", Symbol("x"), NO_OBJECT],
  ["a big integer", 10n, NO_OBJECT],
  ["a date", new Date(0), NO_OBJECT],
  ["a map", new Map([["drivers", []]]), NO_OBJECT],
  ["a set", new Set(), NO_OBJECT],
  ["bytes", new Uint8Array(4), NO_OBJECT],
  ["boxed text", new String("{}"), NO_OBJECT],
  ["an instance of a class", new Rig(), NO_OBJECT],
  ["a revoked proxy", revoked({}), NO_OBJECT],
  ["a revoked proxy of a list", revoked([]), NO_OBJECT],
  ["a proxy that refuses", refusing({}), NO_OBJECT],
  ["an object without fields", {}, ["drivers missing"]],
  ["a field that is undefined", { drivers: undefined }, ["drivers missing"]],
  ["a field that throws", throwing("drivers"), ["drivers wrong_type"]],
  ["an unknown field that throws", throwing("other", driver()), ["other unknown_field"]],
  ["a list of holes", { drivers: [,] }, ["drivers[0] wrong_type"]],
  ["a map for a driver", { drivers: [new Map()] }, ["drivers[0] wrong_type"]],
  ["a list for a driver", { drivers: [[]] }, ["drivers[0] wrong_type"]],
  ["a refusing proxy for a driver", { drivers: [refusing({})] }, ["drivers[0] wrong_type"]],
  ["a count in text", driver({ count: "2" }), ["drivers[0].count wrong_type"]],
  ["a count in a box", driver({ count: new Number(2) }), ["drivers[0].count wrong_type"]],
  ["a big count", driver({ count: 2n }), ["drivers[0].count wrong_type"]],
  ["a count that is not a number", driver({ count: NaN }), ["drivers[0].count wrong_type"]],
  ["endless ohms", driver({ ohms: Infinity }), ["drivers[0].ohms out_of_range"]],
  ["an unknown field", driver({ ohm: 2 }), ["drivers[0].ohm unknown_field"]],
  ["an odd field", driver({ "a.b": 2 }), ['drivers[0]["a.b"] unknown_field']],
  ["a field called __proto__", JSON.parse('{"drivers":[{"count":1,"coils":1,"ohms":2}],"__proto__":1}'), ["__proto__ unknown_field"]],
  ["half a character in a name", driver({ name: "\ud800\n" }), ["drivers[0].name out_of_range"]],
  ["a sparse list of readings", driver({ dc_ohms: sparse }), ["drivers[0].dc_ohms out_of_range"]],
  ["a bridge that is a set", rig({ amplifier: { channels: [{}, {}], bridges: [{ channels: new Set([1, 2]) }] } }), [
    "amplifier.bridges[0].channels wrong_type",
  ]],
];

for (const [name, request, want] of REFUSED) {
  test(`refused, not thrown: ${name}`, () => {
    const answer = configurations(request);
    assert.deepEqual(told(answer), want);
    for (const { message } of answer.problems) assert.match(message, /^[A-Z].*\.$/su);
  });
}

test("no argument at all", () => {
  assert.deepEqual(told(configurations()), NO_OBJECT);
});

test("a request that loops back on itself ends", () => {
  const problems = told(configurations(looped));
  assert.ok(problems.includes("drivers[0].count missing"), problems.join());
  assert.ok(problems.includes("drivers[1] wrong_type"), problems.join());
  assert.ok(problems.includes("amplifier.drivers unknown_field"), problems.join());
});

test("a list with a billion empty places ends at its bound", () => {
  const problems = told(configurations({ drivers: sparse }));
  assert.equal(problems[0], "drivers out_of_range");
  assert.equal(problems.length, 9);
});

const deep = (depth) => {
  let value = [];
  for (let i = 0; i < depth; i += 1) value = [value];
  return value;
};
const shared = (depth) => {
  let value = [1, 1];
  for (let i = 0; i < depth; i += 1) value = [value, value];
  return value;
};
const selfish = [];
selfish.push(selfish, selfish);
const bridge = (channels) => rig({ amplifier: { channels: [{}, {}], bridges: [{ channels }] } });
const KEY = "1:(1a+1b)||(2a+2b)";

// A number's place is never looked into: neither cycles nor depth nor what is shared.
for (const [kind, value] of [["loops", selfish], ["is 20,000 deep", deep(20_000)], ["is shared 60 times", shared(60)]]) {
  for (const [name, ask, want] of [
    ["the request", () => configurations(value), NO_OBJECT],
    ["the drivers", () => configurations({ drivers: value }), /^drivers\[0\] wrong_type/u],
    ["measured resistances", () => configurations(driver({ dc_ohms: value })), /^drivers\[0\]\.dc_ohms\[0\] wrong_type/u],
    ["bridged channels", () => configurations(bridge(value)), /^amplifier\.bridges\[0\]\.channels(\[0\])? /u],
    ["drivers facing in", () => configurations(rig({ box: { mounted_reversed: value } })), /^box\.mounted_reversed\[0\] wrong_type/u],
    ["a name", () => configurations(driver({ name: value })), ["drivers[0].name wrong_type"]],
    ["the key of a plan", () => wiring(rig(), value), ["key wrong_type"]],
    ["the key of check points", () => readings(rig(), value), ["key wrong_type"]],
    ["readings", () => diagnose(rig(), KEY, value), /^readings\[0\] wrong_type/u],
    ["a closed box", () => closed_box(value), NO_OBJECT],
    ["a reading", () => closed_box({ reading: value }), ["reading wrong_type"]],
    ["an opened list", () => open(value).page(), NO_OBJECT],
    ["a page", () => open(rig()).page(value, value), ["from wrong_type", "limit wrong_type"]],
  ]) {
    test(`refused, not thrown: a list that ${kind} as ${name}`, () => {
      const problems = told(ask());
      if (Array.isArray(want)) assert.deepEqual(problems, want);
      else assert.match(problems.join("\n"), want);
      assert.deepEqual(told(configurations(rig())), []);
    });
  }
}

test("texts are taken no longer than they may be", () => {
  // As long as JavaScript makes them: a copy alone would fill the module's memory.
  const book = "x".repeat(2 ** 29 - 24);
  assert.deepEqual(told(configurations(driver({ name: book, ohms: book, watts_per: book, count: book }))), [
    "drivers[0].name out_of_range",
    "drivers[0].count wrong_type",
    "drivers[0].ohms not_a_number_text",
    "drivers[0].watts_per not_one_of",
  ]);
  assert.deepEqual(told(wiring(rig(), book)), ["key unknown_configuration"]);
  assert.deepEqual(told(diagnose(rig(), KEY, [{ point: book, reads: book }])), [
    "readings[0].point out_of_range",
    "readings[0].reads not_one_of",
  ]);
  const [{ path }] = configurations({ ...driver(), [book.slice(0, 2 ** 20)]: 1 }).problems;
  assert.ok(path.length <= 210, `${path.length}`);
});

test("of many stray fields twenty are told, and no field of ours is missed among them", () => {
  const stray = Object.fromEntries(Array.from({ length: 100_000 }, (_, i) => [`stray${i}`, i]));
  const problems = told(configurations({ ...stray, ...driver() }));
  assert.equal(problems.length, 20);
  assert.equal(problems[19], "stray19 unknown_field");
});

const SAME = [
  ["undefined counts as left out", rig({ limit: undefined, joined_only: undefined })],
  ["null takes the default", rig({ limit: null, joined_only: null, even_only: null })],
  ["an object without a prototype", Object.assign(Object.create(null), rig())],
  ["a frozen object", Object.freeze(rig())],
  ["a proxy that passes everything on", new Proxy(rig(), {})],
  ["a plain object of another realm", vm.runInNewContext(`(${JSON.stringify(rig())})`)],
  ["a getter that answers", Object.defineProperty(rig({ limit: 1 }), "limit", { enumerable: true, get: () => 200 })],
  ["a field that is not enumerable", Object.defineProperty(rig(), "hidden", { value: 1 })],
  ["a field whose name is a symbol", rig({ [Symbol("x")]: 1 })],
];

for (const [name, request] of SAME) {
  test(`read like a plain request: ${name}`, () => {
    const answer = configurations(request);
    assert.deepEqual(told(answer), []);
    assert.deepEqual(answer, configurations(rig()));
  });
}

test("the request is left as it was", () => {
  const request = rig();
  const before = structuredClone(request);
  configurations(request);
  assert.deepEqual(request, before);
});

/** A value by a schema: mostly right, now and then not. */
function byschema(root, part, random) {
  const pick = (list) => list[Math.floor(random() * list.length)];
  if (random() < 0.01) return pick([null, -1, 1.5, 9, "x", [], {}, true, 1e9]);
  if (part.$ref) return byschema(root, root.$defs[part.$ref.slice("#/$defs/".length)], random);
  if (part.anyOf) return byschema(root, pick(part.anyOf), random);
  if (part.enum) return pick(part.enum);
  const between = (least, most) => least + Math.floor(random() * (most - least + 1));
  switch (part.type) {
    case "null":
      return null;
    case "boolean":
      return random() < 0.5;
    case "string":
      // Either a name or exact ohms.
      return part.maxLength ? pick(["", "Marigold", "ß∥Ω"]) : pick(["4", "1.4", "4/3", "0.7500"]);
    case "integer":
      // Small rigs: what is tried is the form.
      return between(part.minimum, Math.min(part.maximum, part.minimum + 2));
    case "number":
      return Math.min(Math.max(between(1, 40) / 4, part.minimum), part.maximum);
    case "array": {
      const length = between(part.minItems ?? 0, Math.min(part.maxItems ?? 2, 2));
      return Array.from({ length }, () => byschema(root, part.items, random));
    }
    case "object": {
      const fields = Object.entries(part.properties).filter(([name]) => part.required.includes(name) || random() < 0.4);
      return Object.fromEntries(fields.map(([name, field]) => [name, byschema(root, field, random)]));
    }
  }
  throw new Error(`the schema says something new: ${JSON.stringify(part)}`);
}

test("what the schema refuses the module refuses, and the other way round", () => {
  const request = schema("request.json");
  const validate = new Ajv2020({ strict: true }).compile(request);
  const validAnswer = new Ajv2020({ strict: true }).compile(schema("answer.json"));
  // What no schema can say: how fields go together, and how much work there is.
  const between = ["wrong_length", "repeated", "not_possible_here", "too_many_coils", "too_many", "too_much_work", "too_exact"];
  const seen = { both: 0, neither: 0, between: 0 };
  const random = numbers(2);
  for (let i = 0; i < 2000; i += 1) {
    const value = byschema(request, request, random);
    const answer = configurations(value);
    assert.ok(validAnswer(answer), JSON.stringify(validAnswer.errors));
    const codes = answer.problems.map(({ code }) => code).filter((code) => !between.includes(code));
    if (validate(value)) {
      assert.deepEqual(codes, [], JSON.stringify(value));
      seen[answer.problems.length === 0 ? "both" : "between"] += 1;
    } else {
      assert.ok(answer.problems.length > 0, `the schema alone refuses ${JSON.stringify(value)}: ${JSON.stringify(validate.errors)}`);
      seen.neither += 1;
    }
  }
  for (const [kind, count] of Object.entries(seen)) assert.ok(count > 50, `${kind}: ${count}`);
});
