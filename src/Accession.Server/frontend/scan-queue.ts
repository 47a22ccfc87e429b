/**
 * Scans on their way to the server: kept in order, kept on this computer, sent one after another.
 *
 * A scan is written to the queue before anything else happens and leaves it only when the server has answered it. The
 * queue lives in localStorage, so a closed tab, a dead battery or a night without network costs nothing. Each scan has
 * a key of its own (`X-Request-Key`); the server answers a key it has seen with the answer it gave, so that sending
 * again is always safe, also from two tabs at once.
 */
export interface Scan {
  readonly key: string;
  readonly code: string;
  /** When it was scanned, ISO 8601 in UTC. A scan sent an hour late still says when it was made. */
  readonly at: string;
  readonly action: string;
  /** The page with the scan line, to come back to. */
  readonly page: string;
  /** The form's other fields as they stood when the code was scanned; never the antiforgery token. */
  readonly fields: ReadonlyArray<readonly [string, string]>;
}

/** Why nothing is being sent just now. */
export type Stall =
  | { readonly kind: "network"; readonly again: number }
  | { readonly kind: "sign-in" }
  | { readonly kind: "refused"; readonly status: number };

export interface QueueEvents {
  /** The server's own words for this scan. */
  answered(scan: Scan, fragment: DocumentFragment): void;
  /** Called whenever the number of waiting scans or the reason changes. */
  changed(waiting: readonly Scan[], stall: Stall | undefined): void;
  /** The live form's antiforgery field; asked for at each sending because it changes with the sign-in. */
  token(): readonly [string, string] | undefined;
}

const prefix = "accession.scans.";
const answerLimit = 12_000;
const longestWait = 30_000;

export class ScanQueue {
  private waiting: Scan[];
  private stall: Stall | undefined;
  private failures = 0;
  private sending = false;
  private timer: number | undefined;

  constructor(private readonly place: string, private readonly events: QueueEvents) {
    this.waiting = read(place);
    window.addEventListener("online", () => this.retry());
  }

  get scans(): readonly Scan[] { return this.waiting; }

  /** Takes up what an earlier page left behind. */
  start(): void {
    this.tell();
    void this.send();
  }

  add(scan: Scan): void {
    this.waiting.push(scan);
    write(this.place, [...read(this.place).filter(kept => kept.key !== scan.key), scan]);
    this.tell();
    void this.send();
  }

  /** Tries at once, whatever the last failure was; a refused scan gets another chance too. */
  retry(): void {
    if (this.timer !== undefined) { window.clearTimeout(this.timer); }
    this.timer = undefined;
    this.stall = undefined;
    void this.send();
  }

  /** Gives up the first scan, because a person said so after the server could not take it. */
  setAside(): Scan | undefined {
    const scan = this.waiting[0];
    if (scan) { this.remove(scan); }
    this.retry();
    return scan;
  }

  /** One at a time, in order: the next scan may mean something only after this one ("same as last"). */
  private async send(): Promise<void> {
    if (this.sending || this.stall) { return; }
    this.sending = true;
    try {
      for (let scan = this.waiting[0]; scan && !this.stall; scan = this.waiting[0]) {
        await this.post(scan);
      }
    } finally {
      this.sending = false;
      this.tell();
    }
  }

  private async post(scan: Scan): Promise<void> {
    let answer: Response;
    let text: string;
    try {
      answer = await fetch(scan.action, {
        method: "POST",
        body: this.body(scan),
        headers: {
          "Accept": "text/html",
          "X-Scan": "1",
          "X-Request-Key": scan.key,
          "X-Scanned-At": scan.at,
          "X-Scan-Age": ageOf(scan),
        },
        credentials: "same-origin",
        redirect: "follow",
        signal: AbortSignal.timeout(answerLimit),
      });
      text = await answer.text();
    } catch {
      this.backOff();
      return;
    }

    const fragment = parse(text);
    if (!answer.redirected && fragment.querySelector(".scan")) {
      this.failures = 0;
      this.remove(scan);
      this.events.answered(scan, fragment);
    } else if (answer.redirected || answer.status === 401 || answer.status === 403) {
      this.stop({ kind: "sign-in" });
    } else if (answer.status === 429 || answer.status >= 502) {
      this.backOff(Number(answer.headers.get("Retry-After")) * 1000);
    } else {
      // Going on would attach the next barcode to the wrong sheet. A person decides.
      this.stop({ kind: "refused", status: answer.status });
    }
  }

  private body(scan: Scan): URLSearchParams {
    const body = new URLSearchParams(scan.fields.map(([name, value]) => [name, value]));
    const token = this.events.token();
    if (token) { body.set(token[0], token[1]); }
    return body;
  }

  private backOff(asked = 0): void {
    this.failures += 1;
    const steps = Math.min(longestWait, 1000 * 2 ** (this.failures - 1));
    const wait = Math.max(asked || 0, steps * (0.8 + Math.random() * 0.4));
    this.stop({ kind: "network", again: wait });
    this.timer = window.setTimeout(() => this.retry(), wait);
  }

  private stop(stall: Stall): void {
    this.stall = stall;
    this.tell();
  }

  private remove(scan: Scan): void {
    this.waiting = this.waiting.filter(other => other.key !== scan.key);
    write(this.place, read(this.place).filter(other => other.key !== scan.key));
    this.tell();
  }

  private tell(): void { this.events.changed(this.waiting, this.stall); }
}

/** By this computer's own clock, so that it says the same where that clock is wrong. */
function ageOf(scan: Scan): string {
  return String(Math.max(0, Math.round(Date.now() - Date.parse(scan.at))));
}

/** A template's content belongs to a document without a window: nothing in it runs or loads. */
function parse(text: string): DocumentFragment {
  const template = document.createElement("template");
  template.innerHTML = text;
  return template.content;
}

function read(place: string): Scan[] {
  try {
    return JSON.parse(localStorage.getItem(place) ?? "[]") as Scan[];
  } catch {
    return [];
  }
}

function write(place: string, scans: readonly Scan[]): void {
  try {
    localStorage.setItem(place, JSON.stringify(scans));
    if (scans.length === 0) { localStorage.removeItem(place); }
  } catch {
    // No storage (a locked-down browser, a full disk): the queue still works while the page is open, and the scan line
    // asks before the page is left.
  }
}

/** Where one person's scans for one line are kept. */
export function placeOf(who: string, line: string): string { return `${prefix}${encodeURIComponent(who)}.${line}`; }

/** The queues on this computer that still hold scans, whoever made them. */
export function leftBehind(): Array<{ who: string; page: string; count: number }> {
  return places().map(place => {
    const scans = read(place);
    const who = decodeURIComponent(place.slice(prefix.length).split(".")[0] ?? "");
    return { who, page: scans[0]?.page ?? "/", count: scans.length };
  }).filter(left => left.count > 0);
}

function places(): string[] {
  try {
    return Object.keys(localStorage).filter(place => place.startsWith(prefix));
  } catch {
    return [];
  }
}

/** A random UUID, also on a plain-http intranet where crypto.randomUUID does not exist. */
export function requestKey(): string {
  if (typeof crypto.randomUUID === "function") { return crypto.randomUUID(); }
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6]! & 0x0f) | 0x40;
  bytes[8] = (bytes[8]! & 0x3f) | 0x80;
  const hex = Array.from(bytes, byte => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}
