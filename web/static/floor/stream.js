// @ts-check
/** Hears from the server that something changed, and reads the page's data again. */

/** @typedef {import("./types.js").State} State */

/** Seconds between looks where the stream is broken, starting guess. */
const LOOK_AGAIN = 30;

/**
 * @param {string} address
 * @param {(change: {release: number, version: number, now: string}) => void} changed
 */
export function listen(address, changed) {
  /** @type {EventSource|null} */
  let source = null;
  const open = () => {
    source?.close();
    source = new EventSource(address);
    source.addEventListener("floor", (event) => changed(JSON.parse(event.data)));
  };
  open();
  // A browser gives up after some errors: so look now and then whether it has.
  setInterval(() => {
    if (source?.readyState === EventSource.CLOSED) open();
  }, LOOK_AGAIN * 1000);
  addEventListener("online", open);
  // A stream left open keeps the page out of the browser's back-forward cache.
  addEventListener("pagehide", () => source?.close());
  addEventListener("pageshow", (event) => {
    if (event.persisted) open();
  });
}

/** The page's data as the server has it now; null: not reached. @returns {Promise<State|null>} */
export async function reread() {
  try {
    const response = await fetch(location.href, { headers: { Accept: "text/html" } });
    if (!response.ok) return null;
    const page = new DOMParser().parseFromString(await response.text(), "text/html");
    return JSON.parse(page.getElementById("state")?.textContent ?? "null");
  } catch {
    return null;
  }
}
