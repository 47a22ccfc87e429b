/**
 * Three sounds that cannot be taken for one another by someone who looks at the sheet and not at the screen:
 * done rises, waiting is one level note, stop is low, rough and long.
 */
export type Outcome = "done" | "waiting" | "stop";

const silent = "accession.silent";

const notes: Record<Outcome, ReadonlyArray<readonly [OscillatorType, number, number, number]>> = {
  done: [["sine", 880, 0, 0.07], ["sine", 1320, 0.07, 0.09]],
  waiting: [["triangle", 587, 0, 0.18]],
  stop: [["square", 196, 0, 0.22], ["square", 147, 0.24, 0.4]],
};

let sound: AudioContext | undefined;

export function isSilent(): boolean {
  try { return localStorage.getItem(silent) === "1"; } catch { return false; }
}

export function setSilent(value: boolean): void {
  try { localStorage.setItem(silent, value ? "1" : "0"); } catch { /* remembered for this page only */ }
}

/** Called on a key press: a browser lets a page sound only after its user has done something. */
export function wake(): void {
  if (typeof AudioContext === "undefined" || isSilent()) { return; }
  sound ??= new AudioContext();
  if (sound.state === "suspended") { void sound.resume(); }
}

export function play(outcome: Outcome): void {
  if (!sound || isSilent()) { return; }
  for (const [shape, pitch, after, length] of notes[outcome]) {
    const from = sound.currentTime + after;
    const oscillator = sound.createOscillator();
    const loudness = sound.createGain();
    oscillator.type = shape;
    oscillator.frequency.value = pitch;
    loudness.gain.setValueAtTime(0.0001, from);
    loudness.gain.exponentialRampToValueAtTime(0.25, from + 0.01);
    loudness.gain.exponentialRampToValueAtTime(0.0001, from + length);
    oscillator.connect(loudness).connect(sound.destination);
    oscillator.start(from);
    oscillator.stop(from + length + 0.02);
  }
}
