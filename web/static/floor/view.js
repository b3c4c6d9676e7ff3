// @ts-check
/** Puts where the batches stand on the page: which one is large, what follows, what is done. */
import { filled } from "./clock.js";
import { of } from "./fold.js";
import { draw } from "./scale.js";

/** @typedef {import("./clock.js").Clock} Clock */
/** @typedef {import("./progress.js").Progress} Progress */
/** @typedef {import("./types.js").Floor} Floor */
/** @typedef {import("./types.js").State} State */

/** Minutes behind the plan before it is said; starting guess. */
const SLACK = 3;

/** @param {string} name @param {ParentNode} [root] @returns {HTMLElement} */
export function part(name, root = document) {
  const found = /** @type {HTMLElement|null} */ (root.querySelector(`[data-${name}]`));
  if (!found) throw new Error(`the page has no [data-${name}]`);
  return found;
}

/** A reason in the page's language; what somebody typed stays. @param {State} state @param {string} reason */
export function reasonWords(state, reason) {
  return state.reasons[reason] ?? reason;
}

/** The body of a batch, wherever it stands. @param {number} number @returns {HTMLElement} */
export function jobOf(number) {
  return /** @type {HTMLElement} */ (document.querySelector(`[data-job="${number}"]`));
}

/**
 * @param {State} state @param {Progress[]} all @param {Progress|null} shown
 * @param {Floor} floor @param {Clock} clock
 */
export function show(state, all, shown, floor, clock) {
  const words = state.words;
  for (const one of all) {
    const number = one.batch.number;
    const row = /** @type {HTMLElement} */ (document.querySelector(`[data-row="${number}"]`));
    const told = tell(one, words, clock);
    row.dataset.stage = one.stage;
    part("told", row).textContent = told;
    part("here-told", row).textContent = `${words.here}, ${told}`;
    part("here", row).hidden = one !== shown;
    const details = /** @type {HTMLDetailsElement} */ (row.querySelector("details"));
    details.hidden = one === shown;
    place(number, one === shown);
    body(jobOf(number), one, one === shown, state, floor, clock);
  }
  order(all);
  part("now-title").textContent = !shown ? words.finish
    : shown.stage === "under way" ? words.now_title : words.next_title;
  part("all-done").hidden = shown !== null;
  part("left").textContent = String(all.filter((one) => one.stage !== "done").length);
  part("done-count").textContent = String(all.filter((one) => one.stage === "done").length);
  draw(document, words);
}

/** @param {Progress} one @param {Record<string, string>} words @param {Clock} clock */
function tell(one, words, clock) {
  if (one.done) return filled(words.done, { time: clock.text(one.done.at) });
  const lots = one.batch.byLot && one.open.length < one.batch.tasks.length;
  if (lots) return filled(words.lots, { done: one.batch.tasks.length - one.open.length, all: one.batch.tasks.length });
  if (one.begun) return filled(words.under_way, { time: clock.text(one.begun.at) });
  return words.to_do;
}

/** Move a batch's body above, or home into its line. @param {number} number @param {boolean} above */
function place(number, above) {
  const home = above ? part("now") : part(`home="${number}"`);
  const job = jobOf(number);
  if (job.parentElement !== home) home.append(job);
}

/** Lines in the list they belong to, in order. @param {Progress[]} all */
function order(all) {
  const [next, done] = [part("next"), part("done")];
  for (const list of [next, done]) {
    const wanted = all.filter((one) => (one.stage === "done") === (list === done));
    for (const [index, one] of wanted.entries()) {
      const row = /** @type {HTMLElement} */ (document.querySelector(`[data-row="${one.batch.number}"]`));
      const before = index && document.querySelector(`[data-row="${wanted[index - 1].batch.number}"]`);
      if (row.parentElement === list) continue;
      if (before) before.after(row);
      else list.prepend(row);
    }
  }
}

/**
 * @param {HTMLElement} job @param {Progress} one @param {boolean} shown
 * @param {State} state @param {Floor} floor @param {Clock} clock
 */
function body(job, one, shown, state, floor, clock) {
  const words = state.words;
  const reports = part("reports", job);
  reports.replaceChildren(
    ...one.reports.map(({ reason, key }) => {
      const item = document.createElement("li");
      const solved = document.createElement("button");
      Object.assign(solved, { type: "button", className: "press", textContent: words.solved });
      solved.dataset.solved = key;
      item.append(`${words.problem}: ${reasonWords(state, reason)} `, solved);
      return item;
    }),
    ...floor.weighings
      .filter((weighing) => weighing.tasks.some((task) => one.batch.tasks.includes(task)))
      .map((weighing) => {
        const item = document.createElement("li");
        const net = (weighing.weight.grams - weighing.weight.tare_grams) / state.unit.grams;
        const scale = one.batch.scale.find(
          (each) => each.kind === weighing.weight.kind && each.item === weighing.weight.item);
        item.textContent = filled(words.weight_line, {
          what: scale?.name ?? weighing.weight.kind,
          weight: `${Number(net.toFixed(1))} ${state.unit.name}`,
          time: clock.text(weighing.said.at),
        });
        return item;
      }),
  );
  for (const lot of job.querySelectorAll("[data-lot]")) {
    const done = of(floor, /** @type {HTMLElement} */ (lot).dataset.lot ?? "").done;
    part("lot-told", lot).textContent = done ? filled(words.done, { time: clock.text(done.at) }) : "";
  }
  reveal(job, "all-lots", shown && one.batch.byLot && one.open.length > 1);
  reveal(job, "weigh-open", true);
  reveal(job, "pick", !shown && one.stage !== "done");
  reveal(job, "not-done", one.stage === "done");
}

/** What the clock alone changes. @param {Progress|null} shown @param {Record<string, string>} words @param {Clock} clock */
export function tellTime(shown, words, clock) {
  const now = clock.now();
  part("clock").textContent = clock.text(now);
  for (const row of document.querySelectorAll("[data-end]"))
    /** @type {HTMLElement} */ (row).hidden = Number(/** @type {HTMLElement} */ (row).dataset.end) <= now;
  if (!shown) return;
  const behind = part("behind", jobOf(shown.batch.number));
  const { due, end } = shown.batch;
  const open = shown.stage !== "done";
  behind.hidden = !open || !(now > end + SLACK || (due !== null && now > due));
  behind.textContent = due !== null && now > due
    ? filled(words.late, { time: clock.text(due) })
    : filled(words.behind, { minutes: Math.round(now - end) });
}

/** @param {HTMLElement} root @param {string} name @param {boolean} visible */
function reveal(root, name, visible) {
  const found = /** @type {HTMLElement|null} */ (root.querySelector(`[data-${name}]`));
  if (found) found.hidden = !visible;
}
