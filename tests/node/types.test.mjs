// The type declarations compile under the strictest settings, let right usage pass and
// stop wrong usage.
import assert from "node:assert/strict";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import ts from "typescript";
import { folder } from "./load.mjs";

/** What the compiler says of a program that uses the declarations. */
function complaints(program, lib) {
  const place = mkdtempSync(join(tmpdir(), "coilwright-types-"));
  try {
    writeFileSync(join(place, "package.json"), '{ "type": "module" }');
    writeFileSync(join(place, "coilwright.js"), "");
    writeFileSync(join(place, "coilwright.d.ts"), readFileSync(join(folder, "coilwright.d.ts")));
    const file = join(place, "use.ts");
    writeFileSync(file, program);
    const options = {
      strict: true,
      noEmit: true,
      exactOptionalPropertyTypes: true,
      noUncheckedIndexedAccess: true,
      skipLibCheck: false,
      types: [],
      lib,
      target: ts.ScriptTarget.ES2022,
      module: ts.ModuleKind.NodeNext,
      moduleResolution: ts.ModuleResolutionKind.NodeNext,
    };
    const built = ts.createProgram([file], options);
    return ts.getPreEmitDiagnostics(built).map((one) => ts.flattenDiagnosticMessageText(one.messageText, " "));
  } finally {
    rmSync(place, { recursive: true });
  }
}

const HEAD = `
import init, { closed_box, configurations, diagnose, open, readings, wiring } from "./coilwright.js";
import type { Agreement, Answer, Box, ClosedBox, ClosedBoxReading, Configuration, Diagnosis, FoundFault, OpenList, Output, ProblemCode, Reading, ReadingPoint, Readings, Request, RigsFile, Run, SavedRig, Terminal, Unfinished, Verdict, Wiring } from "./coilwright.js";
`;

const USE = `${HEAD}
const request: Request = {
  drivers: [
    { count: 2, coils: 2, ohms: "4/3", watts: 500, watts_per: "coil" },
    { name: null, count: 1, coils: 1, ohms: 1.4, dc_ohms: [1.2] },
  ],
  amplifier: {
    channels: [{ least_ohms: 1, rated: [{ ohms: 2, watts: 800 }] }, {}],
    bridges: [{ channels: [1, 2] }],
  },
  box: {
    cups: "group",
    cup_count: 2,
    joined_at: null,
    mounted_reversed: [2],
    driver_terminals: { push_on: true, largest_mm2: 4 },
  },
  joined_only: false,
  limit: 20,
};
const usual: Box = {};
const bare: Request = { drivers: [] };

export async function use(bytes: Uint8Array): Promise<string> {
  await init({ module_or_path: bytes });
  await init();
  await init(bytes);
  await init({});
  const loaded: Promise<void> = init("https://example.org/coilwright_bg.wasm");
  await loaded;
  await init({ module_or_path: Promise.resolve("coilwright_bg.wasm") });
  const answer: Answer = configurations(request);
  const first: Configuration | undefined = answer.configurations[0];
  const output: Output | undefined = first?.outputs[0];
  const watts: number | null | undefined = output?.available_watts?.low;
  const verdict: Verdict = output?.verdict ?? "not_stated";
  const codes: ProblemCode[] = configurations(bare).problems.map((problem) => problem.code);
  const total: number | null = answer.total;
  const list: OpenList = open({ ...request, from: 20, limit: null });
  const { page, close } = list;
  const rows: Answer[] = [page(), page(0), page(null, 10_000)];
  close();
  codes.push(...rows.flatMap((row) => row.problems.map((problem) => problem.code)), "closed");
  const plan: Wiring = wiring({ ...request, box: usual }, first?.key ?? "1:1a");
  const run: Run | undefined = plan.runs[0];
  const end: Terminal | undefined = run?.from;
  const probes: Terminal[] | null | undefined = plan.steps[0]?.acts[0]?.probes;
  const sizes: string | null = plan.drawing;
  const plan_says: unknown[] = [end?.at, end?.sign, run?.role, run?.amps, probes?.length, sizes, plan.parts?.wire.length];
  const reading: ClosedBoxReading = { reading: "open", leads: null, step: 0.01 };
  const inside: ClosedBox = closed_box({ reading: 3.2 });
  const lowest: number | null = inside.lowest_ohms;
  plan_says.push(lowest?.toFixed(1), inside.loads[0]?.fillings[0]?.coils_in_path, closed_box(reading).hint ?? "open");
  const points: Readings = readings(bare, "1a");
  const at: ReadingPoint | undefined = points.points[0];
  const read: Reading[] = [{ point: at?.point ?? "1", reads: 0.2 }, { point: "2.coil.1a", reads: "open", step: 0.01 }];
  const said: Reading = { question: "cool", answer: true };
  const wrong: Diagnosis = diagnose(bare, "1a", [...read, said]);
  const fault: FoundFault | undefined = wrong.explanations[0]?.faults[0];
  const next: string | undefined = wrong.next?.point;
  plan_says.push(at?.foretold?.low, at?.place, points.coils[0]?.agreement, fault?.kind, fault?.run, next);
  // An answer to a question is no reading, and has no standing.
  const standing: (Agreement | null)[] = wrong.agreements;
  plan_says.push(standing[0] ?? "none", wrong.questions[0]?.question, wrong.polarity, wrong.sound);
  plan_says.push(at?.cannot_exclude[0]?.kind, at?.finer?.expected.toFixed(2));
  const unfinished: Unfinished<Request> = {
    drivers: [{ coils: 2 }, { count: null, ohms: "4/3" }, {}],
    amplifier: { channels: [{ rated: [{ watts: 500 }] }], bridges: [{ channels: [1, 2] }, {}] },
    box: { cups: null, driver_terminals: { push_on: true } },
  };
  const rig: SavedRig = {
    name: "Float, rear",
    request: unfinished,
    typed: [{ path: "drivers[0].ohms", text: "4,5 or so" }],
    key: "1a",
    step: 3,
    done: [1, 2],
    readings: [...read, said],
    closed_box: { leads: 0.1 },
    compared: [{ key: "1a" }, { key: "1a", request }],
  };
  const file: RigsFile = { contract_version: 1, rigs: [rig, { request: {} }, { request, closed_box: reading }] };
  const parsed = JSON.parse(JSON.stringify(file)) as RigsFile;
  const ohms: number | string | null | undefined = parsed.rigs[0]?.request.drivers?.[0]?.ohms;
  plan_says.push(ohms, parsed.rigs[0]?.typed?.[0]?.text, parsed.rigs[0]?.compared?.[0]?.request?.box?.cups);
  return [watts, verdict, total, output?.network, ...codes, ...plan_says].join();
}
`;

test("right usage compiles, with and without a browser's types", () => {
  assert.deepEqual(complaints(USE, ["lib.es2022.d.ts"]), []);
  const page = `${USE}
export const load = () => init({ module_or_path: fetch(new URL("./x.wasm", location.href)) });
export const direct = () => init({ module_or_path: new URL("./x.wasm", location.href) });
`;
  assert.deepEqual(complaints(page, ["lib.es2022.d.ts", "lib.dom.d.ts"]), []);
});

const WRONG = [
  ["a missing field", "configurations({});"],
  ["an unknown field", "configurations({ drivers: [], amp: 1 });"],
  ["three coils", "configurations({ drivers: [{ count: 1, coils: 3, ohms: 4 }] });"],
  ["a count in text", 'configurations({ drivers: [{ count: "1", coils: 1, ohms: 4 }] });'],
  ["a bridge of three", "configurations({ drivers: [], amplifier: { channels: [], bridges: [{ channels: [1, 2, 3] }] } });"],
  ["a total taken for a number", "export const n: number = configurations({ drivers: [] }).total;"],
  ["a page from a text", 'open({ drivers: [] }).page("0");'],
  ["a list of nothing", "open();"],
  ["a plan without a key", "wiring({ drivers: [] });"],
  ["a key that is a number", "wiring({ drivers: [] }, 1);"],
  ["a choice of cups nobody has", 'wiring({ drivers: [], box: { cups: "two" } }, "1a");'],
  ["a field of the box misspelt", 'wiring({ drivers: [], box: { cup: "one" } }, "1a");'],
  ["check points without a key", "readings({ drivers: [] });"],
  ["a diagnosis of nothing", 'diagnose({ drivers: [] }, "1a");'],
  ["a reading in text", 'diagnose({ drivers: [] }, "1a", [{ point: "1", reads: "0.2" }]);'],
  ["a question nobody asks", 'diagnose({ drivers: [] }, "1a", [{ question: "why", answer: true }]);'],
  ["a fault nobody finds", 'export const k: FoundFault["kind"] = "gremlins";'],
  ["a closed box without a reading", "closed_box({ leads: 0.2 });"],
  ["a word that is no reading", 'closed_box({ reading: "OL" });'],
  ["a hint nobody gives", 'export const h: ClosedBox["hint"] = "four ohms";'],
  ["a file without a version", "export const f: RigsFile = { rigs: [] };"],
  ["a file of another version", "export const f: RigsFile = { contract_version: 2, rigs: [] };"],
  ["a rig without a request", 'export const r: SavedRig = { name: "Float" };'],
  ["a misspelt field in an unfinished request", "export const r: SavedRig = { request: { drivers: [{ ohm: 4 }] } };"],
  ["an unfinished count in text", 'export const r: SavedRig = { request: { drivers: [{ count: "2" }] } };'],
  ["a typed text without its place", 'export const r: SavedRig = { request: {}, typed: [{ text: "4" }] };'],
  ["a standing that may be null taken for a word", 'export const a = (d: Diagnosis): Agreement[] => d.agreements;'],
  ["a number for the wasm", "init(5);"],
  ["a verdict nobody gives", 'export const v: Verdict = "maybe";'],
];

for (const [name, line] of WRONG) {
  test(`wrong usage does not compile: ${name}`, () => {
    assert.equal(complaints(`${HEAD}${line}`, ["lib.es2022.d.ts"]).length, 1);
  });
}
