// @ts-check
/** The dialog for a load on the scale; the tare of each container is remembered on the device. */
import { filled } from "./clock.js";
import { keep, kept } from "./device.js";

/** @typedef {import("./types.js").Batch} Batch */
/** @typedef {import("./types.js").Weight} Weight */

/**
 * @param {HTMLDialogElement} dialog
 * @param {{unit: {name: string, grams: number}, containers: string[], words: Record<string, string>}} state
 * @param {(batch: Batch, weight: Weight, text: string) => void} weighed
 */
export function weighing(dialog, state, weighed) {
  const form = /** @type {HTMLFormElement} */ (dialog.querySelector("[data-weigh]"));
  const kinds = /** @type {HTMLElement} */ (form.querySelector("[data-kinds]"));
  const containers = /** @type {HTMLElement} */ (form.querySelector("[data-containers]"));
  const net = /** @type {HTMLElement} */ (form.querySelector("[data-net]"));
  const grams = /** @type {HTMLInputElement} */ (form.elements.namedItem("grams"));
  const tare = /** @type {HTMLInputElement} */ (form.elements.namedItem("tare"));
  /** @type {Batch|null} */
  let batch = null;

  for (const unit of dialog.querySelectorAll("[data-unit]")) unit.textContent = state.unit.name;
  choices(containers, "container", [...state.containers.map((name) => [name, name]), ["other", state.words.no_container]]);

  const container = () => new FormData(form).get("container")?.toString() ?? "other";
  const recall = () => {
    tare.value = kept(`tare.${state.unit.name}.${container()}`) ?? "";
    tell();
  };
  const tell = () => {
    const [load, empty] = [number(grams.value), number(tare.value)];
    const wrong = load > 0 && empty >= load;
    tare.setCustomValidity(wrong ? state.words.tare_over : "");
    net.textContent = wrong ? state.words.tare_over
      : load > 0 ? filled(state.words.net, { weight: text(load - empty) }) : "";
  };
  const text = (/** @type {number} */ value) => `${Number(value.toFixed(1))} ${state.unit.name}`;

  containers.addEventListener("change", recall);
  grams.addEventListener("input", tell);
  tare.addEventListener("input", tell);
  dialog.addEventListener("close", () => {
    if (dialog.returnValue !== "keep" || !batch) return;
    const [load, empty] = [number(grams.value), number(tare.value)];
    const choice = batch.scale[Number(new FormData(form).get("kind") ?? 0)];
    keep(`tare.${state.unit.name}.${container()}`, tare.value);
    keep("container", container());
    const weight = {
      kind: choice.kind,
      item: choice.item,
      grams: inGrams(load, state.unit.grams),
      tare_grams: inGrams(empty, state.unit.grams),
    };
    weighed(batch, weight, `${choice.name}, ${text(load - empty)}`);
  });

  return (/** @type {Batch} */ opened) => {
    batch = opened;
    const of = dialog.querySelector("[data-weigh-of]");
    if (of) of.textContent = `${opened.number} ${opened.title}`;
    choices(kinds, "kind", opened.scale.map((one, index) => [String(index), one.name]));
    const last = kept("container");
    for (const input of containers.querySelectorAll("input")) if (input.value === last) input.checked = true;
    grams.value = "";
    recall();
    dialog.returnValue = "";
    dialog.showModal();
    grams.focus();
  };
}

/** Radio buttons, the first chosen. @param {HTMLElement} fieldset @param {string} name
 * @param {string[][]} options value and words */
function choices(fieldset, name, options) {
  for (const old of fieldset.querySelectorAll("label")) old.remove();
  for (const [index, [value, words]] of options.entries()) {
    const label = document.createElement("label");
    const input = document.createElement("input");
    Object.assign(input, { type: "radio", name, value, checked: index === 0 });
    label.className = "choice";
    label.append(input, ` ${words}`);
    fieldset.append(label);
  }
}

/** What a cook typed, with comma or point. @param {string} typed */
function number(typed) {
  return Number(typed.replace(",", ".")) || 0;
}

/** @param {number} value @param {number} unit */
function inGrams(value, unit) {
  return Math.round(value * unit * 10) / 10;
}
