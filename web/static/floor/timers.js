// @ts-check
/** What runs by itself: a line each with its count-down. */
import { countdown, filled, overdue } from "./clock.js";
import { part } from "./view.js";

/** @typedef {import("./clock.js").Clock} Clock */
/** @typedef {import("./progress.js").Timer} Timer */

/** Minutes before it is ready from which it may be taken out by a tap; else from its own line in the
 * list. Starting guess. */
const EARLY = 5;

/** @param {Timer[]} timers @param {Record<string, string>} words @param {Clock} clock */
export function showTimers(timers, words, clock) {
  part("running").hidden = timers.length === 0;
  const list = part("timers");
  const template = /** @type {HTMLTemplateElement} */ (document.getElementById("timer"));
  const now = clock.now();
  const before = new Map([...list.children].map((item) => [/** @type {HTMLElement} */ (item).dataset.task, item]));
  const items = timers.map((one) => {
    const known = /** @type {HTMLElement|undefined} */ (before.get(one.tasks[0]));
    const item = known ?? /** @type {HTMLElement} */ (template.content.firstElementChild?.cloneNode(true));
    item.dataset.task = one.tasks[0];
    const over = one.due <= now;
    item.classList.toggle("is-due", over);
    write(part("what", item), one.what);
    const lots = one.lots > 1 ? `, ${filled(words.lots_in, { lots: one.lots })}` : "";
    write(part("place", item), `${one.place}${lots}`);
    write(part("left", item), over ? overdue(now - one.due, words) : countdown(one.due - now));
    write(part("due-text", item), filled(words.ready_at, { time: clock.text(one.due) }));
    part("hear", item).hidden = !over || one.heard;
    part("take-out", item).hidden = one.takeOuts.length === 0 || one.due - now > EARLY;
    return item;
  });
  if (items.length !== list.children.length || items.some((item, index) => list.children[index] !== item))
    list.replaceChildren(...items);
}

/** Only what changes: a screen reader need not hear the rest. @param {HTMLElement} place @param {string} text */
function write(place, text) {
  if (place.textContent !== text) place.textContent = text;
}
