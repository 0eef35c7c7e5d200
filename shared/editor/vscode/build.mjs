// Makes dist/extension.js: the extension with its library in one file.
import { build } from "esbuild";
import { fileURLToPath } from "node:url";

const here = (file) => fileURLToPath(new URL(file, import.meta.url));

await build({
  entryPoints: [here("src/extension.js")],
  outfile: here("dist/extension.js"),
  bundle: true,
  platform: "node",
  format: "cjs",
  target: "node18",
  external: ["vscode"],
  minify: true,
  logLevel: "warning",
});
