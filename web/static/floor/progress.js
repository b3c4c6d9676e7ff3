// @ts-check
/** Where batches stand and what runs by itself, as the server tells it (planner/floor/progress.py). */
import { of } from "./fold.js";

/** @typedef {import("./types.js").Alone} Alone */
/** @typedef {import("./types.js").Batch} Batch */
/** @typedef {import("./types.js").Floor} Floor */
/** @typedef {import("./types.js").Said} Said */

/**
 * @typedef {{batch: Batch, stage: "to do"|"under way"|"done", begun: Said|null, done: Said|null,
 *   open: string[], reports: {reason: string, key: string}[]}} Progress ``open`` are its tasks not done
 */

/** @param {Batch} batch @param {Floor} floor @returns {Progress} */
export function progress(batch, floor) {
  const states = batch.tasks.map((task) => of(floor, task));
  const said = states.flatMap((state) => [state.begun, state.done]).filter(isSaid);
  const dones = states.map((state) => state.done).filter(isSaid);
  const begun = said.reduce(earlier, null);
  const whole = states.length > 0 && dones.length === states.length;
  const done = whole ? dones.reduce((a, b) => (b.at > a.at ? b : a)) : null;
  return {
    batch,
    stage: done ? "done" : begun ? "under way" : "to do",
    begun,
    done,
    open: batch.tasks.filter((_task, index) => !states[index].done),
    reports: floor.problems
      .filter((one) => one.tasks.some((task) => batch.tasks.includes(task)))
      .map((one) => ({ reason: one.reason, key: one.said.key })),
  };
}

/** The first under way, else the first to do. @param {Progress[]} all @returns {Progress|null} */
export function current(all) {
  return (
    all.find((one) => one.stage === "under way") ?? all.find((one) => one.stage === "to do") ?? null
  );
}

/**
 * @typedef {{tasks: string[], what: string, place: string, due: number, heard: boolean,
 *   takeOuts: string[], lots: number}} Timer
 */

/** Minutes: lots of one name that are ready so close together are taken out together. */
const TOGETHER = 1;

/**
 * What runs by itself now, the next to be done first.
 * @param {Alone[]} alone @param {Floor} floor @returns {Timer[]}
 */
export function running(alone, floor) {
  const found = alone
    .flatMap((one) => {
      const state = of(floor, one.task);
      const over = one.takeOut === null ? state.heard : of(floor, one.takeOut).done;
      if (!state.done || over) return [];
      return [{ ...one, due: state.done.at + one.minutes, heard: state.heard !== null }];
    })
    .sort((a, b) => a.due - b.due || (a.task < b.task ? -1 : 1));
  /** @type {Timer[]} */
  const timers = [];
  for (const one of found) {
    const takeOuts = one.takeOut === null ? [] : [one.takeOut];
    const same = timers.find((each) => each.what === one.what && each.place === one.place
      && one.due - each.due < TOGETHER);
    if (same) {
      same.tasks.push(one.task);
      same.takeOuts.push(...takeOuts.filter((task) => !same.takeOuts.includes(task)));
      same.heard &&= one.heard;
      same.lots += 1;
    } else {
      const { what, place, due, heard } = one;
      timers.push({ tasks: [one.task], what, place, due, heard, takeOuts, lots: 1 });
    }
  }
  return timers;
}

/** @param {Said|null} said @returns {said is Said} */
function isSaid(said) {
  return said !== null;
}

/** @param {Said|null} a @param {Said} b @returns {Said} */
function earlier(a, b) {
  return a === null || b.at < a.at ? b : a;
}
