/**
 * The scan line: where a scanner types.
 *
 * A scanner is a keyboard that types a character every 5 ms and ends with Enter or Tab. The next scan may begin 150 ms
 * later, while the answer to the one before is still on its way.
 *
 * THE PAGE gives
 *
 *     <form class="scan-line" data-scan-line="numbering" method="post" action="/numbering">
 *       <input type="hidden" name="__RequestVerificationToken" …>
 *       <div class="field">
 *         <label for="code">Scan the sheet</label>
 *         <input class="scan-input" id="code" name="code" autofocus autocomplete="off"
 *                autocapitalize="off" spellcheck="false" enterkeyhint="send">
 *       </div>
 *       <button class="act">Take this scan</button>
 *     </form>
 *     <div class="queue-said" data-scan-queue></div>
 *     <div class="answer" data-answer role="status"> … </div>
 *     <ol class="scans" data-scans> … </ol>
 *     <button type="button" class="act plain" data-scan-sound hidden>Sound is on</button>
 *
 * Other fields of the form go with every scan as they stood when it was made. A code can set one before the scan goes:
 * a hidden field with `data-set-by` (a pattern) takes the code itself, one with `data-set-key-by` the key of the scan, one
 * with `data-clear-by` becomes empty. So a change of place or of hands holds for the scans behind it, also while the
 * network is gone. With `data-secret` the code is shown as that word. The layout's `<body data-who>` keeps one
 * person's waiting scans from being sent under another's name. Without script the form is an ordinary post answered by
 * the whole page.
 *
 * THE REQUEST is the form's own, with `Accept: text/html` and the headers `X-Scan: 1` (answer with a fragment),
 * `X-Request-Key` (a UUID; a key seen before gets the earlier answer and changes nothing) and `X-Scanned-At` (ISO
 * 8601).
 *
 * THE ANSWER is a fragment, with 200 or any 4xx:
 *
 *     <li class="scan done"><span class="code">DEMO-H0001234</span> <span class="state">Numbered</span>
 *       <span>Artemisia tridentata, Alder 218</span> <a href="/specimen/DEMO-H0001234">Open</a></li>
 *     <div data-answer class="answer done"> … </div>        (optional: the new big answer)
 *     <meta name="scan-fields" data-name="sheet" content="4711">   (optional, repeated: new values of hidden fields)
 *     <p data-swap="hands"> … </p>                          (optional, repeated: new contents of that part of the page)
 *
 * The class `done`, `waiting` or `stop` picks tone, shape and colour; the words are the server's. A redirect, 401 or
 * 403 keeps the queue and asks for a sign-in; no connection, no answer in 12 s, 429 and 502 to 504 keep it and try
 * again; any other answer without a `.scan` stops the line until a person says "try again" or "set aside".
 *
 * The same code within two seconds of the one counted before counts once. A Tab on an empty line leaves it, as a Tab
 * does.
 */
import { button, words } from "./elements";
import { ScanQueue, placeOf, requestKey, type Scan, type Stall } from "./scan-queue";
import { isSilent, play, setSilent, wake, type Outcome } from "./tones";

const sameWithin = 2000;
const suffixWithin = 100;
const shown = 10;

export function startScanLines(): void {
  document.querySelectorAll<HTMLFormElement>("form[data-scan-line]").forEach(form => new ScanLine(form));
}

class ScanLine {
  private readonly input: HTMLInputElement;
  private readonly list = document.querySelector<HTMLElement>("[data-scans]");
  private readonly said = document.querySelector<HTMLElement>("[data-scan-queue]");
  private readonly queue: ScanQueue;
  private last = { code: "", at: Number.NEGATIVE_INFINITY };
  private spoken = "";

  constructor(private readonly form: HTMLFormElement) {
    this.input = form.querySelector<HTMLInputElement>(".scan-input")!;
    this.queue = new ScanQueue(place(form), {
      answered: (scan, fragment) => this.show(scan, fragment),
      changed: (waiting, stall) => this.say(waiting, stall),
      token: () => this.token(),
    });
    this.said?.setAttribute("role", "status");
    this.listen();
    this.soundButton();
    this.input.focus();
    this.queue.scans.forEach(scan => this.echo(scan));
    this.queue.start();
  }

  private listen(): void {
    this.input.addEventListener("keydown", event => this.onKey(event));
    this.input.addEventListener("paste", event => this.onPaste(event));
    this.form.addEventListener("submit", event => {
      event.preventDefault();
      this.takeLine();
      this.input.focus();
    });
    document.addEventListener("keydown", event => this.comeBack(event), { capture: true });
    document.addEventListener("click", event => this.stayAfterClick(event));
    window.addEventListener("beforeunload", event => {
      if (this.queue.scans.length > 0 && localStorage.getItem(place(this.form)) === null) { event.preventDefault(); }
    });
  }

  private onKey(event: KeyboardEvent): void {
    wake();
    if (event.isComposing || event.altKey || event.ctrlKey || event.metaKey) { return; }
    if (event.key === "Enter") {
      event.preventDefault();
      this.takeLine();
    } else if (event.key === "Tab" && !event.shiftKey && (this.input.value.trim() !== "" || this.justTaken())) {
      // A scanner that ends with Enter *and* Tab must not carry the focus away.
      event.preventDefault();
      this.takeLine();
    } else if (event.key === "Escape") {
      this.input.value = "";
    }
  }

  /** A single-line field would run pasted lines together into one code. */
  private onPaste(event: ClipboardEvent): void {
    const lines = (event.clipboardData?.getData("text") ?? "").split(/[\r\n\t]+/u).filter(line => line.trim() !== "");
    if (lines.length < 2) { return; }
    event.preventDefault();
    lines.forEach(line => this.take(line));
  }

  /** A scan that begins while the focus is on a button or on nothing still lands in the line. */
  private comeBack(event: KeyboardEvent): void {
    const focused = document.activeElement;
    const types = event.key.length === 1 && event.key !== " " && !event.ctrlKey && !event.metaKey && !event.altKey;
    if (!types || focused === this.input || document.querySelector("dialog[open]")) { return; }
    if (focused instanceof HTMLElement && focused.matches("input, select, textarea, [contenteditable]")) { return; }
    this.input.focus();
  }

  private stayAfterClick(event: MouseEvent): void {
    const target = event.target instanceof Element ? event.target : null;
    const wanted = "a, input, select, textarea, label, summary, dialog, [contenteditable]";
    if (!target?.closest(wanted) && !document.getSelection()?.toString()) { this.input.focus(); }
  }

  private takeLine(): void {
    const code = this.input.value;
    this.input.value = "";
    this.take(code);
  }

  private take(typed: string): void {
    const code = typed.trim();
    const now = performance.now();
    if (code === "") { return; }
    if (code === this.last.code && now - this.last.at < sameWithin) {
      this.sayCountedOnce();
      return;
    }
    this.last = { code, at: now };

    const key = requestKey();
    this.setFields(code, key);
    const scan: Scan = {
      key,
      code,
      at: new Date().toISOString(),
      action: this.form.action,
      page: location.pathname,
      fields: this.fields(code),
    };
    this.echo(scan);
    this.queue.add(scan);
  }

  private setFields(code: string, key: string): void {
    this.hidden().forEach(field => {
      if (fits(field.dataset["setBy"], code)) { field.value = code; }
      if (fits(field.dataset["setKeyBy"], code)) { field.value = key; }
      if (fits(field.dataset["clearBy"], code)) { field.value = ""; }
    });
  }

  private hidden(): HTMLInputElement[] {
    return [...this.form.querySelectorAll<HTMLInputElement>("input[type='hidden']")];
  }

  /** The code of a badge is shown to nobody, also not while it waits for the network. */
  private shownCode(code: string): string {
    return this.hidden().find(field => fits(field.dataset["setKeyBy"], code))?.dataset["secret"] ?? code;
  }

  private justTaken(): boolean { return performance.now() - this.last.at < suffixWithin; }

  private fields(code: string): Array<[string, string]> {
    const token = this.token()?.[0];
    const fields = [...new FormData(this.form)]
      .filter(([name, value]) => typeof value === "string" && name !== token && name !== this.input.name)
      .map(([name, value]): [string, string] => [name, String(value)]);
    return [...fields, [this.input.name, code]];
  }

  private token(): readonly [string, string] | undefined {
    const field = this.form.querySelector<HTMLInputElement>("input[name='__RequestVerificationToken']");
    return field ? [field.name, field.value] : undefined;
  }

  /** Within the same frame as the Enter: the code is taken. The verdict follows. */
  private echo(scan: Scan): void {
    const row = document.createElement("li");
    row.className = "scan sent";
    row.dataset["request"] = scan.key;
    row.append(words("span", this.shownCode(scan.code), "code"), " ", words("span", "Taken", "state"), " ",
      words("span", "on its way to the register"));
    this.put(row);
  }

  /** Silent for the ear, because a scanner may read twice at one pull; whoever typed a word twice sees why it was one. */
  private sayCountedOnce(): void {
    const row = this.list?.firstElementChild;
    if (!row || row.querySelector("[data-once]")) { return; }
    const note = words("span", "twice within two seconds, counted once", "small soft");
    note.dataset["once"] = "";
    row.append(" ", note);
  }

  private show(scan: Scan, fragment: DocumentFragment): void {
    const row = fragment.querySelector<HTMLElement>(".scan")!;
    const outcome = outcomeOf(row);
    row.dataset["request"] = scan.key;
    row.classList.add("fresh");
    play(outcome);

    const echoed = this.list?.querySelector(`[data-request="${scan.key}"]`);
    const once = echoed?.querySelector("[data-once]");
    if (once) { row.append(" ", once); }
    if (echoed) { echoed.replaceWith(row); } else if (outcome === "stop") { this.put(row); }
    this.answer(fragment, row, outcome);
    fragment.querySelectorAll<HTMLElement>("[data-swap]").forEach(part => {
      const there = document.querySelector<HTMLElement>(`[data-swap="${part.dataset["swap"]}"]`);
      if (!there) { return; }
      there.className = part.className;
      there.replaceChildren(...part.childNodes);
    });
    fragment.querySelectorAll<HTMLMetaElement>("meta[name='scan-fields']").forEach(meta => {
      const field = this.form.elements.namedItem(meta.dataset["name"] ?? "");
      if (field instanceof HTMLInputElement) { field.value = meta.content; }
    });
  }

  /** The contents are exchanged, not the element: a screen reader listens to the one that was there. */
  private answer(fragment: DocumentFragment, row: HTMLElement, outcome: Outcome): void {
    const given = fragment.querySelector<HTMLElement>("[data-answer]");
    if (given) {
      this.big(outcome, ...given.childNodes);
    } else {
      this.big(outcome, words("p", row.querySelector(".state")?.textContent ?? "", "verdict"),
        words("p", row.querySelector(".code")?.textContent ?? "", "about"));
    }
  }

  private big(outcome: Outcome, ...contents: Node[]): void {
    const big = document.querySelector<HTMLElement>("[data-answer]");
    if (!big) { return; }
    big.className = `answer ${outcome}`;
    big.replaceChildren(...contents);
  }

  /** The newest ten stay. What scrolled away while the network was gone comes back only if the server refuses it. */
  private put(row: HTMLElement): void {
    this.list?.prepend(row);
    while (this.list && this.list.children.length > shown) { this.list.lastElementChild?.remove(); }
  }

  /** Speaks only when something holds the queue up; ordinary traffic is over before anyone could read it. */
  private say(waiting: readonly Scan[], stall: Stall | undefined): void {
    if (!this.said) { return; }
    const text = stall && waiting.length > 0 ? sentence(waiting, stall, this.shownCode(waiting[0]!.code)) : "";
    if (text === this.spoken) { return; }
    this.spoken = text;
    this.said.replaceChildren();
    this.said.className = "queue-said";
    if (text === "" || !stall) { return; }

    const outcome: Outcome = stall.kind === "network" ? "waiting" : "stop";
    this.said.className = `queue-said ${outcome}`;
    this.said.append(words("p", text), ...this.ways(stall));
    this.big(outcome, words("p", stall.kind === "network" ? "Waiting for the network" : "Held back", "verdict"));
    play(outcome);
  }

  private ways(stall: Stall): HTMLElement[] {
    if (stall.kind === "network") { return [button("Try now", "act second small", () => this.queue.retry())]; }
    const again = document.createElement("a");
    again.className = "act second small";
    again.href = location.href;
    again.textContent = stall.kind === "sign-in" ? "Sign in again" : "Load this page again";
    if (stall.kind === "sign-in") { return [again]; }
    return [
      button("Try this scan again", "act second small", () => this.queue.retry()), again,
      button("Set this scan aside", "act second small", () => this.aside()),
    ];
  }

  private aside(): void {
    const scan = this.queue.setAside();
    const row = scan && this.list?.querySelector<HTMLElement>(`[data-request="${scan.key}"]`);
    if (!row) { return; }
    row.className = "scan stop";
    row.querySelector(".state")!.textContent = "Set aside";
    row.querySelector("[data-once]")?.remove();
    row.lastElementChild!.textContent = "not in the register";
  }

  private soundButton(): void {
    const toggle = document.querySelector<HTMLButtonElement>("[data-scan-sound]");
    if (!toggle) { return; }
    const paint = (): void => { toggle.textContent = isSilent() ? "Sound is off" : "Sound is on"; };
    toggle.hidden = false;
    toggle.addEventListener("click", () => {
      setSilent(!isSilent());
      wake();
      play("done");
      paint();
      this.input.focus();
    });
    paint();
  }
}

function place(form: HTMLFormElement): string {
  const path = new URL(form.action, location.href).pathname;
  return placeOf(document.body.dataset["who"] ?? "", `${form.dataset["scanLine"] ?? ""}.${path}`);
}

function fits(pattern: string | undefined, code: string): boolean {
  return pattern !== undefined && new RegExp(pattern, "iu").test(code);
}

function outcomeOf(row: HTMLElement): Outcome {
  return row.classList.contains("stop") ? "stop" : row.classList.contains("waiting") ? "waiting" : "done";
}

function sentence(waiting: readonly Scan[], stall: Stall, first: string): string {
  const count = waiting.length === 1 ? "1 scan is" : `${waiting.length} scans are`;
  switch (stall.kind) {
    case "network":
      return `${count} waiting for the network. Go on scanning: they are kept on this computer and sent in order.`;
    case "sign-in":
      return `You are signed out. ${count} kept on this computer and sent when you are back on this page.`;
    default:
      return `The server could not take ${first} (answer ${stall.status}). ${count} held back so that none `
        + "lands on the wrong sheet.";
  }
}
