// Lines of a sheet with the scopes that the TextMate grammar gives them, as VS Code does it.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";

const require = createRequire(import.meta.url);
const oniguruma = require("vscode-oniguruma");
const textmate = require("vscode-textmate");

export const grammarFile = fileURLToPath(
  new URL("../vscode/syntaxes/groundrule.tmLanguage.json", import.meta.url),
);

await oniguruma.loadWASM(readFileSync(require.resolve("vscode-oniguruma/release/onig.wasm")));
const registry = new textmate.Registry({
  onigLib: Promise.resolve({
    createOnigScanner: (sources) => new oniguruma.OnigScanner(sources),
    createOnigString: (text) => new oniguruma.OnigString(text),
  }),
  loadGrammar: async (scope) =>
    scope === "source.groundrule"
      ? textmate.parseRawGrammar(readFileSync(grammarFile, "utf8"), grammarFile)
      : null,
});
const grammar = await registry.loadGrammar("source.groundrule");

/** For each line its pieces `{start, end, text, scopes}`; the outermost scope is left out. */
export function tokens(sheet) {
  let stack = textmate.INITIAL;
  return sheet.split("\n").map((line) => {
    const told = grammar.tokenizeLine(line, stack);
    stack = told.ruleStack;
    return told.tokens.map(({ startIndex, endIndex, scopes }) => ({
      start: startIndex,
      end: Math.min(endIndex, line.length),
      text: line.slice(startIndex, endIndex),
      scopes: scopes.slice(1),
    }));
  });
}

/** The innermost scope, without the language's name. */
export const scope = (piece) => (piece.scopes.at(-1) ?? "").replace(/\.groundrule$/, "");
