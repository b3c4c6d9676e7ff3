// Spares steps on the sous chef's pages; they all work without it.

/**
 * Enter goes on to the next figure, as the keypad's own key says: it is pressed after every count.
 * @param {KeyboardEvent} event
 */
function goOn(event) {
  const field = event.target;
  if (event.key !== "Enter" || !(field instanceof HTMLInputElement) || !field.form) return;
  if (!field.classList.contains("figure")) return;
  event.preventDefault();
  /** @type {NodeListOf<HTMLInputElement>} */
  const found = field.form.querySelectorAll("input.figure");
  const figures = [...found];
  const next = figures.slice(figures.indexOf(field) + 1).find((one) => one.checkVisibility());
  next?.focus();
  next?.select();
}

document.addEventListener("keydown", goOn);

/**
 * A form goes once, however often a wet finger taps.
 * @param {SubmitEvent} event
 */
function once(event) {
  const form = event.target;
  if (!(form instanceof HTMLFormElement) || form.method !== "post") return;
  if (form.dataset.sent) event.preventDefault();
  form.dataset.sent = "yes";
}

document.addEventListener("submit", once);
// A page that is gone back to is shown as it was left: its forms may go again.
window.addEventListener("pageshow", () => {
  for (const form of document.forms) delete form.dataset.sent;
});

/** Milliseconds without a word from the server after which a page that is renewed loads again. */
const SILENCE = 12_000;
/** The same where the library that renews it has not loaded. */
const ALONE = 3_000;

/**
 * A page that is renewed while a plan is made never stands still, whatever becomes of its stream.
 * @param {Element} live
 */
function keepUp(live) {
  let heard = Date.now();
  const hear = () => {
    heard = Date.now();
  };
  live.addEventListener("htmx:sse:after:message", hear);
  const limit = "htmx" in window ? SILENCE : ALONE;
  setInterval(() => {
    const over = live.querySelector(".over") !== null;
    if (!over && !document.hidden && Date.now() - heard > limit) location.reload();
  }, 1_000);
}

const live = document.querySelector("#progress[hx-sse\\:connect]");
if (live) keepUp(live);
