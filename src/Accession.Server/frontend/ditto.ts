/**
 * "Same as last" by one key, as people write it in a column: a form with `data-ditto` whose fields know what stood there
 * before (`data-before`). A ditto mark alone in a field becomes that when the field is left or Enter is struck; F4, or
 * the page's own link, fills every empty field. Without script the server reads the mark the same way.
 */
const marks = new Set(["\"", "\u201D", "\u201E", "\u2033", "\u3003", "''"]);

export function startDitto(): void {
  document.querySelectorAll<HTMLFormElement>("form[data-ditto]").forEach(form => {
    form.addEventListener("change", event => {
      if (event.target instanceof HTMLInputElement) { readMark(event.target); }
    });
    form.addEventListener("keydown", event => {
      if (event.key === "F4" && !event.altKey && !event.ctrlKey && !event.metaKey) {
        event.preventDefault();
        fillEmpty(form);
      } else if (event.key === "Enter" && event.target instanceof HTMLInputElement) {
        readMark(event.target);
      }
    });
    form.querySelector("[data-same-as-last]")?.addEventListener("click", event => {
      event.preventDefault();
      fillEmpty(form);
    });
  });
}

function readMark(field: HTMLInputElement): void {
  if (field.dataset["before"] !== undefined && marks.has(field.value.trim())) { fill(field); }
}

/** The focus stays where it is; the first field is where a hand goes to change what differs. */
function fillEmpty(form: HTMLFormElement): void {
  const fields = [...form.querySelectorAll<HTMLInputElement>("input[data-before]")];
  fields.filter(field => field.value === "").forEach(fill);
  if (!form.contains(document.activeElement) || document.activeElement?.matches("a")) { fields[0]?.focus(); }
}

function fill(field: HTMLInputElement): void {
  field.value = field.dataset["before"] ?? "";
  field.dispatchEvent(new Event("input", { bubbles: true }));
}
