/** The two small things the modules put on a page. Words go in as text, never as markup. */
export function words(tag: "p" | "span", text: string, look = ""): HTMLElement {
  const element = document.createElement(tag);
  if (look !== "") { element.className = look; }
  element.textContent = text;
  return element;
}

export function button(text: string, look: string, act: () => void): HTMLButtonElement {
  const element = document.createElement("button");
  element.type = "button";
  element.className = look;
  element.textContent = text;
  element.addEventListener("click", act);
  return element;
}
