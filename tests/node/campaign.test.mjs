// A few thousand calls of the campaign, from a fixed seed, and those that once failed.
import assert from "node:assert/strict";
import { existsSync, readFileSync } from "node:fs";
import { test } from "node:test";
import { campaign, kept } from "./hostile.mjs";

test("the module answers as before after calls with values of every kind at every place", () => {
  const met = campaign({ seed: 7, calls: 6_000, between: 500 });
  // Neither kind is rare: what is spoilt is now and then still right.
  assert.ok(met.refused > 3_000 && met.answered > 300, JSON.stringify(met));
  assert.ok(met.megabytes < 100, `${met.megabytes} MB`);
});

test("what failed in a campaign fails no more", () => {
  const lines = existsSync(kept) ? readFileSync(kept, "utf8").split("\n").filter(Boolean) : [];
  for (const line of lines) {
    const [seed, calls] = line.split(" ").map(Number);
    campaign({ seed, calls });
  }
});
