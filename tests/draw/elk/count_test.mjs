// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The counter on drawings that one can count by eye.
import assert from "node:assert/strict";
import test from "node:test";
import { bends, crossings, strokes } from "./count.mjs";

const corner = [[0, 0, 4, 0], [4, 0, 4, 3]];
const tee = [[0, 0, 8, 0], [4, 0, 4, 5]];

test("a corner is one bend, a branch from a straight line is none", () => {
  assert.equal(bends([corner]), 1);
  assert.equal(bends([tee]), 0);
});

test("pieces that two edges share count once", () => {
  assert.equal(bends([[...corner, ...corner]]), 1);
  assert.equal(bends([[[0, 0, 4, 0], [4, 0, 4, 3], [0, 0, 4, 0], [4, 0, 4, 6]]]), 1);
});

test("two edges that part at a corner make a junction, no bend", () => {
  assert.equal(bends([[[0, 0, 4, 0], [4, 0, 4, 3], [0, 0, 4, 0], [4, 0, 4, -3]]]), 0);
});

test("a line cut in two is one stroke", () => {
  assert.deepEqual(strokes([[5, 0, 2, 0], [0, 0, 2, 0]]), [[0, 0, 5, 0]]);
});

test("nets cross where one stroke goes over another, not where they end on it", () => {
  assert.equal(crossings([[[0, 0, 4, 0]], [[2, -1, 2, 1]]]), 1);
  assert.equal(crossings([[[0, 0, 4, 0]], [[2, 0, 2, 1]]]), 0);
  assert.equal(crossings([[[0, 0, 4, 0]], [[4, -1, 4, 1]]]), 0);
});

test("a net does not cross itself, and a cut at the crossing counts once", () => {
  assert.equal(crossings([[[0, 0, 4, 0], [2, -1, 2, 1]]]), 0);
  assert.equal(crossings([[[0, 0, 2, 0], [2, 0, 4, 0]], [[2, -1, 2, 0], [2, 0, 2, 1]]]), 1);
});
