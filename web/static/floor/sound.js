// @ts-check
/** The alarm: three short tones, made by the browser, so that no file has to be there. */
import { keep, kept } from "./device.js";

const GAP = 0.28;
const TONE = 0.2;
/** Two pitches that carry over a hood fan, hertz: starting guess. */
const PITCHES = [880, 1318.5, 880];

export class Sound extends EventTarget {
  constructor() {
    super();
    /** @type {AudioContext|null} */
    this.context = null;
    this.possible = "AudioContext" in window;
    // Browsers let a page sound only after a tap: the first tap anywhere brings it back.
    if (this.possible && this.wanted()) {
      const wake = () => void this.open();
      addEventListener("pointerup", wake, { once: true });
      addEventListener("keydown", wake, { once: true });
      void this.open();
    }
  }

  /** Whether somebody turned sound on here. */
  wanted() {
    return kept("sound") === "on";
  }

  /** Whether it sounds now. */
  on() {
    return this.context?.state === "running";
  }

  /** Turn it on, from within a tap. */
  async turnOn() {
    keep("sound", "on");
    await this.open();
    this.alarm();
  }

  async open() {
    if (!this.context) {
      this.context = new AudioContext();
      this.context.addEventListener("statechange", () => this.dispatchEvent(new Event("change")));
    }
    // Without a tap this may wait for ever, so nothing waits for it.
    const resumed = this.context.resume().catch(() => undefined);
    await Promise.race([resumed, new Promise((done) => setTimeout(done, 300))]);
    this.dispatchEvent(new Event("change"));
  }

  /** Sound the alarm once. */
  alarm() {
    if (navigator.userActivation?.hasBeenActive) navigator.vibrate?.([300, 150, 300]);
    const context = this.context;
    if (context?.state !== "running") return;
    PITCHES.forEach((pitch, index) => {
      const start = context.currentTime + index * GAP;
      const [tone, volume] = [context.createOscillator(), context.createGain()];
      tone.type = "square";
      tone.frequency.value = pitch;
      volume.gain.setValueAtTime(0.0001, start);
      volume.gain.exponentialRampToValueAtTime(0.4, start + 0.02);
      volume.gain.exponentialRampToValueAtTime(0.0001, start + TONE);
      tone.connect(volume).connect(context.destination);
      tone.start(start);
      tone.stop(start + TONE);
    });
  }
}
