// @ts-check
/** The wall: keeps time between two looks at the server, counts down, and sounds. */
import { Alarms } from "./alarms.js";
import { Clock, countdown, filled, overdue } from "./clock.js";
import { Sound } from "./sound.js";

const state = JSON.parse(document.getElementById("state")?.textContent ?? "null");
const clock = new Clock(state, state.clock);
const sound = new Sound();
const alarms = new Alarms(sound);
/** @type {string|null} since when nothing was heard from the server */
let since = null;

function beat() {
  const now = clock.now();
  const wall = document.querySelector("[data-clock]");
  if (wall) wall.textContent = clock.text(now);
  /** @type {{due: number, heard: boolean}[]} */
  const timers = [];
  for (const item of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-due]"))) {
    const due = Number(item.dataset.due);
    timers.push({ due, heard: "heard" in item.dataset });
    item.classList.toggle("is-due", due <= now);
    const left = item.querySelector("[data-left]");
    if (left) left.textContent = due <= now ? overdue(now - due, state.words) : countdown(due - now);
  }
  moveLine(now);
  alarms.tell(timers, now);
  tell();
}

/** @param {number} now */
function moveLine(now) {
  const line = /** @type {SVGElement|null} */ (document.querySelector("[data-now-line]"));
  if (!line) return;
  const [left, right, start, end] = ["left", "right", "start", "end"].map((name) => Number(line.dataset[name]));
  const x = String(left + ((Math.min(Math.max(now, start), end) - start) / (end - start)) * (right - left));
  line.setAttribute("x1", x);
  line.setAttribute("x2", x);
  const told = document.querySelector("[data-now-words]");
  told?.setAttribute("x", x);
  if (told) told.textContent = clock.text(now);
}

function tell() {
  const notice = /** @type {HTMLElement} */ (document.querySelector("[data-notice]"));
  const text = [
    since ? filled(state.words.since, { time: since }) : "",
    sound.on() ? "" : state.words.sound_off,
  ].filter(Boolean).join(". ");
  if (notice.textContent !== text) notice.textContent = text;
  notice.hidden = !text;
}

for (const name of ["pointerup", "keydown"])
  addEventListener(name, () => void (sound.on() || sound.turnOn()));
document.addEventListener("floor", (event) => {
  since = null;
  const { data } = /** @type {CustomEvent<{data: string}>} */ (event).detail;
  clock.heard(JSON.parse(data).now);
});
for (const name of ["htmx:sse:error", "htmx:sse:close", "htmx:error"])
  document.addEventListener(name, () => {
    since ??= clock.text(clock.now());
  });
setInterval(beat, 1000);
beat();
