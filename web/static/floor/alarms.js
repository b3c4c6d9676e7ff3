// @ts-check
/** When to sound: while something is due and nobody has answered, again and again. */

/** Seconds between alarms, starting guess. */
const EVERY = 4;

export class Alarms {
  /** @param {import("./sound.js").Sound} sound */
  constructor(sound) {
    this.sound = sound;
    this.last = 0;
  }

  /** @param {{due: number, heard: boolean}[]} timers @param {number} now minutes */
  tell(timers, now) {
    const seconds = Date.now() / 1000;
    if (!timers.some((one) => one.due <= now && !one.heard) || seconds - this.last < EVERY) return;
    this.last = seconds;
    this.sound.alarm();
  }
}
