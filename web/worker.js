// The worker that keeps the app on the device. A version is stored whole, every file checked against its SHA-256, or not at all;
// until a newer one is whole, and until it is asked for (or every page is closed), the version that is here goes on working.
const version = {{version}}, scope = {{scope}};
const pages = {{pages}};  // the addresses that are pages
const files = {{files}};  // address: [SHA-256 in hex, length in bytes, media type]
const family = "gapwright:" + scope + ":", cacheName = family + version;

const slashed = path => path.replace(/index\.html$/, "").replace(/\/?$/, "/");
const hex = buffer => Array.from(new Uint8Array(buffer), b => b.toString(16).padStart(2, "0")).join("");

async function stored(cache, file) {
  const answer = await cache.match(file);
  return answer !== undefined && (await answer.blob()).size === files[file][1];
}

// Only a body that arrived whole and is the right one is ever put into the cache.
async function store(cache, file) {
  if (await stored(cache, file)) return;
  const [hash, length, type] = files[file];
  const answer = await fetch(file, { cache: "no-cache" });
  if (!answer.ok) throw new Error(file + ": " + answer.status);
  const body = await answer.arrayBuffer();
  if (body.byteLength !== length || hex(await crypto.subtle.digest("SHA-256", body)) !== hash) throw new Error(file + ": not the file of this version");
  const headers = new Headers(answer.headers);
  headers.delete("content-encoding"); // the body is stored decoded
  headers.delete("content-length");
  headers.set("content-type", type); // whatever a plain host calls it
  await cache.put(file, new Response(body, { headers }));
}

// One after the other: the files share one connection anyway, and a phone need not hold several bodies at once.
async function storeAll(cache) {
  for (const file of Object.keys(files)) await store(cache, file);
}

async function whole() {
  const cache = await caches.open(cacheName);
  try {
    await storeAll(cache); // mends what the browser has thrown away, when the network allows
    return true;
  } catch {
    return false;
  }
}

addEventListener("install", event => event.waitUntil((async () => {
  const begun = await caches.has(cacheName);
  try {
    await storeAll(await caches.open(cacheName));
  } catch (failure) {
    if (!begun) await caches.delete(cacheName); // one that was begun before may be the version in use
    throw failure;
  }
})()));

addEventListener("activate", event => event.waitUntil((async () => {
  for (const name of await caches.keys()) if (name.startsWith(family) && name !== cacheName) await caches.delete(name);
  await clients.claim();
})()));

addEventListener("message", event => {
  switch (event.data && event.data.ask) {
    case "whole?":
      event.waitUntil(whole().then(answer => event.ports[0].postMessage(answer)));
      break;
    case "use new":
      skipWaiting();
      break;
  }
});

addEventListener("fetch", event => {
  const request = event.request, url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== location.origin || !url.pathname.startsWith(scope)) return;
  event.respondWith((async () => {
    let file = url.pathname;
    if (request.mode === "navigate") {
      const place = slashed(file);
      file = pages.includes(place) ? place : file in files ? file : scope;
    }
    const cache = await caches.open(cacheName);
    return await cache.match(file, { ignoreSearch: true }) || fetch(request);
  })());
});
