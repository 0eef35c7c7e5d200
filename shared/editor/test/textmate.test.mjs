import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { test } from "node:test";
import { sheets, words } from "./shipped.mjs";
import { grammarFile, scope, tokens } from "./textmate.mjs";

const WORD = /(?<![\w./\[-]|[\w)]\()[A-Za-z0-9](?:[\w./-]*\w)?/g;
const FIGURE = String.raw`[0-9]+(?:\.[0-9]+)?(?:/[0-9]+)?`;
// Shapes are words of the language that the grammar leaves to the glossary.
const SHAPES = new Set(["count", "date", "gauge", "name", "yes-no"]);

const { all, reserved, units } = words();
const colored = sheets().map(([path, text]) => [path, text.split("\n"), tokens(text)]);

const isKeyword = (name) => /^(keyword|storage|support\.type|constant\.language)\b/.test(name);

/** The texts and comments of a line, by a reader that knows nothing of the grammar. */
function split(line) {
  const parts = [];
  let at = 0;
  while (at < line.length) {
    const rest = line.slice(at);
    const found = /^(?:#.*|"(?:[^"\\]|\\["\\])*"|[^"#]+)/.exec(rest)?.[0];
    assert.ok(found, `no text ends in: ${line}`);
    parts.push({ start: at, end: at + found.length, kind: { "#": "comment", '"': "text" }[found[0]] ?? "code" });
    at += found.length;
  }
  return parts;
}

const at = (pieces, column) => pieces.find((piece) => piece.start <= column && column < piece.end);

test("texts and comments, and nothing else, are colored as such", () => {
  let texts = 0;
  for (const [path, lines, colors] of colored) {
    lines.forEach((line, row) => {
      for (const part of split(line)) {
        for (let column = part.start; column < part.end; column++) {
          const scopes = at(colors[row], column).scopes;
          const kind = scopes.some((name) => name.startsWith("string."))
            ? "text"
            : scopes.some((name) => name.startsWith("comment."))
              ? "comment"
              : "code";
          assert.equal(kind, part.kind, `${path}:${row + 1}:${column + 1} in ${line}`);
        }
        if (part.kind === "text") texts++;
      }
    });
  }
  assert.ok(texts > 5000, `only ${texts} texts were seen`);
});

test("nothing but blanks is left without a color", () => {
  for (const [path, lines, colors] of colored) {
    colors.forEach((pieces, row) => {
      for (const piece of pieces) {
        const plain = piece.scopes.length === 0 && piece.text.trim() !== "";
        assert.ok(!plain, `${path}:${row + 1}: \`${piece.text}\` in ${lines[row]}`);
      }
    });
  }
});

test("every reserved word, date, figure and unit has its color", () => {
  const seen = { reserved: 0, date: 0, figure: 0 };
  const unit = new RegExp(`(?<![\\w./-])(${FIGURE})([ \\t]+)(${units.join("|")})(?![\\w./-])`, "g");
  for (const [path, lines, colors] of colored) {
    lines.forEach((line, row) => {
      const code = split(line);
      const place = (column) => `${path}:${row + 1}:${column + 1} in ${line}`;
      const inCode = (column) => code.find((part) => part.start <= column && column < part.end).kind === "code";
      for (const { 0: word, index } of line.matchAll(WORD)) {
        if (!inCode(index)) continue;
        const name = scope(at(colors[row], index));
        if (reserved.has(word)) {
          seen.reserved++;
          assert.ok(isKeyword(name), `\`${word}\` is ${name}: ${place(index)}`);
        } else if (/^[0-9]+-[0-9]+-[0-9]+$/.test(word)) {
          seen.date++;
          assert.match(name, /^constant\.numeric\.date$|^entity\.name\.section$|^constant\.other\.reference$/, place(index));
        } else if (/^[0-9]/.test(word)) {
          seen.figure++;
          assert.match(name, /^constant\.numeric|^entity\.name\.section$|^constant\.other\.reference$/, place(index));
        }
      }
      for (const { 1: figure, 2: gap, index } of line.matchAll(unit)) {
        if (!inCode(index)) continue;
        assert.equal(scope(at(colors[row], index)), "constant.numeric.quantity", place(index));
        assert.equal(scope(at(colors[row], index + figure.length + gap.length)), "keyword.other.unit", place(index));
      }
    });
  }
  assert.ok(seen.reserved > 20000 && seen.date > 1000 && seen.figure > 3000, JSON.stringify(seen));
});

test("the words that are colored as words of the language are those of grammar/rule.pest", () => {
  const keywords = new Set();
  for (const [, , colors] of colored) {
    for (const piece of colors.flat()) {
      const name = scope(piece);
      if (isKeyword(name) && name !== "keyword.other.unit") keywords.add(piece.text);
    }
  }
  // A shape may also be a choice, and that is named by its author.
  const shown = [...keywords].filter((word) => all.has(word) || !isShape(word));
  assert.deepEqual(shown.sort(), [...all].sort());

  function isShape(word) {
    return colored.some(([, , colors]) =>
      colors.flat().some((piece) => piece.text === word && scope(piece) === "support.type.shape"),
    );
  }
});

test("the grammar's patterns hold no other word", () => {
  const patterns = [];
  JSON.parse(readFileSync(grammarFile, "utf8"), (key, value) => {
    if (["match", "begin", "end"].includes(key) && typeof value === "string") patterns.push(value);
    return value;
  });
  const held = new Set();
  for (const pattern of patterns) {
    // Classes and escapes hold letters that are no words.
    const bare = pattern.replace(/\[[^\]]*\]/g, " ").replace(/\\[a-zA-Z]/g, " ").replace(/\(\?:/g, "(");
    for (const [word] of bare.matchAll(/[A-Za-z][A-Za-z0-9-]*/g)) held.add(word);
  }
  const known = new Set([...all, ...units, ...SHAPES]);
  assert.deepEqual([...held].filter((word) => !known.has(word)), []);
  assert.deepEqual([...all, ...units].filter((word) => !held.has(word)), []);
});

test("a small sheet is colored as it was looked at", () => {
  const file = (name) => new URL(name, import.meta.url);
  const lines = tokens(readFileSync(file("small.rule"), "utf8")).map((pieces) =>
    pieces
      .filter((piece) => piece.text.trim() !== "")
      .map((piece) => `${JSON.stringify(piece.text.trim())} ${scope(piece)}\n`)
      .join(""),
  );
  const now = lines.filter((line) => line !== "").join("\n");
  if (process.env.GROUNDRULE_GOLDEN === "write") writeFileSync(file("small.golden"), now);
  assert.equal(now, readFileSync(file("small.golden"), "utf8"));
});

test("a text that does not end colors its line and no more", () => {
  const [first, second] = tokens('note "drive the rod \\"full\\" length\nwhere tag is required');
  assert.equal(scope(first.at(-1)), "string.quoted.double");
  assert.deepEqual(
    second.filter((piece) => piece.text.trim() !== "").map(scope),
    ["keyword.control.condition", "variable.other", "keyword.operator.word", "constant.other.term"],
  );
});
