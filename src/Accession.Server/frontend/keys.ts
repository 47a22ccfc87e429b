/**
 * The short key list on `?`, and the single keys of a page.
 *
 * The list is a <dialog id="keys"> in the layout; Esc and its button close it, the browser gives the focus back. A page
 * adds its own keys by marking the act: `<button data-key="s">` is pressed by S, `<a data-key="n">` followed by N, and
 * `data-key` of a field brings the focus there. Single keys do nothing while something is being typed, nor on a bench
 * page, where any key may be the first of a scan (the list opens from the foot of the page); and they can be turned off
 * in the dialog (WCAG 2.1.4) for whoever speaks to the computer or strikes keys by accident.
 */
const off = "accession.keys-off";
const writable = "input:not([type='checkbox'], [type='radio'], [type='button']), select, textarea, [contenteditable]";

export function startKeys(): void {
  const dialog = document.querySelector<HTMLDialogElement>("dialog#keys");
  document.querySelectorAll<HTMLButtonElement>("[data-show-keys]").forEach(opener => {
    opener.hidden = dialog === null;
    opener.addEventListener("click", () => dialog && show(dialog));
  });
  document.querySelectorAll<HTMLElement>("[data-key]").forEach(act => {
    if (single()) { act.setAttribute("aria-keyshortcuts", act.dataset["key"] ?? ""); }
  });
  document.addEventListener("keydown", event => onKey(event, dialog));

  const toggle = dialog?.querySelector<HTMLInputElement>("input[data-single-keys]");
  if (toggle) {
    toggle.checked = single();
    toggle.addEventListener("change", () => {
      localStorage.setItem(off, toggle.checked ? "0" : "1");
    });
  }
}

function onKey(event: KeyboardEvent, dialog: HTMLDialogElement | null): void {
  if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey || typing(event.target)) { return; }
  if (dialog?.open || !single()) { return; }
  if (event.key === "?" && dialog) {
    event.preventDefault();
    show(dialog);
    return;
  }

  const act = [...document.querySelectorAll<HTMLElement>("[data-key]")]
    .find(one => one.dataset["key"]?.toLowerCase() === event.key.toLowerCase() && one.checkVisibility());
  if (!act) { return; }
  event.preventDefault();
  if (act.matches(writable)) { act.focus(); } else { act.click(); }
}

/** The dialog's list: the keys of every page, and those this page marks. */
function show(dialog: HTMLDialogElement): void {
  const list = dialog.querySelector<HTMLElement>("[data-page-keys]");
  const acts = [...document.querySelectorAll<HTMLElement>("main [data-key]")];
  list?.replaceChildren(...acts.flatMap(act => {
    const key = document.createElement("dt");
    const words = document.createElement("dd");
    const cap = document.createElement("kbd");
    cap.textContent = act.dataset["key"]?.toUpperCase() ?? "";
    key.append(cap);
    words.textContent = act.dataset["keyWords"] ?? act.textContent?.replace(/\s+/gu, " ").trim() ?? "";
    return [key, words];
  }));
  dialog.showModal();
}

function single(): boolean {
  if (document.querySelector("[data-scan-line]")) { return false; }
  return localStorage.getItem(off) !== "1";
}

function typing(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.matches(writable);
}
