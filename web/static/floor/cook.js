// @ts-check
/** A cook's live page: a tap shows at once, is kept on the device, and goes to the server when it can. */
import { Alarms } from "./alarms.js";
import { Awake } from "./awake.js";
import { keepChecks } from "./checks.js";
import { Clock, filled } from "./clock.js";
import { keeps } from "./device.js";
import { fold } from "./fold.js";
import { keepPage } from "./offline.js";
import { current, progress, running } from "./progress.js";
import { Queue } from "./queue.js";
import { calibration } from "./scale.js";
import { Sound } from "./sound.js";
import { listen, reread } from "./stream.js";
import { Taps } from "./taps.js";
import { showTimers } from "./timers.js";
import { part, show, tellTime } from "./view.js";

/** @typedef {import("./progress.js").Progress} Progress */

/** @type {import("./types.js").State} */
let state = JSON.parse(document.getElementById("state")?.textContent ?? "null");
const words = state.words;
const clock = new Clock(state, state.clock);
const queue = new Queue(state.ticks, state.release);
const [sound, awake] = [new Sound(), new Awake()];
const alarms = new Alarms(sound);
/** @type {number|null} a batch out of its order */
let picked = null;
let release = state.release;
let kept = false;

/** Where everything stands, this device's own ticks included. */
function look() {
  const floor = fold(state.floor, queue.own(), (iso) => clock.minutes(iso));
  const all = state.batches.map((batch) => progress(batch, floor));
  const chosen = all.find((one) => one.batch.number === picked && one.stage !== "done");
  if (!chosen) picked = null;
  return { floor, all, shown: chosen ?? current(all), timers: running(state.alone, floor) };
}

let seen = look();
const taps = new Taps(state, queue, clock, () => seen, (number) => {
  picked = number;
  render();
  part("now-title").scrollIntoView({ block: "start" });
  part("now-title").focus({ preventScroll: true });
});

function render() {
  seen = look();
  show(state, seen.all, seen.shown, seen.floor, clock);
  taps.show(seen.shown);
  tellSending();
  beat();
}

/** What time alone changes. */
function beat() {
  tellTime(seen.shown, words, clock);
  showTimers(seen.timers, words, clock);
  alarms.tell(seen.timers, clock.now());
  awake.want(seen.timers.length > 0);
}

function tellSending() {
  const count = queue.count();
  const waits = count === 0 ? words.all_sent : count === 1 ? words.one_waits : filled(words.many_wait, { count });
  const trouble = queue.trouble || (navigator.onLine && !queue.failing() ? "" : words.no_network);
  const sending = part("sending");
  const text = [waits, trouble, keeps ? "" : words.not_kept].filter(Boolean).join(", ");
  if (sending.textContent !== text) sending.textContent = text;
  sending.classList.toggle("waits", count > 0);
  taps.showRefused();
}

function tellDevice() {
  part("offline").textContent = kept ? words.kept_offline : words.not_kept_offline;
  part("sound").textContent = !sound.possible ? words.sound_none
    : sound.on() ? words.sound_on : sound.wanted() ? words.sound_tap : words.sound_off;
  part("sound-on").hidden = !sound.possible || sound.on();
  const ask = part("running-sound");
  ask.hidden = sound.on();
  part("awake").textContent = !awake.wanted ? words.awake_idle : awake.held() ? words.awake : words.awake_none;
}

/** Read the server's state again, unless it is another release: a cook is told before the list changes. */
async function refresh() {
  const found = await reread();
  if (!found) return;
  if (found.release !== state.release) {
    tellRelease(found.release);
    return;
  }
  state = found;
  taps.state = found;
  queue.known(state.release, state.version);
  render();
}

/** @param {number} number */
function tellRelease(number) {
  release = number;
  const notice = part("release");
  part("words", notice).textContent = filled(words.other_release, { release: number });
  notice.hidden = false;
}

queue.addEventListener("change", () => render());
queue.known(state.release, state.version);
sound.addEventListener("change", tellDevice);
awake.addEventListener("change", tellDevice);
part("sound-on").addEventListener("click", () => void sound.turnOn());
part("running-sound").addEventListener("click", () => void sound.turnOn());
part("reload").addEventListener("click", () => location.reload());
part("scale").addEventListener("click", calibration(
  /** @type {HTMLDialogElement} */ (part('dialog="scale"')), render));
addEventListener("resize", () => render());
addEventListener("online", tellSending);
addEventListener("offline", tellSending);
document.addEventListener("visibilitychange", () => {
  // Who takes the phone up again begins with the plan that holds.
  if (document.visibilityState === "visible" && release !== state.release) location.reload();
});
listen(state.stream, (change) => {
  clock.heard(change.now);
  if (change.release !== state.release) tellRelease(change.release);
  else if (change.version !== state.version) void refresh();
});
setInterval(beat, 1000);
keepChecks(document, `${state.base}/${state.cook}`);
render();
tellDevice();
part("thumb").hidden = false;
void queue.send();
void keepPage(state.worker).then((done) => {
  kept = done;
  tellDevice();
});
