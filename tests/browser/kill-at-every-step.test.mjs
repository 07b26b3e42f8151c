// Some twenty of the steps of a visit, and the form killed after each; all of them are in tests/long.
import assert from "node:assert/strict";
import { test } from "node:test";
import { killAtSteps } from "./kill-at-every-step.mjs";

/** One in so many is killed at, beginning with this one. */
const EVERY = 8;
const FROM = Number(process.env.MARROWBOOK_KILL_FROM ?? 1);

test("killed in the middle of a visit: the card, the answers and the next question are as they were", { timeout: 600_000 }, async () => {
  const { steps, kills, whole, faults } = await killAtSteps({ isKill: (n) => n % EVERY === FROM });
  console.log(`${steps} steps, ${kills} kills (${whole} of the whole browser), from ${FROM}`);
  assert.deepEqual(faults, [], `kills from step ${FROM}`);
  assert.ok(kills >= 15 && whole >= 3, `${kills} kills`);
});
