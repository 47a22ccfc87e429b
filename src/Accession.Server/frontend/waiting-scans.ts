/**
 * Scans left on this computer, told on every page: one's own with the way to the line that sends them, another person's
 * without, for they leave only under the name of whoever made them.
 */
import { leftBehind } from "./scan-queue";

export function tellWaitingScans(): void {
  const region = document.querySelector<HTMLElement>("[data-waiting-scans]");
  if (!region || document.querySelector("[data-scan-line]")) { return; }

  const who = document.body.dataset["who"] ?? "";
  const left = leftBehind();
  left.filter(place => place.who === who).forEach(place => {
    const way = document.createElement("a");
    way.href = place.page;
    way.textContent = "Send them now";
    tell(region, `Not sent yet: ${scans(place.count)} of yours, kept on this computer.`, way);
  });
  const others = left.filter(place => place.who !== who).reduce((sum, place) => sum + place.count, 0);
  if (others > 0) {
    tell(region, `Not sent yet: ${scans(others)} of another person's. They go when that person signs in here.`);
  }
}

function scans(count: number): string {
  return count === 1 ? "1 scan" : `${count} scans`;
}

function tell(region: HTMLElement, sentence: string, way?: HTMLElement): void {
  const note = document.createElement("div");
  const words = document.createElement("p");
  note.className = "said waiting";
  words.append(sentence, ...(way ? [" ", way] : []));
  note.append(words);
  region.append(note);
}
