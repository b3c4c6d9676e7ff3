// @ts-check
/// <reference lib="webworker" />
/**
 * The service worker of the floor: pages from the network, and from the device where that is slow or
 * away; static files from the device first where their address says which they are.
 */
// biome-ignore lint/suspicious/noRedundantUseStrict: it is loaded as a classic script.
"use strict";

const PAGES = "floor-pages-1";
const STATIC = "floor-static-1";
/** Milliseconds before the page that is kept is shown; starting guess. */
const PATIENCE = 3000;
/** More pages than a kitchen has cooks are another day's; starting guess. */
const MOST_PAGES = 40;
const MOST_STATIC = 80;
/** /static/0123456789ab/...: another file is another address. */
const VERSIONED = /^\/static\/[0-9a-f]{12}\//;

const worker = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));

worker.addEventListener("install", () => void worker.skipWaiting());

worker.addEventListener("activate", (event) => {
  event.waitUntil(tidy().then(() => worker.clients.claim()));
});

worker.addEventListener("message", (event) => {
  // What was loaded before this worker was there.
  const addresses = /** @type {string[]} */ (event.data?.keep ?? []);
  event.waitUntil(Promise.all(addresses.map(keepOne)));
});

worker.addEventListener("fetch", (event) => {
  const { request } = event;
  const address = new URL(request.url);
  if (request.method !== "GET" || address.origin !== location.origin) return;
  if (address.pathname.startsWith("/static/"))
    event.respondWith(VERSIONED.test(address.pathname) ? keptFirst(event) : networkFirst(event, STATIC));
  else if (address.pathname.startsWith("/floor/") && (request.headers.get("Accept") ?? "").includes("text/html"))
    event.respondWith(networkFirst(event, PAGES));
});

/** @param {FetchEvent} event */
async function keptFirst(event) {
  const found = await caches.match(event.request);
  if (found) return found;
  const response = await fetch(event.request);
  if (response.ok) event.waitUntil(put(STATIC, event.request.url, response.clone()));
  return response;
}

/** @param {FetchEvent} event @param {string} cache */
async function networkFirst(event, cache) {
  const asked = fetch(event.request).then((response) => {
    if (response.ok) event.waitUntil(put(cache, event.request.url, response.clone()));
    return response;
  });
  const patience = new Promise((done) => setTimeout(done, PATIENCE, null));
  const first = await Promise.race([asked.catch(() => null), patience]);
  // A server in trouble is as good as none: what is kept can be worked by.
  if (first && first.status < 500) return first;
  return (await caches.match(event.request.url)) ?? asked;
}

/** @param {string} address */
async function keepOne(address) {
  try {
    const path = new URL(address).pathname;
    if (VERSIONED.test(path) && (await caches.match(address))) return;
    const response = await fetch(address, { headers: { Accept: "text/html, */*" } });
    if (response.ok) await put(path.startsWith("/static/") ? STATIC : PAGES, address, response);
  } catch {
    // No network: what is kept already stays.
  }
}

/** @param {string} cache @param {string} address @param {Response} response */
async function put(cache, address, response) {
  const kept = await caches.open(cache);
  await kept.delete(address);
  await kept.put(address, response);
  const most = cache === PAGES ? MOST_PAGES : MOST_STATIC;
  const names = await kept.keys();
  // Oldest first: they come back in the order they were put.
  await Promise.all(names.slice(0, Math.max(0, names.length - most)).map((name) => kept.delete(name)));
}

async function tidy() {
  const names = await caches.keys();
  const old = names.filter((name) => name.startsWith("floor-") && name !== PAGES && name !== STATIC);
  await Promise.all(old.map((name) => caches.delete(name)));
}
