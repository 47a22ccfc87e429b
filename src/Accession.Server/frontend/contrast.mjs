/**
 * Computes the contrast of every pair of colours that carries meaning, light and dark, from styles/tokens.css itself.
 * Limits: 4.5 for text, 3 for the parts of a control and for shapes (WCAG 2.2, 1.4.3 and 1.4.11, level AA).
 */
import { readFile } from "node:fs/promises";

const tokens = await readFile(new URL("styles/tokens.css", import.meta.url), "utf8");
const colours = new Map();
for (const [, name, light, dark] of tokens.matchAll(/--([a-z-]+): light-dark\((#[0-9a-f]{6}), (#[0-9a-f]{6})\)/gu)) {
  colours.set(name, { light, dark });
}

const grounds = ["paper", "sheet", "fold"];
const pairs = [
  ...["ink", "soft", "stamp", "waiting", "stop", "done"].flatMap(text => grounds.map(ground => [text, ground, 4.5])),
  ...["waiting", "stop", "done", "stamp"].map(state => [state, `${state}-wash`, 4.5]),
  ...["waiting", "stop", "done", "stamp"].map(state => ["ink", `${state}-wash`, 4.5]),
  ...["waiting", "stop", "done"].map(state => ["stamp", `${state}-wash`, 4.5]),
  ...["waiting", "stop", "done"].map(state => ["soft", `${state}-wash`, 4.5]),
  ["on-stamp", "stamp", 4.5],
  ["paper", "ink", 4.5],
  ...grounds.map(ground => ["edge", ground, 3]),
];

let failures = 0;
for (const [front, back, limit] of pairs) {
  const ratios = ["light", "dark"].map(theme => ratio(colours.get(front)[theme], colours.get(back)[theme]));
  const fails = ratios.some(found => found < limit);
  failures += fails ? 1 : 0;
  const figures = ratios.map(found => found.toFixed(2).padStart(6)).join(" ");
  console.log(`${figures}  (${limit})  ${front} on ${back}${fails ? "  FAILS" : ""}`);
}
process.exitCode = failures === 0 ? 0 : 1;

/** Contrast ratio of two colours, 1 to 21 (WCAG 2.2, definition of "contrast ratio"). */
function ratio(one, other) {
  const [lighter, darker] = [luminance(one), luminance(other)].sort((left, right) => right - left);
  return (lighter + 0.05) / (darker + 0.05);
}

/** Relative luminance of an sRGB colour (WCAG 2.2, definition of "relative luminance"). */
function luminance(hex) {
  const [red, green, blue] = [1, 3, 5].map(at => {
    const value = parseInt(hex.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}
