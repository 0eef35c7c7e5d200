// An official's way through the counter: a place, its instruments, what an amendment does; a map of the answers.

import assert from "node:assert/strict";
import { test } from "node:test";
import { served, stumbles } from "./counter.mjs";

const { address, open, visit } = served();

test("from a place to what its amendment does", async () => {
  const { page, close } = await visit("/rules");
  await page.getByRole("link", { name: "Osier County" }).first().click();
  await page.getByRole("heading", { level: 1, name: /Osier County/ }).waitFor();
  const instrument = page.getByRole("main").locator('a[href*="/rules/instrument/"]').first();
  await instrument.click();
  assert.match(page.url(), /\/rules\/instrument\//);
  assert.deepEqual(await stumbles(page), []);
  await page.goto(`${page.url().split("?")[0]}/effect`);
  assert.match(await page.locator("main").innerText(), /kinds? of job/);
  assert.deepEqual(await stumbles(page), []);
  await close();
});

test("a search finds what a contractor types", async () => {
  const { page, close } = await visit("/rules?find=310.1.1");
  assert.ok((await page.getByRole("main").getByRole("link", { name: /310\.1\.1/ }).count()) > 0);
  await close();
});

test("the places on a map, each with its answer", async () => {
  const { page, close } = await visit("/map");
  const map = page.locator("main svg").first();
  assert.match(await map.textContent(), /Osier County/);
  assert.match(await page.locator("main table").first().innerText(), /Osier County/);
  await close();
});

test("an address that leads nowhere says so, with what is near it", async () => {
  const { page, close } = await open();
  const answer = await page.request.get(`${address()}/rules/place/osyer`);
  assert.equal(answer.status(), 404);
  assert.match(await answer.text(), /There is no such page[^]*Osier County/);
  await close();
});
