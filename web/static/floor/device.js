// @ts-check
/** What this device keeps of its own: its name, its settings. */

const PREFIX = "prepwright.";

/** @type {Map<string, string>} what there is where the browser keeps nothing */
const memory = new Map();

/** Whether what is kept outlives the page. */
export const keeps = (() => {
  try {
    localStorage.setItem(`${PREFIX}probe`, "1");
    localStorage.removeItem(`${PREFIX}probe`);
    return true;
  } catch {
    return false;
  }
})();

/** @param {string} name @returns {string|null} */
export function kept(name) {
  return (keeps ? localStorage.getItem(PREFIX + name) : null) ?? memory.get(name) ?? null;
}

/** @param {string} name @param {string} value */
export function keep(name, value) {
  try {
    if (keeps) {
      localStorage.setItem(PREFIX + name, value);
      return;
    }
  } catch {
    // Full: better kept until the page closes than lost.
  }
  memory.set(name, value);
}

/** @param {string} name */
export function forget(name) {
  if (keeps) localStorage.removeItem(PREFIX + name);
  memory.delete(name);
}

/** Names of what is kept that begin so, sorted. @param {string} start @returns {string[]} */
export function names(start) {
  const stored = keeps ? Object.keys(localStorage) : [];
  const own = stored.filter((name) => name.startsWith(PREFIX)).map((name) => name.slice(PREFIX.length));
  return [...new Set([...own, ...memory.keys()])].filter((name) => name.startsWith(start)).sort();
}

/** A random UUID, RFC 9562 version 4; crypto.randomUUID needs a secure context, this does not. */
export function uuid() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

/** The device's name for the server. */
export function device() {
  const known = kept("device");
  if (known) return known;
  const made = uuid();
  keep("device", made);
  return made;
}
