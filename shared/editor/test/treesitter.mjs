// The tree-sitter parser as a program uses it, compiled by the C compiler of this machine with
// the library's own source out of the npm package `tree-sitter`. The package's Node addon is left
// alone: the one that it brings does not load everywhere, and to compile it takes Node's headers.
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { after } from "node:test";
import { fileURLToPath } from "node:url";

const require = createRequire(import.meta.url);
const here = (path) => fileURLToPath(new URL(path, import.meta.url));

export const folder = here("../tree-sitter-groundrule");

const out = mkdtempSync(join(tmpdir(), "groundrule-reader-"));
after(() => rmSync(out, { recursive: true }));
const reader = join(out, "reader");
const library = join(dirname(require.resolve("tree-sitter/package.json")), "vendor/tree-sitter/lib");
const cc = (...options) => execFileSync(process.env.CC ?? "cc", ["-std=c11", "-O1", ...options]);
const object = (name, ...options) => {
  const made = join(out, name);
  cc("-c", "-o", made, ...options);
  return made;
};
cc(
  ...["-o", reader, "-I", join(library, "include"), here("reader.c")],
  // As the library's own build has it.
  object("lib.o", "-D_DEFAULT_SOURCE", "-D_POSIX_C_SOURCE=200112L", ...["-I", join(library, "include")], join(library, "src/lib.c")),
  object("parser.o", "-I", join(folder, "src"), join(folder, "src/parser.c")),
  object("scanner.o", "-Wall", "-Wextra", "-Werror", "-I", join(folder, "src"), join(folder, "src/scanner.c")),
);

function lines(text, ...command) {
  const options = { input: Buffer.from(text, "utf16le"), encoding: "utf8", maxBuffer: 1 << 28 };
  const told = execFileSync(reader, command, options);
  return told.split("\n").slice(0, -1).map((line) => line.split("\t"));
}

/** A tree out of what the reader printed: the root, parents before children in `all`. */
function tree(text, printed) {
  const all = [];
  const open = [];
  for (const [depth, start, end, row, column, named, wrong, field, ...type] of printed) {
    const node = {
      type: type.join("\t"),
      field,
      isNamed: named === "1",
      isWrong: wrong === "1" || type[0] === "unclosed",
      row: Number(row),
      column: Number(column),
      text: text.slice(Number(start), Number(end)),
      parent: open[depth - 1],
      children: [],
    };
    node.parent?.children.push(node);
    open[depth] = node;
    all.push(node);
  }
  return { root: all[0], all, wrong: all.filter((node) => node.isWrong) };
}

const trees = new Map();

/** The tree of a sheet; `wrong` is what could not be read, and what was put in for what is missing. */
export function parse(text) {
  if (!trees.has(text)) trees.set(text, tree(text, lines(text, "tree")));
  return trees.get(text);
}

/** The tree of a sheet of which `length` letters at `at` were written after the rest had been read. */
export const inserted = (text, at, length) => tree(text, lines(text, "insert", String(at), String(length)));

/** What the query of a file captures: places and names. */
export const query = (text, file) =>
  lines(text, "query", file).map(([start, end, name]) => ({ start: Number(start), end: Number(end), name }));
