import assert from "node:assert/strict";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import Module, { createRequire } from "node:module";
import { homedir, tmpdir } from "node:os";
import { join } from "node:path";
import { after, beforeEach, test } from "node:test";
import { fileURLToPath } from "node:url";
import { packaged } from "./package.mjs";

const require = createRequire(import.meta.url);
const here = (file) => fileURLToPath(new URL(file, import.meta.url));

const folder = mkdtempSync(join(tmpdir(), "groundrule-extension-"));
after(() => rmSync(folder, { recursive: true }));

// What is tested is what is installed: the extension out of its package, with nothing of this folder beside it.
const files = await packaged(here("../vscode"), folder);
const load = Module._load;
Module._load = (name, ...rest) => load(name === "vscode" ? here("vscode.cjs") : name, ...rest);
const { test: editor } = require("./vscode.cjs");
const manifest = require(join(folder, "extension/package.json"));
const extension = require(join(folder, "extension", manifest.main));

const log = (process.env.GROUNDRULE_TEST_LOG = join(folder, "log"));
beforeEach(() => {
  rmSync(log, { force: true });
  Object.assign(editor, { settings: {}, folder: undefined, errors: [], findings: [] });
  editor.changed.removeAllListeners();
});

const context = () => ({ subscriptions: [] });
const written = () => readFileSync(log, "utf8").trim().split("\n").map((line) => JSON.parse(line));
const started = () => written().flatMap((line) => (line.started ? [line.started] : []));
const methods = () => written().flatMap((line) => line.method ?? []);

/** Waits for what another process writes down. */
async function until(holds) {
  for (const end = Date.now() + 20_000; !holds(); ) {
    assert.ok(Date.now() < end, `not seen: ${holds}; ${existsSync(log) && readFileSync(log, "utf8")}`);
    await new Promise((done) => setTimeout(done, 10));
  }
}

test("the program is started as `groundrule editor`, spoken to, and ended", async () => {
  editor.settings["groundrule.program"] = here("server.mjs");
  await extension.activate(context());
  assert.deepEqual(editor.errors, []);
  await until(() => methods().includes("initialized"));
  assert.deepEqual(started(), [["editor"]]);
  await until(() => editor.findings.length > 0);
  const [file, [finding]] = editor.findings[0];
  assert.deepEqual([file, finding.code, finding.message], ["/srv/a.rule", "GR0200", "not expected here"]);
  await extension.deactivate();
  await until(() => methods().includes("exit"));
  assert.deepEqual(methods(), ["initialize", "initialized", "shutdown", "exit"]);
});

test("the settings name the program, the rules and whether the library is read", async () => {
  editor.folder = here("..");
  editor.settings = {
    "groundrule.program": "./test/server.mjs",
    "groundrule.rules": ["county", "/srv/rules", "~/rules", "~other"],
    "groundrule.withoutLibrary": true,
  };
  await extension.activate(context());
  await extension.deactivate();
  const rules = [join(here(".."), "county"), "/srv/rules", join(homedir(), "rules"), join(here(".."), "~other")];
  assert.deepEqual(started(), [["editor", ...rules.flatMap((path) => ["--rules", path]), "--without-library"]]);
});

test("a changed setting starts the program anew, and another extension's does not", async () => {
  editor.settings["groundrule.program"] = here("server.mjs");
  await extension.activate(context());
  editor.changed.emit("change", { affectsConfiguration: (name) => name === "elsewhere" });
  editor.settings["groundrule.rules"] = ["/srv/rules"];
  editor.changed.emit("change", { affectsConfiguration: (name) => name === "groundrule" });
  await extension.deactivate();
  assert.deepEqual(started(), [["editor"], ["editor", "--rules", "/srv/rules"]]);
});

test("the command starts the program anew", async () => {
  const { command } = manifest.contributes.commands[0];
  editor.settings["groundrule.program"] = here("server.mjs");
  await extension.activate(context());
  await editor.commands.get(command)();
  await extension.deactivate();
  assert.deepEqual(started(), [["editor"], ["editor"]]);
});

test("a program that is not there is told, with the setting that names it", async () => {
  editor.settings["groundrule.program"] = join(folder, "nowhere");
  await extension.activate(context());
  assert.equal(editor.errors.length, 1);
  assert.match(editor.errors[0], /nowhere` could not be started.*groundrule\.program/);
  await extension.deactivate();
});

test("the package holds what the manifest names, and the settings that the extension reads", () => {
  const { configuration, grammars, languages } = manifest.contributes;
  const source = readFileSync(here("../vscode/src/extension.js"), "utf8");
  const read = [...source.matchAll(/settings\.get\("([^"]+)"/g)].map(([, name]) => `groundrule.${name}`);
  assert.deepEqual(read.sort(), Object.keys(configuration.properties).sort());
  assert.deepEqual(languages[0].extensions, [".rule", ".job"]);
  const named = [manifest.main, languages[0].configuration, grammars[0].path].map((file) => join("extension", file));
  assert.deepEqual(
    files.filter((file) => file.startsWith("extension/")).sort(),
    [...named, "extension/package.json"].sort(),
  );
  const grammar = JSON.parse(readFileSync(join(folder, "extension", grammars[0].path), "utf8"));
  assert.equal(grammar.scopeName, grammars[0].scopeName);
});
