// A contractor's way through the counter, and whoever comes with a phone, a keyboard, a zoom, no script, or a bad job.

import assert from "node:assert/strict";
import { test } from "node:test";
import { join } from "node:path";
import { served, shelf, stumbles, tooWide } from "./counter.mjs";

const { address, open, visit } = served();

/** The sample job of this title, as a link. */
const sample = async (page, title) => page.getByRole("link", { name: title }).getAttribute("href");

test("a contractor's whole way: place, facts, unknown, verdict, why, files", async () => {
  const { page, close } = await visit("/");
  await page.getByLabel("Place").fill("stonecroft");
  await page.getByRole("button", { name: "Begin" }).click();
  await page.getByRole("heading", { name: "NOT ENOUGH KNOWN" }).waitFor();
  // A fact that is not known is chosen as such from the start; nothing is yes or no by itself.
  const concealed = page.getByRole("group", { name: "Part of the bond will be concealed" });
  for (const group of await page.getByRole("group").filter({ has: page.getByRole("radio") }).all()) {
    assert.ok(await group.getByRole("radio", { name: "not known" }).isChecked(), await group.innerText());
  }
  assert.equal(await page.getByRole("checkbox", { checked: true }).count(), 0);
  await page.getByLabel("Date of the permit application").fill("2026-04-20");
  await page.getByLabel("Date of the permit application").press("Tab");
  await page.waitForURL(/application-date=2026-04-20/);
  await concealed.getByRole("radio", { name: "yes" }).check();
  await page.waitForURL(/concealed=yes/);
  await concealed.getByRole("radio", { name: "not known" }).check();
  await page.waitForURL((address) => !address.search.includes("concealed"));
  await page.getByRole("group", { name: "Use of the building" }).getByRole("radio", { name: /one or two family/ }).check();
  await page.waitForURL(/occupancy=one-or-two-family/);
  await page.getByRole("group", { name: "Kind of work" }).getByRole("radio", { name: /^new system/ }).check();
  await page.waitForURL(/work=new-system/);
  await page.getByLabel("A run of gas piping", { exact: true }).fill("1");
  await page.getByLabel("A run of gas piping", { exact: true }).press("Tab");
  await page.getByRole("group", { name: "Material" }).getByRole("radio", { name: /CSST/ }).check();
  await page.waitForURL(/material=csst/);
  await page.getByRole("group", { name: "Jacket" }).getByRole("radio", { name: /^plain/ }).check();
  await page.waitForURL(/jacket=plain/);
  await page.getByRole("group", { name: "What the run is for" }).getByRole("radio", { name: /^distribution/ }).check();
  await page.waitForURL(/role=distribution/);
  const beside = page.locator("#beside");
  await beside.getByRole("row", { name: /Direct bond to the grounding electrode system/ }).waitFor();
  assert.match(await beside.innerText(), /Direct bond to the grounding electrode system\s+required/);
  await page.getByRole("link", { name: "Verdict with all reasons" }).click();
  await page.getByRole("heading", { level: 1 }).waitFor();
  const direct = page.locator("#answer-direct-bond");
  await direct.getByText("Why").click();
  await direct.getByText(/IRC 2021 G2411\.2/).first().waitFor();
  assert.match(await direct.innerText(), /in force/);
  assert.match(await page.locator("footer").innerText(), /Smell gas\?/);
  // The papers, a comparison, and print.
  const paper = await page.getByRole("link", { name: "Plan notes" }).evaluate((link) => link.href);
  await page.getByRole("navigation", { name: "Rooms of the counter" }).getByRole("link", { name: "Compare" }).click();
  await page.getByRole("checkbox", { name: "Osier County" }).check();
  await page.getByRole("checkbox", { name: "Town of Stonecroft" }).check();
  await page.getByRole("button", { name: "Compare" }).click();
  await page.getByRole("heading", { name: /One job at 2 places/ }).waitFor();
  assert.match(await page.locator("main").innerText(), /Who may install the bond[^]*only electrician/);
  await page.goBack();
  await page.goBack();
  const printed = await open();
  await printed.page.goto(paper);
  assert.match(await printed.page.locator("body").innerText(), /Town of Stonecroft[^]*Smell gas\?/);
  const pdf = await printed.page.pdf({ format: "Letter" });
  assert.ok(pdf.length > 5000, `${pdf.length} bytes of print`);
  await printed.close();
  const sheet = await page.request.get(await page.getByRole("link", { name: "Job sheet" }).evaluate((link) => link.href));
  assert.match(await sheet.text(), /^job\n +place tamarrow\/stonecroft\n[^]*jacket plain/);
  await close();
});

test("a link carries the whole job", async () => {
  const first = await visit("/");
  const path = await sample(first.page, "a bonding wire that is too long");
  await first.close();
  const { page, close } = await visit(path.replace(/^\//, "/verdict"));
  await page.getByRole("heading", { level: 1, name: "CORRECTIONS NEEDED" }).waitFor();
  assert.match(await page.locator("#answer-jumper-length").innerText(), /NOT MET[^]*at most 75 ft/);
  await page.getByRole("link", { name: "metres" }).click();
  assert.match(await page.locator("#answer-jumper-length").innerText(), /22\.86 m \(75 ft\)/);
  await page.getByRole("link", { name: "Español" }).click();
  await page.getByRole("heading", { level: 1, name: "HAY QUE CORREGIR" }).waitFor();
  assert.equal(await page.locator("html").getAttribute("lang"), "es");
  await close();
});

test("a bad job: what was typed stays, with what is wrong and what would mend it", async () => {
  const { page, close } = await visit("/?place=stonecraft");
  assert.match(await page.locator("main").innerText(), /no place is called so here[^]*stonecroft/);
  assert.equal(await page.getByLabel("Place").inputValue(), "stonecraft");
  await page.goto(`${address()}/?place=stonecroft&jumper.length=ninety&no-such-fact=1&run=1&run%5B0%5D.material=csst&run%5B7%5D.jacket=plain`);
  const said = await page.locator("#beside").innerText();
  for (const part of ["jumper.length", "ninety", "no-such-fact", "run[7].jacket"]) assert.ok(said.includes(part), `${part}\n${said}`);
  assert.deepEqual(await stumbles(page), []);
  await page.getByLabel(/Paste a job sheet/).fill("place nowhere");
  await close();
});

test("without script the button does it all", async () => {
  const { page, close } = await visit("/", { javaScriptEnabled: false });
  await page.getByLabel("Place").fill("Osier County");
  await page.getByRole("button", { name: "Begin" }).click();
  await page.getByLabel("Date of the permit application").fill("2026-04-20");
  await page.getByRole("button", { name: "Update" }).click();
  assert.match(page.url(), /application-date=2026-04-20/);
  assert.match(await page.locator("#beside").innerText(), /application date 2026-04-20/);
  await page.getByLabel(/Paste a job sheet/).fill("place osier\napplication-date 2026-04-20\nrun { material steel }\n");
  await page.getByRole("button", { name: "Open" }).click();
  assert.match(page.url(), /run%5B0%5D\.material=steel/);
  await close();
});

test("by keyboard alone, from the skip link on", async () => {
  const { page, close } = await visit("/?place=stonecroft");
  await page.keyboard.press("Tab");
  assert.equal(await page.evaluate(() => document.activeElement.textContent), "Skip to the page");
  await page.keyboard.press("Enter");
  await page.keyboard.press("Tab");
  assert.equal(await page.evaluate(() => document.activeElement.id), "place");
  await page.keyboard.press("Tab");
  await page.keyboard.type("2026-04-20");
  await page.keyboard.press("Tab");
  await page.waitForURL(/application-date=2026-04-20/);
  // What is written anew leaves the keyboard where it was.
  await page.waitForFunction(() => document.activeElement && document.activeElement !== document.body);
  await close();
});

for (const [name, options] of [
  ["light", {}],
  ["dark", { colorScheme: "dark" }],
  ["a phone", { viewport: { width: 390, height: 844 } }],
  ["twice as large", { viewport: { width: 640, height: 450 }, deviceScaleFactor: 2 }],
]) {
  test(`nothing to stumble over, ${name}`, async () => {
    const start = await visit("/", options);
    const job = await sample(start.page, "a bonding wire that is too long");
    const asked = (room) => job.replace(/^\//, room);
    const rooms = [
      ["start", "/"],
      ["job", job],
      ["verdict", asked("/verdict")],
      ["ways", "/ways?place=stonecroft&application-date=2026-04-20"],
      ["compare", `${asked("/compare")}&~places=osier&~places=tarn&~places=stonecroft`],
      ["rules", "/rules"],
      ["place", "/rules/place/tamarrow/osier"],
      ["section", "/rules/section/IFGC/310.1.1"],
      ["map", asked("/map")],
    ];
    for (const [room, path] of rooms) {
      await start.page.goto(address() + path);
      assert.deepEqual(await stumbles(start.page), [], room);
      assert.equal(await tooWide(start.page), false, `${room} is wider than the window`);
      await start.page.screenshot({ path: join(shelf, `${room}-${name.replaceAll(" ", "-")}.png`), fullPage: true });
    }
    await start.close();
  });
}

const narrow = [
  ["a phone", { viewport: { width: 390, height: 844 } }],
  ["twice as large", { viewport: { width: 640, height: 450 }, deviceScaleFactor: 2 }],
];

for (const [name, options] of narrow) {
  test(`how the job stands is seen before the questions, ${name}`, async () => {
    const { page, close } = await visit("/?place=stonecroft&application-date=2026-04-20", options);
    const short = page.locator("#short");
    assert.match(await short.innerText(), /NOT ENOUGH KNOWN/);
    const seen = async (place) => {
      const { y, height } = await page.locator(place).boundingBox();
      return y >= 0 && y + height <= options.viewport.height;
    };
    assert.ok(await seen("#short"), "without scrolling");
    // What is told aloud is one sentence, and only where it has changed.
    await page.evaluate(() => {
      window.told = [];
      new MutationObserver(() => window.told.push(document.getElementById("told").textContent)).observe(
        document.getElementById("told"), { childList: true, characterData: true, subtree: true });
    });
    assert.equal(await page.locator('[aria-live], [role="status"], [role="alert"]').count(), 1);
    const before = await page.locator("#gist").innerText();
    await page.getByRole("group", { name: "Use of the building" }).getByRole("radio", { name: /one or two family/ }).check();
    await page.waitForURL(/occupancy=one-or-two-family/);
    await page.waitForFunction((before) => document.getElementById("gist").innerText !== before, before);
    const told = await page.evaluate(() => window.told);
    assert.equal(told.length, 1, JSON.stringify(told));
    assert.match(told[0], /^NOT ENOUGH KNOWN\. \d+ missing facts/);
    // There and back by the links.
    await page.getByRole("link", { name: "To the verdict" }).click();
    const comes = (place) =>
      page.waitForFunction((place) => {
        const { top, bottom } = document.querySelector(place).getBoundingClientRect();
        return top > -1 && bottom < innerHeight + 1;
      }, place);
    await comes("#beside h2");
    await page.getByRole("link", { name: "Back to the questions" }).click();
    await comes("#place");
    assert.deepEqual(await stumbles(page), []);
    await page.screenshot({ path: join(shelf, `short-${name.replaceAll(" ", "-")}.png`) });
    await close();
  });
}

test("on a phone without script the short verdict leads to the whole", async () => {
  const { page, close } = await visit("/?place=stonecroft", { javaScriptEnabled: false, viewport: { width: 390, height: 844 } });
  await page.getByRole("link", { name: "To the verdict" }).click();
  assert.match(page.url(), /#beside$/);
  await close();
});

test("beside the questions there is no short verdict in a wide window", async () => {
  const { page, close } = await visit("/?place=stonecroft");
  assert.equal(await page.locator(".narrow").filter({ visible: true }).count(), 0);
  await close();
});

test("the smallest screens hold the field for a sheet and long addresses", async () => {
  for (const path of ["/", "/?place=stonecroft", "/rules/code/IFGC/2021"]) {
    const { page, close } = await visit(path, { viewport: { width: 320, height: 640 } });
    assert.equal(await tooWide(page), false, `${path} is wider than the window`);
    await close();
  }
});

test("the first verdict page is light", async () => {
  const { page, close } = await visit("/");
  const job = await sample(page, "a new house with plain tubing");
  await close();
  const fresh = await open();
  const protocol = await fresh.page.context().newCDPSession(fresh.page);
  await protocol.send("Network.enable");
  let bytes = 0;
  protocol.on("Network.loadingFinished", (event) => (bytes += event.encodedDataLength));
  await fresh.page.goto(address() + job.replace(/^\//, "/verdict"), { waitUntil: "networkidle" });
  assert.ok(bytes > 1000 && bytes < 60_000, `${bytes} bytes`);
  await fresh.close();
});
