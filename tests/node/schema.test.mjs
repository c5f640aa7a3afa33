// Field by field: what the schema takes the module takes, and what it refuses the module
// refuses, but for what a schema cannot say.
import assert from "node:assert/strict";
import { test } from "node:test";
import Ajv2020 from "ajv/dist/2020.js";
import { closed_box, configurations, diagnose, rig, schema, told } from "./load.mjs";
import { numbers } from "./random.mjs";

const KEY = "1:(1a+1b)||(2a+2b)";
const BASES = {
  "request.json": {
    ask: configurations,
    right: {
      drivers: [{ name: "Marigold", count: 2, coils: 2, ohms: 4, watts: 250, watts_per: "coil", unused_coils: 1, dc_ohms: [3, 3, 3, 3] }],
      amplifier: {
        count: 1,
        channels: [{ least_ohms: 2, rated: [{ ohms: 4, watts: 150 }], terminal_pairs: 1 }, {}],
        bridges: [{ channels: [1, 2], least_ohms: "4", rated: [{ ohms: 8, watts: 300 }] }],
      },
      box: {
        cups: "one", cup_count: null, joined_at: "box", fed: "star", mounted_reversed: [1], vehicle: true,
        conductor_mm2: 2.5, between_coils_m: 0.1, between_drivers_m: 0.5, to_cup_m: 0.5, between_cups_m: 1, to_amplifier_m: 2,
        driver_terminals: { conductors: 2, push_on: false, largest_mm2: 6 }, cup_terminals: {}, amplifier_terminals: {},
      },
      joined_only: true, even_only: true, from: 0, limit: 1,
    },
  },
  "closed_box_request.json": { ask: closed_box, right: { reading: 3.4, leads: 0.2, step: 0.1 } },
  "diagnose_request.json": { ask: (list) => diagnose(rig(), KEY, list), right: [{ point: "1", reads: 0.2, step: 0.1 }] },
};

// What no schema says: how fields go together, and how much work there is.
const BETWEEN = ["wrong_length", "repeated", "not_possible_here", "too_many_coils", "too_many", "too_much_work", "too_exact"];
/** What this one cannot: a code, and the values that it is told of. */
const BEYOND = [
  // Decimals of a number: 0.0001 is none that floats divide by, as the last test shows.
  ["too_many_places", (value) => typeof value === "number"],
  // Whether a fraction is within bounds.
  ["out_of_range", (value) => typeof value === "string" && value.includes("/")],
  // The plan knows its check points, and the reader what makes an entry of readings.
  ["not_one_of", (value, path) => path.at(-1) === "point"],
  ["missing", (value, path, name) => name === "diagnose_request.json"],
];

/** Every field of a schema, itself among them: where it stands and what it takes. */
function fields(root, part, path = []) {
  if (part.$ref) return fields(root, root.$defs[part.$ref.slice("#/$defs/".length)], path);
  const inner = (part.anyOf ?? []).flatMap((one) => fields(root, one, path).filter(({ path: own }) => own.length > path.length));
  if (part.properties) inner.push(...Object.entries(part.properties).flatMap(([name, one]) => fields(root, one, [...path, name])));
  if (part.type === "array") inner.push(...fields(root, part.items, [...path, 0]));
  return [{ path, part }, ...inner];
}

/** The bounds that a schema names anywhere in a field. */
const bounds = (part) => [part, ...(part.anyOf ?? []), part.items ?? {}].flatMap((one) => [
  one.minimum, one.maximum, one.minItems, one.maxItems, one.maxLength, ...(one.enum ?? []),
]).filter((one) => one !== undefined && one !== null);

function values(part, random) {
  const near = bounds(part).flatMap((one) => (typeof one === "number" ? [one, one - 1, one + 1, one - 1e-5, one + 1e-5, one * 1.1, String(one)] : [one, `${one} `]));
  const letters = "0011234579./ -e";
  const text = (length) => Array.from({ length }, () => letters[Math.floor(random() * letters.length)]).join("");
  const digits = (most) => text(1 + Math.floor(random() * most)).replace(/[^0-9]/gu, "0");
  const likely = () => {
    const form = random();
    if (form < 0.3) return `${digits(5)}.${digits(5)}`;
    if (form < 0.6) return `${digits(6)}/${digits(6)}`;
    return form < 0.8 ? digits(33) : text(Math.floor(random() * 9));
  };
  const sized = bounds(part).filter((one) => Number.isInteger(one) && one <= 2_000).flatMap((one) => [
    "é".repeat(one), "𝛀".repeat(one + 1), Array(one).fill(1), Array.from({ length: one + 1 }, (_, i) => i + 1),
    Array.from({ length: one }, (_, i) => i + 1), Array(one).fill({}),
  ]);
  return [
    null, true, false, 0, -0, 1, 2, 1.5, 4, 1000, 1.4, 0.7, 3.3333, 1.00001, 1 / 3, 1e9, -1, 1e308, "", " ", "4", "4/0", "4/00000", "00004/00003",
    "0.1", "0.0999", "1000.0000", "1000.0001", "1.23456", "00000.1", "٤", "4\n", "a\tb", "\u0085", "open", "1", "x".repeat(61), [], {}, [1, 1], [1, 2], ["1"],
    [null], [0.5], [{}], { x: 1 }, [[1]], ...near, ...sized, ...Array.from({ length: 50 }, likely), ...Array.from({ length: 10 }, () => random() * 1200),
    ...Array.from({ length: 10 }, () => Math.round(random() * 12_000_000) / 10_000),
  ];
}

const placed = (right, path, value) => {
  if (path.length === 0) return value;
  const whole = structuredClone(right);
  let here = whole;
  for (const step of path.slice(0, -1)) here = here[step];
  here[path.at(-1)] = value;
  return whole;
};

const random = numbers(11);
for (const [name, { ask, right }] of Object.entries(BASES)) {
  const root = schema(name);
  const validate = new Ajv2020({ strict: true }).compile(root);
  for (const { path, part } of fields(root, root)) {
    test(`${name} and the reader agree: ${path.join(".") || "the whole"}`, () => {
      const met = { taken: 0, refused: 0 };
      const own = path.reduce((here, step) => here[step], right);
      for (const value of [own, ...values(part, random)]) {
        const given = placed(right, path, value);
        const { problems } = ask(given);
        if (!validate(given)) {
          met.refused += 1;
          assert.ok(problems.length > 0, `the schema alone refuses ${JSON.stringify(value)}: ${JSON.stringify(validate.errors)}`);
          continue;
        }
        met.taken += 1;
        const unsaid = ({ code }) => BETWEEN.includes(code) || BEYOND.some(([one, when]) => one === code && when(value, path, name));
        assert.deepEqual(problems.filter((one) => !unsaid(one)), [], `the schema alone takes ${JSON.stringify(value)}`);
      }
      assert.ok(met.taken > 0 && met.refused > 0, JSON.stringify(met));
    });
  }
}

test("decimals of a number stay unsaid: what divides by 0.0001 is not what has four decimals", () => {
  const four = new Ajv2020({ strict: true }).compile({ type: "number", multipleOf: 0.0001 });
  const driver = (ohms) => ({ drivers: [{ count: 1, coils: 1, ohms }] });
  assert.ok(!four(1.4) || !four(0.7), "validators learned it: say it in the schema");
  assert.deepEqual(told(configurations(driver(1.4))), []);
  assert.deepEqual(told(configurations(driver(1.40001))), ["drivers[0].ohms too_many_places"]);
});
