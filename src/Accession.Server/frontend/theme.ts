/**
 * Light or dark, where the reader wants another than the system's. Kept in a cookie, not in the browser's storage, so
 * that the server writes it into the page and nothing flashes. The choice is offered only where this script runs.
 */
const year = 365 * 24 * 60 * 60;

export function startTheme(): void {
  const choice = document.querySelector<HTMLSelectElement>("select[data-theme-choice]");
  if (!choice) { return; }
  choice.closest<HTMLElement>("[hidden]")?.removeAttribute("hidden");
  choice.value = document.documentElement.dataset["theme"] ?? "";
  choice.addEventListener("change", () => {
    document.documentElement.dataset["theme"] = choice.value;
    document.cookie = `theme=${choice.value}; path=/; max-age=${choice.value === "" ? 0 : year}; samesite=lax`;
  });
}
