(() => { // all of it in brackets: a script of which the end is missing is then no script, and the browser stays with the one that it has
"use strict";

// The worker that keeps the app on the device. A version is stored whole, every file checked against its SHA-256, or it is not used. The version in use
// stays in use, also when every page was closed or ended by the phone, until somebody chooses a newer one: none slips under a job by itself.
const version = {{version}}, scope = {{scope}};
const files = {{files}};  // address: [SHA-256 in hex, length in bytes, media type]
const patience = {{patience}}; // for each 1.2 MB that have begun of a file, in milliseconds: a very slow line has the time that it needs
const family = "gapwright:" + scope + ":", choice = family + "in use";
const own = { name: family + version, files };

const hex = buffer => Array.from(new Uint8Array(buffer), b => b.toString(16).padStart(2, "0")).join("");

// The body as the host sends it now. Nothing is fetched from elsewhere, and a line that only drips is not waited for.
async function fetched(file, length, way) {
  const stop = new AbortController(), timer = setTimeout(() => stop.abort(), patience * Math.ceil(length / 1.2e6));
  try {
    const answer = await fetch(file, { cache: way, mode: "same-origin", signal: stop.signal });
    if (!answer.ok) throw new Error(file + ": " + answer.status);
    return [answer, await answer.arrayBuffer()];
  } finally {
    clearTimeout(timer);
  }
}

// Only a body that arrived whole and is the right one is ever put into a cache.
async function store(cache, file, [hash, length, type]) {
  const there = await cache.match(file);
  if (there && (await there.blob()).size === length) return;
  for (const way of ["no-cache", "reload"]) { // some hosts say that nothing has changed when it has: ask again without telling what is here
    const [answer, body] = await fetched(file, length, way);
    if (body.byteLength !== length || hex(await crypto.subtle.digest("SHA-256", body)) !== hash) continue;
    const headers = new Headers(answer.headers);
    headers.delete("content-encoding"); // the body is stored decoded
    headers.delete("content-length");
    headers.set("content-type", type); // whatever a plain host calls it
    return await cache.put(file, new Response(body, { headers }));
  }
  throw new Error(file + ": not the file of this version");
}

// One after the other: the files share one connection anyway, and a phone need not hold several bodies at once.
async function storeAll({ name, files }) {
  const cache = await caches.open(name);
  for (const file of Object.keys(files)) await store(cache, file, files[file]);
}

// The version in use is the one that was chosen last, as long as the device has it; at first it is this worker's own.
let chosen = null;
const inUse = () => chosen ||= caches.match(scope, { cacheName: choice }).then(async kept => {
  const use = kept && await kept.json();
  return use && await caches.has(use.name) ? use : own;
});

async function choose(use) {
  await (await caches.open(choice)).put(scope, new Response(JSON.stringify(use)));
  chosen = Promise.resolve(use);
  return true;
}

const mended = use => storeAll(use).then(() => true, () => false); // what the browser has thrown away, when the network allows

// Where the version in use can no longer be mended, this worker's own takes its place from the next start on.
async function whole() {
  const use = await inUse();
  return await mended(use) || use.name !== own.name && await mended(own) && await choose(own);
}

addEventListener("install", event => event.waitUntil((async () => {
  try {
    await storeAll(own); // what has arrived when it fails is kept for the next try
  } catch (failure) {
    const full = failure.name === "QuotaExceededError", use = full && await caches.match(scope, { cacheName: choice });
    if (use && (await use.json()).name !== own.name) await caches.delete(own.name); // the room is needed for what people enter
    throw failure;
  }
})()));

async function drop(use) {
  for (const name of await caches.keys()) if (name.startsWith(family) && ![own.name, use.name, choice].includes(name)) await caches.delete(name);
}

addEventListener("activate", event => event.waitUntil((async () => {
  const use = await inUse();
  await choose(use);
  await drop(use);
  await clients.claim();
})()));

// useOwn makes this worker's version the one in use, and tells every page but the one that asked for it.
async function useOwn(asker) {
  await choose(own);
  for (const page of await clients.matchAll({ includeUncontrolled: true })) {
    if (page.id !== asker && page.url.startsWith(registration.scope)) page.postMessage("replaced");
  }
  if (registration.waiting) return await skipWaiting(); // and to drop what is old then
  await drop(own);
}

addEventListener("message", event => {
  const answer = {
    "whole?": whole,
    "newer?": async () => (await inUse()).name !== own.name,
    "use new": () => useOwn(event.source.id).then(() => true),
  }[event.data && event.data.ask];
  if (answer) event.waitUntil(answer().then(said => event.ports[0] && event.ports[0].postMessage(said)));
});

addEventListener("fetch", event => {
  const request = event.request, url = new URL(request.url), path = url.pathname;
  if (request.method !== "GET" || url.origin !== location.origin || !path.startsWith(scope)) return;
  event.respondWith((async () => {
    const cacheName = (await inUse()).name, place = path.replace(/index\.html$/, "").replace(/\/?$/, "/");
    for (const file of request.mode === "navigate" ? [place, path, scope] : [path]) { // an address that nobody knows leads to the first page
      const kept = await caches.match(file, { cacheName });
      if (kept) return kept;
    }
    return fetch(request);
  })());
});
})();
