/** Acts that print the page; without script the browser's own command does. */
export function startPrinting(): void {
  document.querySelectorAll<HTMLButtonElement>("button[data-print]").forEach(act => {
    act.hidden = false;
    act.addEventListener("click", () => window.print());
  });
}
