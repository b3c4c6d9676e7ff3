// @ts-check
/** Boxes to tick off (set-up, pull list) stay ticked on this device. */
import { forget, keep, kept } from "./device.js";

/** @param {ParentNode} root @param {string} day */
export function keepChecks(root, day) {
  for (const [index, box] of /** @type {NodeListOf<HTMLInputElement>} */ (
    root.querySelectorAll("[data-checks] input[type=checkbox]")).entries()) {
    // By what it stands for, not by its words: these change with the language.
    const name = `check.${day}.${index}.${box.value}`;
    box.checked = kept(name) === "1";
    box.addEventListener("change", () => (box.checked ? keep(name, "1") : forget(name)));
  }
}
