/**
 * Bundles the pages' script and styles into wwwroot/dist and weighs what a page must fetch.
 *
 * The limits are the product's: everything under 150 kB compressed, script under 60 kB. Two pages are weighed: the
 * usual one, and the worst, which shows a person or place written in Latin Extended and so fetches the third font file
 * too. 6 kB stand for the page itself, a table of fifty rows.
 */
import { build } from "esbuild";
import { cp, readFile, readdir, rm } from "node:fs/promises";
import { brotliCompressSync } from "node:zlib";

const out = "wwwroot/dist";
const scriptLimit = 60_000;
const pageLimit = 150_000;
const pageItself = 6_000;

await rm(out, { recursive: true, force: true });
await build({
  entryPoints: ["frontend/main.ts", "frontend/main.css", "frontend/passkeys.ts"],
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

await cp("frontend/icon.svg", `${out}/icon.svg`);

const weights = new Map();
for (const name of await readdir(out)) {
  const bytes = await readFile(`${out}/${name}`);
  if (name.endsWith(".txt")) { continue; }
  weights.set(name, name.endsWith(".woff2") ? bytes.length : brotliCompressSync(bytes).length);
}

// What only a few pages fetch, none of which shows a plant.
const apart = ["passkeys.js"];
const script = weights.get("main.js") + Math.max(...apart.map(name => weights.get(name)));
const worst = [...weights].filter(([name]) => !apart.includes(name))
  .reduce((sum, [, weight]) => sum + weight, pageItself);
const extended = [...weights].find(([name]) => name.includes("latin-ext"))[1];
weights.set("(the page itself)", pageItself);
weights.set("= a usual page", worst - extended);
weights.set("= a page with Latin Extended", worst);
for (const [name, weight] of weights) { console.log(`${(weight / 1000).toFixed(1).padStart(7)} kB  ${name}`); }
if (script > scriptLimit || worst > pageLimit) {
  console.error(`Too heavy: script ${script} of ${scriptLimit} bytes, the worst page ${worst} of ${pageLimit}.`);
  process.exitCode = 1;
}
