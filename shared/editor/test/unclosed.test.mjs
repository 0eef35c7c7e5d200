// While somebody writes, a text is open for a while. What stands behind its line keeps its colors.
import assert from "node:assert/strict";
import { test } from "node:test";
import { sheets } from "./shipped.mjs";
import { tokens } from "./textmate.mjs";
import { parse } from "./treesitter.mjs";

const OPENS = /\b(?:choice|extend|job|verdict|example)\b/;

/** Sheets in which the text of one line has lost its closing quote, the line, and the sheet as it was. */
function* opened(every) {
  for (const [path, text] of sheets()) {
    const lines = text.split("\n");
    const rows = [...lines.keys()].filter((row) => /^[^#"]*"[^"\\]*"[^"#]*$/.test(lines[row]));
    for (const row of every(rows)) {
      const quote = lines[row].lastIndexOf('"');
      // What the text swallows must open nothing.
      if (OPENS.test(lines[row].slice(quote))) continue;
      const changed = lines.with(row, lines[row].slice(0, quote) + lines[row].slice(quote + 1));
      yield { path, row, text, changed: changed.join("\n") };
    }
  }
}

const middle = (rows) => rows.slice(rows.length >> 1, (rows.length >> 1) + 1);
const some = (rows) => rows.filter((_, at) => at % 40 === 3);

test("TextMate: every line behind is colored as before", () => {
  let seen = 0;
  const colors = new Map();
  for (const { path, row, text, changed } of opened(some)) {
    if (!colors.has(text)) colors.set(text, tokens(text));
    assert.deepEqual(tokens(changed).slice(row + 1), colors.get(text).slice(row + 1), `${path}:${row + 1}`);
    seen++;
  }
  assert.ok(seen > 100, `only ${seen} texts were opened`);
});

test("tree-sitter: nearly every word behind is what it was, in every sheet", () => {
  const leaves = ({ all }) =>
    new Map(
      all
        .filter((node) => node.children.length === 0)
        .map((node) => [`${node.row}:${node.column}`, `${node.type} ${node.isNamed}`]),
    );
  const sum = { before: 0, same: 0 };
  for (const { path, row, text, changed } of opened(middle)) {
    const after = leaves(parse(changed));
    const before = [...leaves(parse(text))].filter(([place]) => Number(place.split(":")[0]) > row);
    const same = before.filter(([place, type]) => after.get(place) === type).length;
    assert.ok(same >= 0.9 * before.length, `${path}:${row + 1}: ${same} of ${before.length}`);
    sum.before += before.length;
    sum.same += same;
  }
  assert.ok(sum.before > 50_000 && sum.same > 0.995 * sum.before, JSON.stringify(sum));
});

test("tree-sitter: the open text is told, and is the only thing that is wrong", () => {
  const { wrong, all } = parse('instrument A-1\n    kind order\n    section 1 "Bond\n        bond is required\n');
  assert.deepEqual(wrong.map((node) => [node.type, node.row, node.column]), [["unclosed", 2, 19]]);
  assert.ok(all.some((node) => node.type === "demand"));
});
