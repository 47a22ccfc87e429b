/**
 * Bundles the pages' script and styles into wwwroot/dist and weighs what a page must fetch.
 *
 * The limits are the product's: everything under 150 kB compressed, script under 60 kB. Two pages are weighed: the
 * usual one, and the worst, which shows a person or place with a letter beyond Western European and so fetches the
 * third font file too. 6 kB stand for the page itself, a table of fifty rows.
 */
import { build } from "esbuild";
import { cp, readFile, readdir, rm } from "node:fs/promises";
import { brotliCompressSync } from "node:zlib";
import subsetFont from "subset-font";

const out = "wwwroot/dist";
const scriptLimit = 60_000;
const pageLimit = 150_000;
const pageItself = 6_000;

// The third font file comes with the letters of phonetics and of half the world's languages, 69 kB of them. It is cut
// to the letters that its @font-face promises; any other letter is shown in the system's serif.
const cutFont = {
  name: "cut-font",
  setup(bundle) {
    bundle.onLoad({ filter: /gentium-plus-latin-ext-400-normal\.woff2$/ }, async ({ path }) => ({
      contents: await subsetFont(await readFile(path), await lettersPromised(), { targetFormat: "woff2" }),
      loader: "file",
    }));
  },
};

async function lettersPromised() {
  const css = await readFile("frontend/styles/tokens.css", "utf8");
  const face = css.split("@font-face").find(part => part.includes("latin-ext-400-normal"));
  const ranges = [...face.match(/unicode-range:([^;]*);/)[1].matchAll(/U\+([0-9A-F]+)(?:-([0-9A-F]+))?/g)];
  return ranges.map(([, first, last = first]) => {
    const from = Number.parseInt(first, 16);
    return String.fromCodePoint(...Array.from({ length: Number.parseInt(last, 16) - from + 1 }, (_, i) => from + i));
  }).join("");
}

await rm(out, { recursive: true, force: true });
await build({
  entryPoints: ["frontend/main.ts", "frontend/main.css", "frontend/sheets.css", "frontend/passkeys.ts"],
  bundle: true,
  minify: true,
  format: "esm",
  target: ["es2022", "chrome123", "firefox120", "safari17.5"],
  outdir: out,
  loader: { ".woff2": "file" },
  plugins: [cutFont],
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
