// Every rule file and job sheet of the repository, and the grammar that the program reads with.
import { readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";

export const top = fileURLToPath(new URL("../../..", import.meta.url));
export const read = (path) => readFileSync(join(top, path), "utf8");

const FOLDERS = ["rules", "shared/jobs", "tests/forms", "tests/oracle", "tests/published", "tests/scenarios"];

function* files(folder) {
  for (const entry of readdirSync(join(top, folder), { withFileTypes: true, recursive: true })) {
    if (entry.isFile() && /\.(rule|job)$/.test(entry.name)) {
      yield relative(top, join(entry.parentPath ?? entry.path, entry.name));
    }
  }
}

/** The blocks of one language in a page, put one after the other with the page's own line numbers. */
function blocks(page, language) {
  let inside = false;
  return read(page)
    .split("\n")
    .map((line) => {
      if (line.startsWith("```")) {
        inside = !inside && line === "```" + language;
        return "";
      }
      return inside ? line : "";
    })
    .join("\n");
}

/** All sheets that hold no error, by path, with their text. */
export function sheets() {
  const found = FOLDERS.flatMap((folder) => [...files(folder)])
    .sort()
    .map((path) => [path, read(path)]);
  found.push(["shared/language.md (rule)", blocks("shared/language.md", "rule")]);
  found.push(["shared/language.md (job)", blocks("shared/language.md", "job")]);
  return found;
}

/** The words of the language, those of them that are reserved, and the known units, out of the pest grammar. */
export function words() {
  const text = read("grammar/rule.pest")
    .replace(/^\s*\/\/.*$/gm, "")
    .replace(/\s\/\/ .*$/gm, "");
  const rules = new Map();
  for (const [, name, body] of text.matchAll(/^([a-z_0-9]+)\s*=\s*([\s\S]*?)(?=^[a-z_0-9]+\s*=|$(?![\s\S]))/gm)) {
    rules.set(name, [...body.matchAll(/"((?:[^"\\]|\\.)*)"/g)].map(([, literal]) => literal));
  }
  const wordlike = (list) => list.filter((literal) => /^[a-z][a-z-]*$/.test(literal));
  const all = new Set();
  for (const [name, literals] of rules) {
    // Units are words of the trade, and `geoid` and its like are the author's.
    if (name === "known_unit") continue;
    for (const literal of wordlike(literals)) if (literal.length > 1) all.add(literal);
  }
  return { all, reserved: new Set(rules.get("reserved")), units: rules.get("known_unit") };
}
