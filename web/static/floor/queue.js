// @ts-check
/**
 * Ticks wait on the device until the server has them: in order, once each, whatever the network
 * does. Each is an item of its own in the browser's storage, so that two tabs do not overwrite each
 * other's.
 */
import { device, forget, keep, kept, names, uuid } from "./device.js";

/** @typedef {import("./types.js").Tick} Tick */
/** @typedef {import("./types.js").Waiting} Waiting */
/** @typedef {{what: string, message: string, remedy: string, key: string}} Refused */
/** @typedef {{key: string, outcome: string, error: {message: string, remedy: string}|null}} Received */
/** @typedef {{received: Received[], release: number, version: number}} Answer */

const START = "tick.";
const REFUSED = "refused.";
const MOST = 100;
const TIMEOUT = 15000;
/** Waits between tries, milliseconds: starting guess. */
const WAITS = [1000, 2000, 4000, 8000, 15000, 30000];

export class Queue extends EventTarget {
  /** @param {string} to where this page's ticks go @param {number} release */
  constructor(to, release) {
    super();
    this.to = to;
    this.release = release;
    this.sending = false;
    this.failures = 0;
    /** Why the server took none of the last, in its words. */
    this.trouble = "";
    /** @type {ReturnType<typeof setTimeout>|undefined} */
    this.timer = undefined;
    addEventListener("online", () => void this.send());
    addEventListener("storage", (event) => {
      if (event.key?.includes(START) || event.key?.includes(REFUSED)) this.changed();
    });
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible") void this.send();
    });
  }

  /** Everything on the device, oldest first; other days' too. @returns {(Waiting & {name: string})[]} */
  all() {
    return names(START).flatMap((name) => {
      const text = kept(name);
      return text ? [{ ...JSON.parse(text), name }] : [];
    });
  }

  /** Ticks of this page's release that its data may not have yet. @returns {Tick[]} */
  own() {
    return this.all()
      .filter((one) => one.to === this.to && one.tick.release === this.release)
      .map((one) => one.tick);
  }

  /** How many are not sent yet. */
  count() {
    return this.waiting().length;
  }

  /** @returns {Refused[]} */
  refused() {
    return names(REFUSED).map((name) => JSON.parse(kept(name) ?? "null")).filter(Boolean);
  }

  /** @param {string} key */
  dismiss(key) {
    forget(REFUSED + key);
    this.changed();
  }

  /**
   * Keep a tick and try to send it.
   * @param {Omit<Tick, "key"|"at"|"release">} said @param {string} what it, in words
   * @returns {Tick}
   */
  say(said, what) {
    const now = Date.now();
    // No two the same, and in order also where the clock is set back between them.
    const order = Math.max(now, Number(kept("order") ?? 0) + 1);
    keep("order", String(order));
    /** @type {Tick} */
    const tick = { key: uuid(), release: this.release, at: new Date(now).toISOString(), ...said };
    const waiting = { to: this.to, tick, version: null, what };
    keep(`${START}${String(order).padStart(15, "0")}.${tick.key}`, JSON.stringify(waiting));
    this.changed();
    void this.send();
    return tick;
  }

  /** Forget what the page's data has. @param {number} release @param {number} version */
  known(release, version) {
    for (const one of this.all())
      if (one.to === this.to && one.version !== null
        && (one.tick.release < release || one.version <= version)) forget(one.name);
    this.changed();
  }

  /** Send what waits, oldest first; what fails is sent again later. Nothing is dropped unheard. */
  async send() {
    if (this.sending) return;
    this.sending = true;
    clearTimeout(this.timer);
    this.trouble = "";
    let failed = false;
    try {
      const places = new Set(this.waiting().map((one) => one.to));
      // Another day's ticks that the server does not take must not hold up this day's.
      for (const to of places) failed = !(await this.sendTo(to)) || failed;
    } finally {
      this.sending = false;
    }
    this.failures = failed ? this.failures + 1 : 0;
    if (failed) {
      const wait = WAITS[Math.min(this.failures, WAITS.length) - 1];
      this.timer = setTimeout(() => void this.send(), wait);
    } else if (this.waiting().length) {
      void this.send();
    }
    this.changed();
  }

  /** Whether the last try failed. */
  failing() {
    return this.failures > 0;
  }

  waiting() {
    return this.all().filter((one) => one.version === null);
  }

  /** @param {string} to @returns {Promise<boolean>} whether all went out */
  async sendTo(to) {
    for (;;) {
      const part = this.waiting().filter((one) => one.to === to).slice(0, MOST);
      if (!part.length) return true;
      const answer = await this.post(to, part);
      if (!answer) return false;
      for (const one of part) {
        const received = answer.received.find((/** @type {Received} */ each) => each.key === one.tick.key);
        if (received?.outcome === "refused") this.drop(one, received.error);
        else if (received && kept(one.name)) {
          const version = one.tick.release === answer.release ? answer.version : 0;
          keep(one.name, JSON.stringify({ to, tick: one.tick, version, what: one.what }));
        }
      }
      // An answer without a word on any of them must not be asked for again at once.
      if (this.waiting().some((one) => part.some((sent) => sent.name === one.name))) return false;
      this.dispatchEvent(new CustomEvent("sent", { detail: answer }));
    }
  }

  /** @param {string} to @param {Waiting[]} part @returns {Promise<Answer|null>} */
  async post(to, part) {
    try {
      const response = await fetch(to, {
        method: "POST",
        headers: { "Content-Type": "application/json" },
        body: JSON.stringify({
          device: device(),
          sent_at: new Date().toISOString(),
          ticks: part.map((one) => one.tick),
        }),
        signal: AbortSignal.timeout(TIMEOUT),
      });
      const body = await response.json();
      if (response.ok && Array.isArray(body.received)) return body;
      this.trouble = typeof body.detail === "string" ? body.detail : "";
    } catch {
      // No network, or somebody else's answer: it is sent again.
    }
    return null;
  }

  /** @param {Waiting & {name: string}} one @param {{message: string, remedy: string}|null} fault */
  drop(one, fault) {
    const { message, remedy } = fault ?? { message: "", remedy: "" };
    const refused = { what: one.what, message, remedy, key: one.tick.key, tick: one.tick };
    keep(REFUSED + one.tick.key, JSON.stringify(refused));
    forget(one.name);
  }

  changed() {
    this.dispatchEvent(new Event("change"));
  }
}
