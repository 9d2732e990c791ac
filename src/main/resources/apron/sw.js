/*
 * Opens the pilot's pages without a signal, from what pages have kept (see assets/outbox.js), and
 * sends what waits when the browser tells of a signal. The line before this one names the release
 * and its files; with another release it is another file, which is how browsers notice.
 */
'use strict';
importScripts(OUTBOX);

const FILES = 'trestle-files-';
const PAGES = 'trestle-pages-';

/** How long anybody waits for a fresh page while one is kept, in ms: a form is wanted at once. */
const PATIENCE = { form: 400, other: 5000 };

self.addEventListener('install', event => event.waitUntil((async () => {
  await (await caches.open(FILES + RELEASE)).addAll(ASSETS);
  await self.skipWaiting();
})()));

self.addEventListener('activate', event => event.waitUntil((async () => {
  for (const name of await caches.keys()) {
    if (name.startsWith(FILES) && name !== FILES + RELEASE) await caches.delete(name);
  }
  await self.clients.claim();
})()));

self.addEventListener('message', event => event.waitUntil(self.clients.claim()));

self.addEventListener('sync', event => event.waitUntil((async () => {
  // What is left unsent has the browser try again.
  if (await trestleOutbox.send() === 'later') throw new Error('no signal');
})()));

self.addEventListener('fetch', event => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== location.origin) return;
  if (url.pathname.startsWith('/assets/')) event.respondWith(file(request, url));
  else if (request.mode === 'navigate') event.respondWith(page(request, url));
});

async function file(request, url) {
  const kept = await caches.match(request);
  if (kept) return kept;
  try {
    return await fetch(request);
  } catch (failure) {
    // A page kept under the release before names that release's file.
    const name = url.pathname.split('/').pop();
    const now = ASSETS.find(path => path.endsWith('/' + name));
    const other = now && await caches.match(now);
    if (other) return other;
    throw failure;
  }
}

async function page(request, url) {
  const kept = await keptPage(url.pathname);
  const fresh = fetch(request).then(
    answer => ([502, 503, 504].includes(answer.status) ? null : answer),
    () => null);
  const patience = /^\/outbox$|\/new$/.test(url.pathname) ? PATIENCE.form : PATIENCE.other;
  const first = kept
    ? await Promise.race([fresh, new Promise(done => setTimeout(done, patience, kept))])
    : await fresh;
  return first || kept || await keptPage('/outbox') || new Response(
    'There is no signal, and nothing is kept on this phone for this page.',
    { status: 503, headers: { 'Content-Type': 'text/plain;charset=UTF-8' } });
}

async function keptPage(path) {
  for (const name of await caches.keys()) {
    const kept = name.startsWith(PAGES) && await (await caches.open(name)).match(path);
    if (kept) return marked(kept);
  }
  return null;
}

/** The page is told that it is a kept one. */
async function marked(kept) {
  const headers = new Headers(kept.headers);
  headers.delete('Content-Encoding');
  headers.delete('Content-Length');
  const text = await kept.text();
  return new Response(text.replace('<body ', '<body data-kept="yes" '), { headers });
}
