// @ts-check
/** Keeps the screen on while something runs. Source: Screen Wake Lock API, W3C. */

export class Awake extends EventTarget {
  constructor() {
    super();
    this.possible = "wakeLock" in navigator;
    this.wanted = false;
    /** @type {WakeLockSentinel|null} */
    this.lock = null;
    document.addEventListener("visibilitychange", () => void this.settle());
  }

  /** @param {boolean} wanted */
  want(wanted) {
    if (wanted === this.wanted) return;
    this.wanted = wanted;
    void this.settle();
  }

  held() {
    return this.lock !== null && !this.lock.released;
  }

  async settle() {
    try {
      if (!this.possible) return;
      if (this.wanted && !this.held() && document.visibilityState === "visible") {
        this.lock = await navigator.wakeLock.request("screen");
        this.lock.addEventListener("release", () => this.dispatchEvent(new Event("change")));
        if (!this.wanted) await this.lock.release();
      } else if (!this.wanted && this.lock) {
        await this.lock.release();
        this.lock = null;
      }
    } catch {
      // A low battery may refuse it: the page then says that the screen may sleep.
    }
    this.dispatchEvent(new Event("change"));
  }
}
