/**
 * Bundles the pages' script and styles into wwwroot/dist and weighs what a page must fetch.
 *
 * The limits are the product's: everything under 150 kB compressed, script under 60 kB. Everything is the script, the
 * styles, all fonts and 20 kB for the page itself, the worst case of a page with plant names and Central European
 * persons on it.
 */
import { build } from "esbuild";
import { cp, readFile, readdir, rm } from "node:fs/promises";
import { gzipSync } from "node:zlib";

const out = "wwwroot/dist";
const scriptLimit = 60_000;
const pageLimit = 150_000;
const pageItself = 20_000;

await rm(out, { recursive: true, force: true });
await build({
  entryPoints: ["frontend/main.ts", "frontend/main.css"],
  bundle: true,
  minify: true,
  format: "esm",
  target: ["es2022", "chrome123", "firefox120", "safari17.5"],
  outdir: out,
  loader: { ".woff2": "file" },
  assetNames: "[name]-[hash]",
  legalComments: "eof",
  logLevel: "warning",
});
// The font's licence goes wherever the font goes (SIL OFL 1.1, condition 2).
await cp("node_modules/@fontsource/gentium-plus/LICENSE", `${out}/gentium-plus-LICENSE.txt`);

const weights = new Map();
for (const name of await readdir(out)) {
  const bytes = await readFile(`${out}/${name}`);
  if (!name.endsWith(".txt")) { weights.set(name, name.endsWith(".woff2") ? bytes.length : gzipSync(bytes).length); }
}

const script = weights.get("main.js");
const everything = [...weights.values()].reduce((sum, weight) => sum + weight, pageItself);
for (const [name, weight] of weights) { console.log(`${(weight / 1000).toFixed(1).padStart(7)} kB  ${name}`); }
console.log(`${(everything / 1000).toFixed(1).padStart(7)} kB  everything, with 20 kB of page`);
if (script > scriptLimit || everything > pageLimit) {
  console.error(`Too heavy: script ${script} of ${scriptLimit} bytes, everything ${everything} of ${pageLimit}.`);
  process.exitCode = 1;
}
