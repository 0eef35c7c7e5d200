// The counter as its users start it, and a browser that looks at it. Chromium comes from the system's packages.

import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { once } from "node:events";
import { mkdirSync } from "node:fs";
import { createInterface } from "node:readline";
import { after, before } from "node:test";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import AxeBuilder from "@axe-core/playwright";
import { chromium } from "playwright-core";

const root = join(dirname(fileURLToPath(import.meta.url)), "../../..");
const target = process.env.CARGO_TARGET_DIR ?? join(root, "target");
const binary = process.env.GROUNDRULE ?? join(target, "debug", "groundrule");

/** Where the pictures go. */
export const shelf = join(target, "counter");
mkdirSync(shelf, { recursive: true });

/** Starts the counter on a free port; gives its address and a way to end it. */
const start = async () => {
  const child = spawn(binary, ["counter", "--port", "0", "--no-open"], { stdio: ["ignore", "pipe", "inherit"] });
  const [line] = await once(createInterface({ input: child.stdout }), "line");
  const address = line.match(/http:\/\/[^\s/]+/)?.[0];
  if (!address) throw new Error(`no address in: ${line}`);
  return {
    address,
    stop: async () => {
      child.kill("SIGTERM");
      const [code] = await once(child, "exit");
      return code;
    },
  };
};

const browse = () =>
  chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-background-networking", "--no-first-run"],
  });

/**
 * A page that keeps account of what it must not do: ask another server, keep a cookie, break the policy of the
 * page, meet an error.
 */
const open = async (browser, address, options = {}) => {
  const context = await browser.newContext({ viewport: { width: 1200, height: 900 }, ...options });
  const page = await context.newPage();
  const wrong = [];
  page.on("request", (request) => {
    if (!request.url().startsWith(address)) wrong.push(`asked elsewhere: ${request.url()}`);
  });
  page.on("response", (response) => {
    if (response.status() >= 500) wrong.push(`${response.status()} from ${response.url()}`);
  });
  page.on("console", (message) => {
    if (message.type() === "error") wrong.push(`console: ${message.text()}`);
  });
  page.on("pageerror", (error) => wrong.push(`script: ${error}`));
  return {
    page,
    close: async () => {
      const cookies = await context.cookies();
      if (cookies.length > 0) wrong.push(`cookies: ${JSON.stringify(cookies)}`);
      await context.close();
      if (wrong.length > 0) throw new Error(wrong.join("\n"));
    },
  };
};

/**
 * A counter and a browser for all tests of a file. `open` gives a page as above, `visit` one that is there already,
 * and `address` is known once a test runs.
 */
export const served = () => {
  let counter;
  let browser;
  before(async () => {
    counter = await start();
    browser = await browse();
  });
  after(async () => {
    await browser.close();
    assert.equal(await counter.stop(), 0, "a counter that is told to stop ends well");
  });
  const address = () => counter.address;
  const opened = (options) => open(browser, counter.address, options);
  const visit = async (path, options) => {
    const kept = await opened(options);
    await kept.page.goto(counter.address + path);
    return kept;
  };
  return { address, open: opened, visit };
};

/** What a reader with a screen reader, a keyboard or weak eyes would stumble over, by WCAG 2.2 AA. */
export const stumbles = async (page) => {
  const found = await new AxeBuilder({ page })
    .withTags(["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"])
    .analyze();
  return found.violations.map((one) => `${one.id}: ${one.help}\n  ${one.nodes.map((node) => node.html).join("\n  ")}`);
};

/** Whether the page is wider than the window. */
export const tooWide = (page) =>
  page.evaluate(() => document.documentElement.scrollWidth > document.documentElement.clientWidth + 1);
