// Makes the extension's package, as `npm run package` does, and unpacks it.
import { execFileSync } from "node:child_process";
import { createWriteStream, mkdirSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { pipeline } from "node:stream/promises";
import { promisify } from "node:util";

const require = createRequire(import.meta.url);
const yauzl = require("yauzl");

/** Unpacks the package of the extension in `from` into `to`; gives the names of its files. */
export async function packaged(from, to) {
  const out = join(to, "groundrule.vsix");
  const vsce = require.resolve("@vscode/vsce/vsce");
  const options = ["--no-dependencies", "--allow-missing-repository", "--skip-license", "--out", out];
  execFileSync(process.execPath, [vsce, "package", ...options], { cwd: from, stdio: ["ignore", "ignore", "inherit"] });

  const files = [];
  const zip = await promisify(yauzl.open)(out, { autoClose: true, lazyEntries: true });
  const read = promisify(zip.openReadStream.bind(zip));
  await new Promise((done, failed) => {
    zip.on("end", done);
    zip.on("error", failed);
    zip.on("entry", (entry) => {
      const file = join(to, entry.fileName);
      files.push(entry.fileName);
      mkdirSync(dirname(file), { recursive: true });
      read(entry)
        .then((bytes) => pipeline(bytes, createWriteStream(file)))
        .then(() => zip.readEntry(), failed);
    });
    zip.readEntry();
  });
  return files;
}
