// @ts-check
/** What taps say: each is a tick at once, and can be taken back for a while. */
import { filled } from "./clock.js";
import { part, reasonWords } from "./view.js";
import { weighing } from "./weigh.js";

/** @typedef {import("./progress.js").Progress} Progress */
/** @typedef {import("./types.js").State} State */
/** @typedef {import("./types.js").Tick} Tick */
/** @typedef {ReturnType<typeof import("./progress.js").running>} Timers */
/** @typedef {{shown: Progress|null, all: Progress[], timers: Timers}} Seen */

/** Milliseconds for which a tap can be taken back with one tap; starting guess. */
const UNDO = 60000;
/** Milliseconds in which a second tap of wet fingers does nothing; starting guess. */
const GUARD = 900;

export class Taps {
  /**
   * @param {State} state @param {import("./queue.js").Queue} queue
   * @param {import("./clock.js").Clock} clock @param {() => Seen} look
   * @param {(number: number) => void} pick
   */
  constructor(state, queue, clock, look, pick) {
    this.state = state;
    this.queue = queue;
    this.clock = clock;
    this.look = look;
    this.pick = pick;
    this.guard = 0;
    /** @type {ReturnType<typeof setTimeout>|undefined} */
    this.forgetting = undefined;
    /** @type {Tick|null} the report that a reason may still be given for */
    this.report = null;
    this.weigh = weighing(dialog("weigh"), state, (batch, weight, text) =>
      this.say({ act: "weighed", tasks: batch.tasks, weight }, filled(this.words.weighed, {
        number: batch.number, title: batch.title, weight: text })));
    this.listen();
  }

  get words() {
    return this.state.words;
  }

  listen() {
    act("start").addEventListener("click", () => this.tap(() => this.start()));
    act("finish").addEventListener("click", () => this.tap(() => this.finish()));
    act("problem").addEventListener("click", () => this.tap(() => this.problem()));
    document.addEventListener("click", (event) => {
      const button = /** @type {Element} */ (event.target).closest("button");
      if (button) this.clicked(button);
    });
    const own = part("own-reason");
    own.addEventListener("submit", () => {
      const input = /** @type {HTMLInputElement} */ (own.querySelector("input"));
      this.because(input.value.trim());
      input.value = "";
    });
  }

  /** Buttons that come and go with what they belong to. @param {HTMLButtonElement} button */
  clicked(button) {
    const job = /** @type {HTMLElement|null} */ (button.closest("[data-job]"));
    const one = this.look().all.find((each) => String(each.batch.number) === job?.dataset.job);
    const timer = /** @type {HTMLElement|null} */ (button.closest("[data-task]"));
    const data = button.dataset;
    if (data.reason) {
      dialog("problem").close();
      this.because(data.reason);
    } else if (data.dismiss) this.queue.dismiss(data.dismiss);
    else if (data.back) this.takeBack(data.back, data.what ?? "");
    else if (data.solved && one) this.takeBack(data.solved, named(one, this.words.problem));
    else if (timer && "hear" in data) this.hear(timer.dataset.task ?? "");
    else if (timer && "takeOut" in data) this.takeOut(timer.dataset.task ?? "");
    else if (one && "pick" in data) this.pick(one.batch.number);
    else if (one && "weighOpen" in data) this.weigh(one.batch);
    else if (one && "allLots" in data) this.done(one, one.open);
    else if (one && "notDone" in data && one.done) this.takeBack(one.done.key, named(one, this.words.finish));
  }

  /** @param {() => void} what */
  tap(what) {
    const now = Date.now();
    if (now < this.guard) return;
    this.guard = now + GUARD;
    const before = this.look().shown;
    what();
    // Another batch is at hand: it is read from its head.
    if (before && this.look().shown?.batch !== before.batch) part("now-title").scrollIntoView({ block: "start" });
  }

  start() {
    const one = this.look().shown;
    if (one?.stage !== "to do") return;
    const tasks = one.batch.byLot ? one.open.slice(0, 1) : one.batch.tasks;
    this.say({ act: "begun", tasks }, this.named("started", one));
  }

  finish() {
    const one = this.look().shown;
    if (one?.open.length) this.done(one, one.batch.byLot ? one.open.slice(0, 1) : one.open);
  }

  /** @param {Progress} one @param {string[]} tasks */
  done(one, tasks) {
    const lot = one.batch.tasks.length - one.open.length + 1;
    const part = tasks.length < one.open.length;
    this.say({ act: "done", tasks }, this.named(part ? "lot_done" : "finished", one, { lot }));
  }

  problem() {
    const one = this.look().shown;
    if (!one) return;
    this.report = this.say(
      { act: "problem", tasks: one.batch.tasks, reason: this.state.asks },
      this.named("reported", one));
    dialog("problem").showModal();
  }

  /** The reason of what was just reported. @param {string} reason */
  because(reason) {
    const report = this.report;
    this.report = null;
    if (!report || !reason) return;
    const what = filled(this.words.because, { reason: reasonWords(this.state, reason) });
    this.say({ act: "taken back", tasks: [], takes_back: report.key }, what);
    this.say({ act: "problem", tasks: report.tasks, reason }, what);
  }

  /** @param {string} task */
  hear(task) {
    const timer = this.look().timers.find((one) => one.tasks.includes(task));
    if (timer) this.say({ act: "heard", tasks: timer.tasks }, filled(this.words.heard, { title: timer.what }));
  }

  /** @param {string} task */
  takeOut(task) {
    const timer = this.look().timers.find((one) => one.tasks.includes(task));
    if (!timer?.takeOuts.length) return;
    const what = filled(this.words.taken_out, { title: timer.what, time: this.clock.text(this.clock.now()) });
    this.say({ act: "done", tasks: timer.takeOuts }, what);
  }

  /** @param {string} key @param {string} what */
  takeBack(key, what) {
    this.say({ act: "taken back", tasks: [], takes_back: key }, filled(this.words.taken_back, { what }));
  }

  /** @param {{act: string, tasks: string[], reason?: string, weight?: Tick["weight"], takes_back?: string}} said
   * @param {string} what @returns {Tick} */
  say(said, what) {
    const whole = { cook: this.state.cook, reason: "", weight: null, takes_back: "", ...said };
    const tick = this.queue.say(whole, what);
    this.tell(what, said.act === "taken back" ? null : tick.key);
    return tick;
  }

  /** @param {string} what @param {string|null} key */
  tell(what, key) {
    clearTimeout(this.forgetting);
    const said = part("said");
    said.replaceChildren(Object.assign(document.createElement("span"), { textContent: what }));
    if (key) {
      const undo = Object.assign(document.createElement("button"), {
        type: "button", className: "press", textContent: this.words.undo });
      undo.dataset.back = key;
      undo.dataset.what = what;
      said.append(undo);
    }
    this.forgetting = setTimeout(() => said.replaceChildren(), UNDO);
  }

  /** What the bar's buttons do now. @param {Progress|null} shown */
  show(shown) {
    const [start, finish, problem] = [act("start"), act("finish"), act("problem")];
    for (const button of [start, finish, problem]) button.disabled = shown === null;
    const begun = shown?.begun ?? null;
    start.disabled = shown === null || begun !== null;
    start.classList.toggle("strong", begun === null);
    finish.classList.toggle("strong", begun !== null);
    if (!shown) {
      start.textContent = this.words.start;
      finish.textContent = this.words.finish;
      return;
    }
    // With its number: further down the page another batch may be what is being read.
    const { number, tasks, byLot } = shown.batch;
    start.textContent = begun
      ? filled(this.words.started_at, { number, time: this.clock.text(begun.at) })
      : filled(this.words.start_one, { number });
    finish.textContent = byLot && shown.open.length
      ? filled(this.words.finish_lot, { number, lot: tasks.length - shown.open.length + 1, all: tasks.length })
      : filled(this.words.finish_one, { number });
    for (const button of [start, finish, problem])
      button.setAttribute("aria-describedby", `job-${number}`);
  }

  showRefused() {
    const list = part("refused");
    list.replaceChildren(...this.queue.refused().map((one) => {
      const item = document.createElement("li");
      const button = Object.assign(document.createElement("button"), {
        type: "button", className: "press", textContent: this.words.dismiss });
      button.dataset.dismiss = one.key;
      item.append(filled(this.words.refused, one), " ", button);
      return item;
    }));
    list.hidden = list.children.length === 0;
  }

  /** @param {string} word @param {Progress} one @param {Record<string, number>} [more] */
  named(word, one, more = {}) {
    const time = this.clock.text(this.clock.now());
    return filled(this.words[word], { number: one.batch.number, title: one.batch.title, time, ...more });
  }
}

/** @param {Progress} one @param {string} what */
function named(one, what) {
  return `${one.batch.number} ${one.batch.title}: ${what}`;
}

/** @param {string} name @returns {HTMLButtonElement} */
function act(name) {
  return /** @type {HTMLButtonElement} */ (part(`act="${name}"`));
}

/** @param {string} name @returns {HTMLDialogElement} */
function dialog(name) {
  return /** @type {HTMLDialogElement} */ (part(`dialog="${name}"`));
}
