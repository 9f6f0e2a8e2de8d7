// Shows review pages without signal. Pages: from the network first, the last good one otherwise. Files: by their fingerprint, kept.
// It never answers a POST. VERSION is written above by the server. To switch it off: post it {stop: true}.
"use strict";

const FILES = `wallseat-files-${VERSION}`, PAGES = "wallseat-pages";
const PAGE = /^\/jobs\/\d+\/review\/\d+(\/.*)?$/, PHOTO = /^\/jobs\/\d+\/review\/\d+\/photos\/\d+$/;
const PATIENCE = 6000; // with a kept page at hand, longer waiting for weak signal helps nobody

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

self.addEventListener("fetch", (event) => {
  const { request } = event, url = new URL(request.url);
  if (url.origin !== self.location.origin) return;
  if (request.method === "POST" && url.pathname === "/sign-out") event.waitUntil(caches.delete(PAGES));
  if (request.method !== "GET") return;
  if (url.pathname.startsWith("/static/") && url.searchParams.has("v")) event.respondWith(kept(request, FILES));
  else if (PHOTO.test(url.pathname)) event.respondWith(kept(request, PAGES));
  else if (request.mode === "navigate" && PAGE.test(url.pathname)) event.respondWith(page(event));
});

async function kept(request, name) {
  const found = await caches.match(request);
  if (found) return found;
  const answer = await fetch(request);
  if (answer.status === 200 && !answer.redirected) await (await caches.open(name)).put(request, answer.clone());
  return answer;
}

async function page(event) {
  const store = await caches.open(PAGES);
  const found = await store.match(event.request);
  const fresh = fromNetwork(event.request, store);
  if (!found) return fresh.catch(notHere);
  event.waitUntil(fresh.catch(() => undefined));
  const slow = new Promise((resolve) => setTimeout(resolve, PATIENCE, null));
  const answer = await Promise.race([fresh.catch(() => null), slow]);
  // a session that has ended leads to signing in; without the page nothing more could be found, so it is shown, and sending asks
  return answer && answer.status < 500 && answer.type !== "opaqueredirect" ? answer : found;
}

async function fromNetwork(request, store) {
  const answer = await fetch(request);
  if (answer.status === 200 && !answer.redirected && answer.type === "basic") await store.put(request, answer.clone());
  else if (answer.status === 403 || answer.status === 404) await store.delete(request);
  return answer;
}

function notHere() {
  const text = `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<title>Not on this device, Wallseat</title><h1>Not on this device</h1><p>There is no signal, and this page was not taken along. What you
have entered is still here and is sent when there is signal.</p></html>`;
  return new Response(text, { status: 503, headers: { "Content-Type": "text/html; charset=utf-8" } });
}

self.addEventListener("message", (event) => {
  if (event.data.files) event.waitUntil(keepFiles(event.data.files, event.ports[0]));
  if (event.data.stop) event.waitUntil(stop());
});

// The files of a review just taken along; files of releases before it are needed no longer.
async function keepFiles(files, port) {
  try {
    const store = await caches.open(FILES);
    await Promise.all(files.map(async (file) => (await store.match(file)) || store.add(file)));
    for (const name of await caches.keys()) if (name.startsWith("wallseat-files-") && name !== FILES) await caches.delete(name);
    port.postMessage("kept");
  } catch (error) {
    port.postMessage(`A file could not be kept (${error.message}).`);
  }
}

async function stop() {
  for (const name of await caches.keys()) if (name.startsWith("wallseat-")) await caches.delete(name);
  await self.registration.unregister();
}
