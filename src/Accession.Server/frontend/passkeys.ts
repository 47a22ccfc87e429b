/**
 * Passkeys: the form asks the server what to ask the browser for, asks the browser, and sends what it answered like any
 * other form. Where the browser knows no passkeys the forms stay hidden. Only the two pages with such a form fetch this.
 */
export {};

type Ask = (options: unknown) => Promise<Credential | null>;

const knows = "credentials" in navigator && typeof PublicKeyCredential?.parseCreationOptionsFromJSON === "function";
if (knows) {
  start("form[data-passkey-add]", options => navigator.credentials.create({
    publicKey: PublicKeyCredential.parseCreationOptionsFromJSON(options as PublicKeyCredentialCreationOptionsJSON),
  }));
  start("form[data-passkey-sign-in]", options => navigator.credentials.get({
    publicKey: PublicKeyCredential.parseRequestOptionsFromJSON(options as PublicKeyCredentialRequestOptionsJSON),
  }));
}

function start(selector: string, ask: Ask): void {
  const form = document.querySelector<HTMLFormElement>(selector);
  if (!form) { return; }
  form.hidden = false;
  form.addEventListener("submit", event => {
    const credential = form.elements.namedItem("credential") as HTMLInputElement;
    if (credential.value) { return; }   // the browser has answered: off it goes
    event.preventDefault();
    void answer(form, credential, ask);
  });
}

async function answer(form: HTMLFormElement, credential: HTMLInputElement, ask: Ask): Promise<void> {
  const trouble = form.querySelector<HTMLElement>("[data-passkey-trouble]");
  if (trouble) { trouble.hidden = true; }
  try {
    const asked = await fetch("?handler=PasskeyOptions", { method: "POST", body: new FormData(form) });
    if (!asked.ok) { throw new Error(String(asked.status)); }
    const made = await ask(await asked.json()) as PublicKeyCredential | null;
    if (!made) { throw new Error("nothing"); }
    credential.value = JSON.stringify(made.toJSON());
    form.requestSubmit();
  } catch {
    // Whoever closes the browser's question, or waits too long, may press the button again.
    if (trouble) {
      trouble.textContent = "The browser gave no passkey. Try it again, or sign in another way.";
      trouble.hidden = false;
    }
  }
}
