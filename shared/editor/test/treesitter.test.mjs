import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { MADE, sum } from "../tree-sitter-groundrule/generate.mjs";
import { sheets, words } from "./shipped.mjs";
import { scope, tokens } from "./textmate.mjs";
import { folder, inserted, parse, query } from "./treesitter.mjs";

const shipped = sheets();
const file = (name) => readFileSync(join(folder, name), "utf8");
const spot = (path, node) => `${path}:${node.row + 1}:${node.column + 1}`;
const named = (node) => node.children.filter((child) => child.isNamed);
const types = (node) => named(node).map((child) => child.type);

test("the parser was made from the grammar that lies beside it", () => {
  const { sums } = JSON.parse(file("src/made-from.json"));
  const now = Object.fromEntries(MADE.map((name) => [name, sum(name)]));
  assert.deepEqual(now, sums, "npm run generate makes it anew");
});

test("every sheet is read without an error", () => {
  for (const [path, text] of shipped) {
    const [first] = parse(text).wrong;
    assert.equal(first && `${spot(path, first)} ${first.parent?.type}: ${first.text.slice(0, 60)}`, undefined);
  }
});

test("a bad sheet is found bad, and what stands around the fault is still read", () => {
  const sheet = (line) => `place alder "Alder"\ninstrument A-1\n    kind ordinance\n${line}\nexample "x"\n    job\n    verdict\n`;
  assert.equal(parse(sheet("    adopted 2020-01-01")).wrong.length, 0);
  for (const line of ["    adopted soon", "    section 1 (", '    section 1 "Bond', "    in force fro 2020-01-01", "    }"]) {
    const tree = parse(sheet(line));
    assert.notEqual(tree.wrong.length, 0, line);
    const kept = tree.all.filter((node) => ["place", "kind", "verdict"].includes(node.type) && node.isNamed);
    assert.deepEqual(kept.map((node) => node.type), ["place", "kind", "verdict"], line);
  }
});

/** A sheet whose author calls everything by the words of the language that may be names. */
function calledAll(names) {
  const each = (line) => names.map(line).join("\n");
  return `${each((word) => `fact ${word} yes-no`)}
choice kind-of-thing
${each((word) => `    ${word} "a term"`)}
list things
${each((word) => `    ${word} yes-no`)}
${each((word) => `question ${word} on electrical ladder never-so, so`)}
place alder "Alder"
instrument A-1 of alder
    kind order
    in force from 2020-01-01
    section 1 "One"
${each((word) => `        where ${word} is yes and not (${word} is no) or any things with (${word} is yes)`)}
${each((word) => `        ${word} is so`)}
${each((word) => `        thing only ${word}, ${word}`)}
    status enacted
example "x"
    job
        place alder
${each((word) => `        ${word} yes\n        things { ${word} yes }`)}
    verdict
${each((word) => `        ${word} is so\n        ${word} not met\n        ${word} open on ${word}`)}
`;
}

test("every word that is not reserved may be a name, for both grammars", () => {
  const { all, reserved } = words();
  const names = [...all].filter((word) => !reserved.has(word));
  const text = calledAll(names);
  const tree = parse(text);
  assert.deepEqual(tree.wrong.map((node) => spot("the sheet", node)), []);
  const facts = tree.root.children.filter((node) => node.type === "fact");
  assert.deepEqual(facts.map((node) => node.children.find((child) => child.field === "name").text), names);
  const lines = tokens(text);
  const apart = [];
  for (const node of tree.all) {
    if (kindOfLeaf(node) !== "name" || !names.includes(node.text)) continue;
    const { row, column } = node;
    const told = kindOfScope(scope(lines[row].find((piece) => piece.start <= column && column < piece.end)));
    if (told !== "name") apart.push(`${node.text} in ${text.split("\n")[row].trim()}`);
  }
  assert.deepEqual(apart, []);
});

test("a clause belongs to the innermost that can have it", () => {
  const [instrument] = parse(`instrument A-1
    from memory
    section 1 "One"
        floor is required
        from memory
        kind is gone
    floor tag
    status proposed
    common practice`).root.children;
  assert.deepEqual(types(instrument), ["number", "memory", "section", "power", "status", "practice"]);
  assert.deepEqual(types(named(instrument)[2]), ["number", "text", "demand", "memory", "demand"]);
});

test("a change of a sheet is read like the whole sheet", () => {
  const [, text] = shipped.find(([path]) => path === "rules/places/merrin.rule");
  const seen = (tree) => tree.all.map(({ type, row, column, text: own }) => [type, row, column, own]);
  for (const [place, added] of [
    ["kind ", "applies where any run with (length over 10 ft)\n    "],
    ["election ", "# a remark\n"],
    ["splicing is", 'note "as \\"one\\" piece"\n        '],
    ["example", "instrument"],
  ]) {
    const at = text.indexOf(place);
    assert.ok(at > 0, place);
    const changed = text.slice(0, at) + added + text.slice(at);
    assert.deepEqual(seen(inserted(changed, at, added.length)), seen(parse(changed)), place);
  }
});

test("the words of the grammar are those of grammar/rule.pest", () => {
  const { all, reserved } = words();
  const held = new Set();
  const grammar = JSON.parse(file("src/grammar.json"));
  JSON.parse(JSON.stringify(grammar.rules), (key, node) => {
    if (node?.type === "STRING" || (node?.type === "ALIAS" && !node.named)) {
      for (const word of node.value.split(" ")) if (/^[a-z][a-z-]*$/.test(word)) held.add(word);
    }
    return node;
  });
  assert.deepEqual([...held].sort(), [...all].sort());
  assert.deepEqual(grammar.reserved.global.map((word) => word.value).sort(), [...reserved].sort());
});

test("the scanner's lists are those of grammar/rule.pest", () => {
  const { reserved, units } = words();
  const list = (name) =>
    [...new RegExp(`${name}\\[\\] = \\{([^}]*)\\}`).exec(file("src/scanner.c"))[1].matchAll(/"([^"]*)"/g)].map(
      ([, word]) => word,
    );
  assert.deepEqual(list("KNOWN"), units);
  assert.deepEqual(list("RESERVED").sort(), [...reserved].sort());
});

test("the queries fit the grammar, and every leaf of every sheet is highlighted", () => {
  const queries = readdirSync(join(folder, "queries"));
  assert.ok(queries.length >= 5);
  for (const name of queries) assert.ok(query(shipped[0][1], join(folder, "queries", name)).length > 0, name);
  for (const [path, text] of shipped) {
    const colored = new Uint8Array(text.length);
    for (const { start, end } of query(text, join(folder, "queries/highlights.scm"))) colored.fill(1, start, end);
    const plain = [...text.matchAll(/\S/g)].find(({ index }) => colored[index] === 0);
    assert.equal(plain && `${path}: ${text.slice(plain.index, plain.index + 40)}`, undefined);
  }
});

/** What a leaf of the tree is, in the few words that both grammars share. */
function kindOfLeaf(node) {
  const type = node.children.length === 0 ? node.type : "";
  if (/^[a-z]/.test(type) && !node.isNamed) return "keyword";
  return {
    name: "name", term: "name", path: "name", fact_path: "name", place_path: "name", finding: "name",
    code_name: "name", number: "number", date: "number", year: "number", amount: "number", figure_of_time: "number",
    unit: "unit", shape: "shape", yes_no: "keyword",
  }[type];
}

/** The same of a scope. */
function kindOfScope(name) {
  if (name === "keyword.other.unit") return "unit";
  if (/^(keyword|storage|constant\.language)/.test(name)) return "keyword";
  if (/^support\.type\.shape/.test(name)) return "shape";
  if (/^(variable|entity|constant\.other|support\.class)/.test(name)) return "name";
  if (/^constant\.numeric/.test(name)) return "number";
  return name;
}

test("the TextMate grammar sees in every word what the tree knows it to be", () => {
  // The number of a section or an instrument is what others call by it, so it is colored as a
  // name; `quantity` and `several` are colored as shapes; and an attribute's shape that is a
  // choice looks like any name.
  const alike = new Set(["number name", "keyword shape", "shape name"]);
  let seen = 0;
  const apart = [];
  for (const [path, text] of shipped) {
    const lines = tokens(text);
    for (const node of parse(text).all) {
      const kind = kindOfLeaf(node);
      if (kind === undefined) continue;
      seen++;
      const { row, column } = node;
      const told = kindOfScope(scope(lines[row].find((piece) => piece.start <= column && column < piece.end)));
      if (told !== kind && !alike.has(`${kind} ${told}`)) apart.push(`${spot(path, node)} \`${node.text}\` is ${kind}, not ${told}`);
    }
  }
  assert.deepEqual(apart, []);
  assert.ok(seen > 80_000, `only ${seen} words were seen`);
});
