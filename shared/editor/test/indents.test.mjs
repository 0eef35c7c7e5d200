// VS Code's rules of indents, held against how the sheets of the repository are indented.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { sheets } from "./shipped.mjs";

const file = new URL("../vscode/language-configuration.json", import.meta.url);
const { indentationRules, wordPattern } = JSON.parse(readFileSync(file, "utf8"));
const more = new RegExp(indentationRules.increaseIndentPattern);
const less = new RegExp(indentationRules.decreaseIndentPattern);
const depth = (line) => /^ */.exec(line)[0].length;

/** Each line that is no comment, with the one behind it. */
function* pairs() {
  for (const [, text] of sheets()) {
    const lines = text.split("\n").filter((line) => /^\s*[^#\s]/.test(line));
    for (let at = 0; at + 1 < lines.length; at++) yield [lines[at], lines[at + 1]];
  }
}

test("behind a line that opens something the next is indented, and hardly ever elsewhere", () => {
  const seen = { told: 0, right: 0, deeper: 0 };
  for (const [line, next] of pairs()) {
    const deeper = depth(next) > depth(line);
    if (deeper) seen.deeper++;
    if (!more.test(line)) continue;
    seen.told++;
    if (deeper) seen.right++;
  }
  assert.ok(seen.right / seen.told > 0.95, JSON.stringify(seen));
  assert.ok(seen.right / seen.deeper > 0.8, JSON.stringify(seen));
});

test("a brace that closes goes back", () => {
  assert.ok(more.test("jumper {"));
  assert.ok(!more.test("run { material csst }"));
  assert.ok(less.test("    }"));
  assert.ok(!less.test("run { material csst }"));
});

test("a word is a name, a path, a number or a gauge as a whole", () => {
  const words = (text) => text.match(new RegExp(wordPattern, "g"));
  assert.deepEqual(words("gas-supplier is ashmere/dunlin, 1/0 AWG"), ["gas-supplier", "is", "ashmere/dunlin", "1/0", "AWG"]);
  assert.deepEqual(words('section 250.104 "Tag" # run.jacket.'), ["section", "250.104", "Tag", "run.jacket"]);
});
