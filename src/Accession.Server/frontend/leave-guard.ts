/**
 * Nothing typed is ever lost: not by a time-out, a restart of the server, a conflict or a lost network.
 *
 * A form with `data-keep="name"` has what is typed into it written to this tab's sessionStorage as it is typed. If the
 * form comes back with other values than those kept, they are offered: one button puts them back, one forgets them.
 * They are dropped once the server has said that the act was done, which every page does in the layout's `[data-said]`.
 * Signing out forgets them all, for bench computers are shared. Passwords, files and fields marked `data-not-kept` are
 * never kept. Without script the server's own re-display of a refused form is all there is.
 */
import { button, words } from "./elements";

const prefix = "accession.typed.";

interface Kept {
  readonly at: string;
  readonly sent: boolean;
  readonly values: ReadonlyArray<readonly [string, string]>;
}

export function startLeaveGuard(): void {
  if (document.querySelector("[data-said]")?.textContent?.trim()) { dropSent(); }
  document.querySelectorAll<HTMLFormElement>("form[data-sign-out]").forEach(form =>
    form.addEventListener("submit", forgetAll));
  document.querySelectorAll<HTMLFormElement>("form[data-keep]").forEach(guard);
}

function guard(form: HTMLFormElement): void {
  const place = `${prefix}${location.pathname}#${form.dataset["keep"] ?? ""}`;
  const kept = load(place);
  const first = JSON.stringify(typed(form));
  let pending: number | undefined;
  let sent = false;

  const keep = (isSent: boolean): void => {
    window.clearTimeout(pending);
    const values = typed(form);
    if (JSON.stringify(values) !== first || isSent) {
      store(place, { at: new Date().toISOString(), sent: isSent, values });
    } else {
      sessionStorage.removeItem(place);
    }
  };

  form.addEventListener("input", () => {
    window.clearTimeout(pending);
    pending = window.setTimeout(() => keep(false), 250);
  });
  form.addEventListener("submit", () => {
    sent = true;
    keep(true);
  });
  window.addEventListener("pagehide", () => { if (pending !== undefined && !sent) { keep(false); } });

  if (kept && JSON.stringify(kept.values) !== first) { offer(form, place, kept); }
}

function offer(form: HTMLFormElement, place: string, kept: Kept): void {
  const box = document.createElement("div");
  box.className = "kept";
  box.setAttribute("role", "status");
  const fate = kept.sent ? "was not taken by the server" : "was not sent";
  const sentence = `What you typed here at ${clock(kept.at)} ${fate}. It is still here.`;
  const back = button("Put it back", "act second small", () => {
    putBack(form, kept);
    box.remove();
  });
  const drop = button("Forget it", "act plain small", () => {
    sessionStorage.removeItem(place);
    box.remove();
  });
  box.append(words("p", sentence), back, drop);
  form.prepend(box);
}

function putBack(form: HTMLFormElement, kept: Kept): void {
  const values = new Map<string, string[]>();
  kept.values.forEach(([name, value]) => values.set(name, [...(values.get(name) ?? []), value]));
  const fields = keepable(form);
  for (const field of fields) {
    if (field instanceof HTMLInputElement && tickable(field)) {
      field.checked = values.get(field.name)?.includes(field.value) ?? false;
    } else {
      field.value = values.get(field.name)?.shift() ?? field.value;
    }
    field.dispatchEvent(new Event("input", { bubbles: true }));
  }
  fields[0]?.focus();
}

type Field = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;

function keepable(form: HTMLFormElement): Field[] {
  return [...form.elements].filter((field): field is Field =>
    (field instanceof HTMLInputElement || field instanceof HTMLSelectElement || field instanceof HTMLTextAreaElement)
    && field.name !== "" && !field.disabled && field.closest("[data-not-kept]") === null
    && !["hidden", "password", "file", "submit", "button"].includes(field.type));
}

function typed(form: HTMLFormElement): Array<[string, string]> {
  return keepable(form)
    .filter(field => !(field instanceof HTMLInputElement) || !tickable(field) || field.checked)
    .map((field): [string, string] => [field.name, field.value]);
}

function tickable(field: HTMLInputElement): boolean {
  return field.type === "checkbox" || field.type === "radio";
}

function places(): string[] {
  return Object.keys(sessionStorage).filter(key => key.startsWith(prefix));
}

function dropSent(): void {
  places().filter(place => load(place)?.sent).forEach(place => sessionStorage.removeItem(place));
}

function forgetAll(): void {
  places().forEach(place => sessionStorage.removeItem(place));
}

function load(place: string): Kept | undefined {
  try {
    const text = sessionStorage.getItem(place);
    return text === null ? undefined : JSON.parse(text) as Kept;
  } catch {
    return undefined;
  }
}

function store(place: string, kept: Kept): void {
  try { sessionStorage.setItem(place, JSON.stringify(kept)); } catch { /* full: the form still works, unguarded */ }
}

function clock(iso: string): string {
  return new Intl.DateTimeFormat("en-GB", { hour: "2-digit", minute: "2-digit" }).format(new Date(iso));
}
