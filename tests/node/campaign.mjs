// `cargo xtask campaign` runs this: see hostile.mjs.
import { appendFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { campaign, kept } from "./hostile.mjs";

const { values } = parseArgs({ options: { seed: { type: "string" }, calls: { type: "string" } } });
const seed = Number(values.seed ?? Date.now() % 2 ** 32);
const calls = Number(values.calls ?? 300_000);
console.log(`seed ${seed}, ${calls} calls`);
let last = 0;
const told = (number, { refused, answered }) => {
  if (number % 50_000 === 0) console.log(`${number}: ${refused} refused, ${answered} answered`);
};
const begun = (number) => (last = number);
let met;
try {
  met = campaign({ seed, calls, told, begun });
} catch (failure) {
  // The test beside this goes through it from now on.
  appendFileSync(kept, `${seed} ${last}\n`);
  console.error(`kept in ${kept.pathname}`);
  throw failure;
}
console.log(
  `none threw; ${met.refused} were refused, ${met.answered} answered, and what is asked in between is answered as before\n` +
    `slowest call ${met.slowest.toFixed(0)} ms, memory of the module ${met.megabytes.toFixed(1)} MB`,
);
