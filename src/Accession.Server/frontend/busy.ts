/**
 * A busy sign within a second of every post, and one act for one press.
 *
 * The sign is the layout's `[data-busy]` live region. A second press while the first is under way is ignored, not
 * by disabling the button (that loses the focus and its value) but by not sending again.
 */
const patience = 500;

export function startBusySign(): void {
  const sign = document.querySelector<HTMLElement>("[data-busy]");
  let timer: number | undefined;

  document.addEventListener("submit", event => {
    const form = event.target;
    if (event.defaultPrevented || !(form instanceof HTMLFormElement) || form.method !== "post") { return; }
    if (form.dataset["sent"] === "1") {
      event.preventDefault();
      return;
    }
    form.dataset["sent"] = "1";
    timer = window.setTimeout(() => speak(form.dataset["busyWords"] ?? "Working…"), patience);
  });

  // Back and forward can bring this very page back to life with the act long done; a download never leaves it.
  window.addEventListener("pageshow", () => quiet());
  window.addEventListener("focus", () => quiet());

  function speak(text: string): void {
    if (sign) { sign.textContent = text; }
  }

  function quiet(): void {
    window.clearTimeout(timer);
    speak("");
    document.querySelectorAll<HTMLFormElement>("form[data-sent]").forEach(form => { delete form.dataset["sent"]; });
  }
}
