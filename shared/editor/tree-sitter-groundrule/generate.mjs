// Makes src/parser.c and its like out of grammar.js, and notes in src/made-from.json what they
// were made from, so that a test can tell whether one was changed without the other.
//
// It needs the program `tree-sitter`. The npm package of that name for the command line,
// tree-sitter-cli, holds no program and fetches one when it is installed; the crate is built
// from what the registry holds: cargo install tree-sitter-cli --version 0.25.10 --locked
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const folder = fileURLToPath(new URL(".", import.meta.url));
const program = process.env.TREE_SITTER ?? "tree-sitter";

export const MADE = ["grammar.js", "src/grammar.json", "src/node-types.json", "src/parser.c"];
export const sum = (file) => createHash("sha256").update(readFileSync(folder + file)).digest("hex");

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  execFileSync(program, ["generate"], { cwd: folder, stdio: "inherit" });
  const generator = execFileSync(program, ["--version"], { encoding: "utf8" }).trim();
  const sums = Object.fromEntries(MADE.map((file) => [file, sum(file)]));
  writeFileSync(folder + "src/made-from.json", JSON.stringify({ generator, sums }, null, 2) + "\n");
}
