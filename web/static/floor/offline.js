// @ts-check
/** Keeps the page readable without network, where the browser allows it (HTTPS or localhost). */

/** @param {string} worker @returns {Promise<boolean>} whether it is kept */
export async function keepPage(worker) {
  if (!("serviceWorker" in navigator)) return false;
  // A page that the worker served is kept already.
  const served = navigator.serviceWorker.controller !== null;
  try {
    await navigator.serviceWorker.register(worker);
    const ready = await navigator.serviceWorker.ready;
    if (served) return true;
    const used = performance.getEntriesByType("resource").map((entry) => entry.name);
    const own = used.filter((name) => new URL(name).pathname.startsWith("/static"));
    ready.active?.postMessage({ keep: [location.href, ...new Set(own)] });
    return true;
  } catch {
    return false;
  }
}
