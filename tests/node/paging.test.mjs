// A list that is opened once and read page by page, and what an answer takes of memory.
import assert from "node:assert/strict";
import { test } from "node:test";
import { configurations, memory, open, rig, told } from "./load.mjs";

const MEGABYTES = 1e6;
const off = { joined_only: false, even_only: false };
const five = { drivers: [{ count: 5, coils: 2, ohms: 4 }], ...off };

test("a page is what the request answers with the same rows", () => {
  const request = rig({ ...off, from: 3, limit: 2 });
  const list = open(request);
  for (const rows of [{}, { from: 0 }, { from: 5, limit: 4 }, { from: 7, limit: 1 }, { limit: 0 }, { from: 300_000, limit: 10_000 }]) {
    assert.deepEqual(list.page(rows.from, rows.limit), configurations({ ...request, ...rows }), JSON.stringify(rows));
  }
  assert.deepEqual(list.page(null, null), configurations(request));
  list.close();
});

test("the rows after the last are none, and no problem", () => {
  const answer = configurations(rig({ from: 300_000 }));
  assert.deepEqual([told(answer), answer.configurations], [[], []]);
  assert.ok(answer.total > 0);
});

test("every configuration of five dual drivers is met once, in pages of at most 300 ms each", () => {
  const list = open(five);
  let rank = 0;
  let slowest = 0;
  const keys = new Set();
  for (;;) {
    // Time of the processor: others wait beside it.
    const before = process.cpuUsage();
    const { total, configurations: page } = list.page(rank, 1_000);
    const { user, system } = process.cpuUsage(before);
    slowest = Math.max(slowest, (user + system) / 1_000);
    // Counted by trying everything: the proofs do.
    assert.equal(total, 281_964);
    for (const one of page) {
      rank += 1;
      assert.equal(one.rank, rank);
      keys.add(one.key);
    }
    if (page.length < 1_000) break;
  }
  assert.equal(keys.size, 281_964);
  assert.ok(slowest <= 300, `${slowest} ms`);
  list.close();
});

test("an answer takes less than 100 MB, and so do the lists that nobody closes", () => {
  assert.equal(configurations({ ...five, limit: 10_000 }).configurations.length, 10_000);
  for (let i = 0; i < 8; i += 1) open(five).page(i * 30_000, 10_000);
  // Nearly every configuration has a load of its own.
  const unlike = [1.01, 2.03, 3.07, 5.09, 7.13, 11.17, 13.19].map((ohms) => ({ count: 1, coils: 1, ohms }));
  const { total, loads } = configurations({ drivers: unlike, ...off, limit: 10_000 });
  assert.ok(total === 78_416 && loads.length > 78_000, `${total}, ${loads.length}`);
  assert.ok(memory.buffer.byteLength < 100 * MEGABYTES, `${memory.buffer.byteLength / MEGABYTES} MB`);
});

test("a closed list says so, as often as it is asked", () => {
  const { page, close } = open(rig());
  assert.deepEqual(told(page()), []);
  close();
  close();
  for (const rows of [[], [0, 1], ["x", []]]) {
    const answer = page(...rows);
    assert.deepEqual([told(answer), answer.total], [[" closed"], null]);
    assert.match(answer.problems[0].message, /closed/u);
  }
});

test("opening a fifth list closes the oldest", () => {
  const lists = Array.from({ length: 5 }, () => open(rig()));
  assert.deepEqual(lists.map((list) => told(list.page())), [[" closed"], [], [], [], []]);
  lists[1].close();
  open(rig());
  // One was closed, so that there was room.
  assert.deepEqual(told(lists[2].page()), []);
  for (const list of lists) list.close();
});

const THROWING = { valueOf() { throw new Error("thrown by the test"); } };

for (const [name, from, limit, want] of [
  ["text", "0", 1, ["from wrong_type"]],
  ["a fraction", 1.5, 1, ["from wrong_type"]],
  ["less than none", -1, -1, ["from out_of_range", "limit out_of_range"]],
  ["too many", 300_001, 10_001, ["from out_of_range", "limit out_of_range"]],
  ["objects", {}, [1], ["from wrong_type", "limit wrong_type"]],
  ["what throws", THROWING, 1n, ["from wrong_type", "limit wrong_type"]],
  ["functions", open, Symbol("x"), ["from wrong_type", "limit wrong_type"]],
]) {
  test(`rows that are none are told: ${name}`, () => {
    const list = open(rig());
    const answer = list.page(from, limit);
    assert.deepEqual([told(answer), answer.configurations], [want, []]);
    list.close();
  });
}

test("whatever is opened can be asked, and tells what is wrong with it", () => {
  for (const request of [undefined, null, 5, [], {}, { drivers: 1 }, rig({ limit: 20_000 })]) {
    const list = open(request);
    const answer = list.page();
    assert.deepEqual(answer, configurations(request));
    assert.ok(answer.problems.length > 0);
    assert.equal(list.close(), undefined);
  }
});

test("a page needs no object before it, and a value that calls back is answered", () => {
  const list = open(rig());
  const { page } = list;
  assert.deepEqual(page.call(null, 0, 1), list.page(0, 1));
  assert.deepEqual(Reflect.apply(page, 5, [0, 1]), list.page(0, 1));
  const asking = {
    get drivers() {
      list.close();
      return list.page().problems;
    },
  };
  assert.ok(told(open(asking).page()).includes("drivers[0].code unknown_field"));
});
