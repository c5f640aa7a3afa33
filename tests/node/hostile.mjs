// What nobody would give the module, at every place of every argument; and what it must
// answer before and afterwards alike.
import assert from "node:assert/strict";
import { exported, memory, rig } from "./load.mjs";
import { numbers } from "./random.mjs";

const { closed_box, configurations, diagnose, open, readings, wiring } = exported;

const thrower = () => {
  throw new Error("thrown by the campaign");
};
const revoked = (target) => {
  const { proxy, revoke } = Proxy.revocable(target, {});
  revoke();
  return proxy;
};
/** An object or a list of which a field throws, or its text does. */
const throwing = (target, name) => Object.defineProperty(target, name, { enumerable: true, get: thrower });
const sized = (length) =>
  new Proxy([], { get: (list, name) => (name === "length" ? (length === thrower ? thrower() : length) : list) });
const nested = (depth, wrap) => {
  let value = 1;
  for (let i = 0; i < depth; i += 1) value = wrap(value);
  return value;
};

/** Values of every kind, made once: some are large. */
function hostile() {
  const selfish = [];
  selfish.push(selfish, selfish);
  const looped = {};
  Object.assign(looped, { drivers: [looped], amplifier: looped, box: looped, readings: [looped], channels: [looped] });
  const sparse = [];
  sparse.length = 4294967295;
  const changing = {
    get drivers() {
      this[`more${Object.keys(this).length % 50}`] = 1;
      return [changing];
    },
  };
  const endless = new Proxy({}, { get: (_, name, self) => (name === "length" ? 1e9 : self), ownKeys: () => ["drivers"] });
  const traps = [
    "get", "has", "ownKeys", "getPrototypeOf", "getOwnPropertyDescriptor", "isExtensible",
  ];
  const refusing = traps.flatMap((trap) => [new Proxy(rig(), { [trap]: thrower }), new Proxy([1], { [trap]: thrower })]);
  const lying = [
    new Proxy(rig(), { ownKeys: () => [Symbol("x"), "drivers", "toString", "length"] }),
    new Proxy(rig(), { getOwnPropertyDescriptor: () => ({ configurable: true, enumerable: true, value: 1 }) }),
    new Proxy({}, { getPrototypeOf: () => null, get: () => looped }),
  ];
  const asking = {
    get drivers() {
      return configurations(rig()).configurations;
    },
    get limit() {
      return open(rig()).page(0, 1).total;
    },
  };
  const numbersOf = [Int8Array, Uint8ClampedArray, Uint16Array, Int32Array, Float32Array, Float64Array, BigInt64Array];
  const texts = [
    "", "x", "2", "4/3", "4/0", "0/4", "1.40000", "00004", "9".repeat(31), "-1", "1e3", " 4", "４", "\0", "\ud800", "\udc00\ud800",
    "a\ud83d", "\u202e", "open", "driver", "__proto__", "constructor", "length", "a".repeat(100_000), "𝛀".repeat(1_001),
    "(".repeat(3_000), "1a+".repeat(700), "1:1a;".repeat(300), "1a\n||2a", "∥".repeat(500), "NaN", "null", "[object Object]",
  ];
  return [
    undefined, null, true, false, 0, -0, 1, 2, 3, 16, 17, 1.5, 0.1, 0.00001, -1, 1e-300, 1e9, 2 ** 31, 2 ** 32, 2 ** 53, 1e308,
    NaN, Infinity, -Infinity, 0n, 10n, -(2n ** 70n), Symbol("x"), Symbol.iterator, ...texts,
    () => {}, thrower, async () => {}, function* () {}, class {}, class extends Array {}, configurations, Math.max, Proxy,
    new Date(0), new Date(NaN), /x/u, new Error("x"), new Map([["drivers", []]]), new Set([1, 2]), new WeakMap(), new WeakSet(),
    Promise.resolve(1), new ArrayBuffer(8), new SharedArrayBuffer(8), new DataView(new ArrayBuffer(8)),
    ...numbersOf.map((kind) => new kind(64)), new Uint8Array(10_000_000),
    Object(1), Object("4"), Object(true), Object(1n), Object(Symbol("x")),
    {}, [], [[]], [[[[]]]], [null], [undefined], [,], [, ,], [{}], [1, 2], [2, 1], [1, 1], ["1"], [1.5], [-1], [NaN], sparse,
    Array(100_000).fill(1), Array(1_000).fill({}), Array(65).fill(3.5),
    nested(20_000, (value) => [value]), nested(20_000, (value) => ({ drivers: [value] })), nested(40, (value) => [value, value]),
    nested(12, (value) => ({ drivers: Array(8).fill(value), dc_ohms: [value, value], channels: [value, value] })),
    selfish, looped, changing, endless, asking, ...refusing, ...lying,
    ...[thrower, -1, NaN, Infinity, 1e9, 2 ** 33, "3", {}, null, 1.5].map(sized),
    revoked({}), revoked([]), revoked(() => {}), new Proxy([], {}), new Proxy(() => {}, {}), nested(50, (value) => new Proxy(Object(value), {})),
    Object.create(null), Object.create({}), Object.create(rig()), Object.create(null, { drivers: { get: thrower, enumerable: true } }),
    throwing({}, "drivers"), throwing({}, "count"), throwing({}, "toJSON"), throwing({}, "toString"), throwing([], "0"), throwing([1, 2, 3], "1"),
    { toString: thrower, valueOf: thrower, toJSON: thrower, [Symbol.toPrimitive]: thrower },
    Object.defineProperty([], Symbol.iterator, { get: thrower }), Object.setPrototypeOf([1, 2], null),
    Object.fromEntries(Array.from({ length: 5_000 }, (_, i) => [`stray${i}`, i])), { ["n".repeat(100_000)]: 1 },
    JSON.parse('{"__proto__": 1, "constructor": 2, "": 3, "a.b": 4}'), Object.freeze(rig()), Object.seal([rig()]),
    (function () { return arguments; })(1, 2), globalThis, new (class Rig { drivers = []; })(), exported, exported.default,
  ];
}

const box = {
  cups: "group", cup_count: 2, joined_at: "box", fed: "star", mounted_reversed: [2], vehicle: false, conductor_mm2: 4,
  to_amplifier_m: 3, driver_terminals: { conductors: 2, push_on: false, largest_mm2: 6 },
};
const bridged = {
  count: 1,
  channels: [{ least_ohms: 2, rated: [{ ohms: 4, watts: 150 }, { ohms: "2", watts: 250 }] }, { least_ohms: 2, terminal_pairs: 2 }],
  bridges: [{ channels: [1, 2], least_ohms: 4, rated: [] }],
};
const measured = { name: "Marigold, rear", count: 2, coils: 2, ohms: "4/3", watts: 250, watts_per: "coil", unused_coils: 1, dc_ohms: [1, 1.1, 1.2, 1.3] };
const shown = [{ point: "1", reads: 0.2, step: 0.1 }, { point: "2.coil.1a", reads: "open" }, { question: "cool", answer: true }];

/** Right arguments of every function, for the campaign to spoil. */
const RIGHT = {
  configurations: () => [
    [rig({ from: 1, limit: 2, joined_only: false, even_only: true, box })],
    [{ drivers: [measured], amplifier: bridged, limit: 3 }],
    [{ drivers: [{ count: 3, coils: 1, ohms: 4 }] }],
  ],
  wiring: () => [[rig({ box: { ...box, cups: "one", cup_count: null, mounted_reversed: [1] } }), "1:(1a+1b)||(2a+2b)"], [{ drivers: [measured] }, "1a||2a"]],
  readings: () => [[rig({ box: {} }), "1:(1a+1b)||(2a+2b)"], [{ drivers: [measured] }, "1a+2a"]],
  diagnose: () => [[rig(), "1:(1a+1b)||(2a+2b)", shown], [{ drivers: [measured] }, "1a||2a", [shown[0]]]],
  closed_box: () => [[{ reading: 3.4, leads: 0.2, step: 0.1 }], [{ reading: "open" }]],
  page: () => [[rig({ joined_only: false }), 2, 3], [{ drivers: [measured] }, 0, null]],
};

const CALLS = {
  configurations, wiring, readings, diagnose, closed_box,
  page: (request, ...rows) => {
    const list = open(request);
    const { page, close } = list;
    const answer = page(...rows);
    // Some stay open: the module sees to it that they are not too many.
    if (answer.problems.length > 0 || rows[0] === 2) close();
    return answer;
  },
};

/** What is asked again and again: every function, with and without problems. */
const ASKED = [
  () => configurations(rig()),
  () => configurations(rig({ joined_only: false, even_only: false, from: 3, limit: 4 })),
  () => configurations({ drivers: [{ count: 9, coils: 3 }], amplifier: 1, "": [] }),
  () => wiring(rig({ box: { cups: "driver" } }), "1:(1b+1a)||(2a+2b)"),
  () => wiring({ drivers: [measured] }, "1a"),
  () => readings({ drivers: [measured], amplifier: bridged }, "1+2:1a+2a"),
  () => diagnose(rig(), "1:(1a+1b)||(2a+2b)", shown),
  () => closed_box({ reading: 2.9, leads: 0.3 }),
  () => {
    const list = open(rig({ even_only: false }));
    const pages = [list.page(0, 2), list.page(2, 2), list.page(1)];
    list.close();
    return [...pages, list.page(0, 1)];
  },
];
const asked = () => ASKED.map((ask) => JSON.stringify(ask()));

/** A copy of a right value with something spoilt: now and then several things. */
function spoilt(value, wrong, random) {
  const pick = (list) => list[Math.floor(random() * list.length)];
  const change = (here, depth) => {
    // What is spoilt already is left as it is.
    const right = here !== null && typeof here === "object" && !wrong.includes(here);
    const inside = right && Object.keys(here).length > 0;
    if (!inside || random() < 0.25 - depth * 0.02) return pick(wrong);
    const copy = Array.isArray(here) ? [...here] : { ...here };
    const names = Object.keys(copy);
    const name = pick(names);
    const chance = random();
    if (chance < 0.04) delete copy[name];
    else if (chance < 0.08) {
      const stray = pick(["stray", "lengths", "__proto__", "count", "drivers", "0", "9"]);
      Object.defineProperty(copy, stray, { value: pick(wrong), enumerable: true, configurable: true, writable: true });
    } else if (chance < 0.12 && Array.isArray(copy)) copy.push(...Array(Math.floor(random() * 70)).fill(pick(wrong)));
    else copy[name] = change(copy[name], depth + 1);
    return copy;
  };
  let spoiling = value;
  do spoiling = change(spoiling, 0);
  while (random() < 0.2);
  return spoiling;
}

/** Where a campaign keeps what failed: a seed and how many calls it took, a line each. */
export const kept = new URL("campaign.seeds", import.meta.url);

/**
 * So many calls with numbers from a seed; throws as soon as one throws, one is not answered, or
 * what is asked in between is answered otherwise than at first.
 */
export function campaign({ seed, calls, between = 10_000, told = () => {}, begun = () => {} }) {
  const random = numbers(seed);
  const pick = (list) => list[Math.floor(random() * list.length)];
  const wrong = hostile();
  const before = asked();
  const met = { refused: 0, answered: 0, slowest: 0, megabytes: 0 };
  const same = (number) => assert.deepEqual(asked(), before, `seed ${seed}, after call ${number}`);
  for (let number = 1; number <= calls; number += 1) {
    begun(number);
    const name = pick(Object.keys(CALLS));
    let given = pick(RIGHT[name]());
    if (random() < 0.95) given = Array.from(given, (one) => (random() < 0.7 ? spoilt(one, wrong, random) : one));
    if (random() < 0.02) given = given.slice(1);
    if (random() < 0.02) given = [...given, pick(wrong)];
    const start = performance.now();
    let answer;
    try {
      answer = CALLS[name](...given);
    } catch (thrown) {
      throw new Error(`seed ${seed}, call ${number}: ${name} threw`, { cause: thrown });
    }
    met.slowest = Math.max(met.slowest, performance.now() - start);
    const right = Object.getPrototypeOf(answer) === Object.prototype && Array.isArray(answer.problems);
    assert.ok(right, `seed ${seed}, call ${number}: ${name} gave no answer`);
    met[answer.problems.length > 0 ? "refused" : "answered"] += 1;
    if (number % between === 0) {
      same(number);
      told(number, met);
    }
  }
  same(calls);
  met.megabytes = memory.buffer.byteLength / 1e6;
  return met;
}
