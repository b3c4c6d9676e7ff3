// @ts-check
/** Cuts at their true size: how many CSS pixels a millimetre of this screen has. */
import { keep, kept } from "./device.js";

/** The short side of a bank card, millimetres, and how much of the long one is drawn: the card lies
 * over the screen's edge. Source: ISO/IEC 7810 ID-1, 85.60 x 53.98 mm. */
const CARD = { width: 53.98, height: 24 };
/** A CSS pixel is nominally 1/96 in; screens differ. Source: CSS Values and Units Level 4. */
const NOMINAL = 96 / 25.4;
const STEP = 0.02;

/** Pixels of a millimetre as set on this device, at today's zoom; null: not set. */
export function pixels() {
  const [size, ratio] = (kept("mm") ?? "").split("/").map(Number);
  return size > 0 && ratio > 0 ? (size * ratio) / devicePixelRatio : null;
}

/** Draw every cut on the page. @param {ParentNode} root @param {Record<string, string>} words */
export function draw(root, words) {
  const size = pixels();
  for (const drawn of root.querySelectorAll("[data-drawn]")) {
    const room = drawn.clientWidth;
    let fits = true;
    for (const face of drawn.querySelectorAll("svg")) {
      const [width, height] = sides(face);
      const unit = size ?? NOMINAL;
      face.setAttribute("width", `${(width * unit).toFixed(1)}px`);
      face.setAttribute("height", `${(height * unit).toFixed(1)}px`);
      if (room && width * unit > room) fits = false;
    }
    for (const face of drawn.querySelectorAll("svg")) face.toggleAttribute("hidden", !fits);
    const told = drawn.querySelector("[data-size-told]");
    if (told) told.textContent = !fits ? words.too_large : size ? words.true_size : words.about_size;
  }
}

/** @param {SVGElement} face @returns {[number, number]} millimetres */
function sides(face) {
  face.dataset.mm ??= `${parseFloat(face.getAttribute("width") ?? "")} ${parseFloat(face.getAttribute("height") ?? "")}`;
  const [width, height] = face.dataset.mm.split(" ").map(Number);
  return [width, height];
}

/** The dialog that sets it. @param {HTMLDialogElement} dialog @param {() => void} changed */
export function calibration(dialog, changed) {
  const slider = /** @type {HTMLInputElement} */ (dialog.querySelector("[name=size]"));
  const card = /** @type {SVGElement} */ (dialog.querySelector("[data-card]"));
  const show = () => {
    card.setAttribute("width", `${CARD.width * Number(slider.value)}px`);
    card.setAttribute("height", `${CARD.height * Number(slider.value)}px`);
  };
  slider.addEventListener("input", show);
  for (const button of dialog.querySelectorAll("[data-step]"))
    button.addEventListener("click", () => {
      const by = Number(/** @type {HTMLElement} */ (button).dataset.step) * STEP;
      slider.value = String(Number(slider.value) + by);
      show();
    });
  dialog.addEventListener("close", () => {
    if (dialog.returnValue !== "keep") return;
    keep("mm", `${slider.value}/${devicePixelRatio}`);
    changed();
  });
  return () => {
    slider.value = String(pixels() ?? NOMINAL);
    show();
    dialog.returnValue = "";
    dialog.showModal();
  };
}
