// @ts-check
/** Ticks folded into where the floor stands, as the server does it (planner/floor/state.py). */

/** @typedef {import("./types.js").Floor} Floor */
/** @typedef {import("./types.js").Said} Said */
/** @typedef {import("./types.js").Tick} Tick */
/** @typedef {import("./types.js").TaskState} TaskState */

/**
 * What the server knows, and on top of it what this device said that the server may not know yet.
 * The first of several that say the same counts, so it does not matter which are known already.
 *
 * @param {Floor} known
 * @param {Tick[]} ticks
 * @param {(iso: string) => number} minutes
 * @returns {Floor}
 */
export function fold(known, ticks, minutes) {
  const gone = new Set(ticks.filter((tick) => tick.act === "taken back").map((tick) => tick.takes_back));
  const floor = without(known, gone);
  const counting = ticks
    .filter((tick) => !gone.has(tick.key))
    .map((tick) => ({ tick, said: { at: minutes(tick.at), cook: tick.cook, key: tick.key } }))
    .sort((a, b) => compare(a.said, b.said));
  for (const { tick, said } of counting) {
    if (tick.act === "problem") {
      if (!floor.problems.some((one) => one.said.key === said.key))
        floor.problems.push({ said, tasks: tick.tasks, reason: tick.reason });
    } else if (tick.act === "weighed" && tick.weight) {
      if (!floor.weighings.some((one) => one.said.key === said.key))
        floor.weighings.push({ said, tasks: tick.tasks, weight: tick.weight });
    } else if (tick.act === "begun" || tick.act === "done" || tick.act === "heard") {
      for (const task of tick.tasks)
        floor.tasks[task] = told(floor.tasks[task] ?? UNTOUCHED, tick.act, said);
    }
  }
  return floor;
}

/** @type {TaskState} */
const UNTOUCHED = { begun: null, done: null, heard: null };

/** What is known of a task. @param {Floor} floor @param {string} task @returns {TaskState} */
export function of(floor, task) {
  return floor.tasks[task] ?? UNTOUCHED;
}

/** @param {Said} a @param {Said} b */
function compare(a, b) {
  return a.at - b.at || (a.key < b.key ? -1 : a.key > b.key ? 1 : 0);
}

/** @param {TaskState} before @param {"begun"|"done"|"heard"} act @param {Said} said @returns {TaskState} */
function told(before, act, said) {
  const known = before[act];
  if (known && compare(known, said) <= 0) return before;
  if (act === "begun" && before.done && compare(before.done, said) < 0) return before;
  const after = { ...before, [act]: said };
  if (act === "done" && after.begun && compare(said, after.begun) < 0) after.begun = null;
  return after;
}

/** @param {Floor} floor @param {Set<string>} gone @returns {Floor} */
function without(floor, gone) {
  const left = (/** @type {Said|null} */ said) => (said && !gone.has(said.key) ? said : null);
  /** @type {Record<string, TaskState>} */
  const tasks = {};
  for (const [task, state] of Object.entries(floor.tasks))
    tasks[task] = { begun: left(state.begun), done: left(state.done), heard: left(state.heard) };
  return {
    tasks,
    problems: floor.problems.filter((one) => !gone.has(one.said.key)),
    weighings: floor.weighings.filter((one) => !gone.has(one.said.key)),
  };
}
