// Keeps the built sheet in the browser: what is named after its content comes from here, the page itself from the
// server while it answers. Machine files are never kept here; the page keeps those that have not reached the disk.
const cacheName = 'layshaft %version%';
const assets = ['%assets%'];

self.addEventListener('install', (event) => {
  event.waitUntil(caches.open(cacheName).then((cache) => cache.addAll(['/', ...assets])));
  self.skipWaiting();
});

self.addEventListener('activate', (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) =>
        Promise.all(
          names.filter((name) => name.startsWith('layshaft ') && name !== cacheName).map((name) => caches.delete(name)),
        ),
      )
      .then(() => self.clients.claim()),
  );
});

self.addEventListener('fetch', (event) => {
  const { pathname, origin } = new URL(event.request.url);
  if (event.request.method !== 'GET' || origin !== self.location.origin || pathname.startsWith('/api/')) return;
  if (pathname === '/') event.respondWith(fetch(event.request).catch(() => caches.match('/')));
  else if (pathname.startsWith('/assets/') || assets.includes(pathname))
    event.respondWith(caches.match(pathname).then((found) => found ?? fetchAndKeep(event.request)));
});

/** Fonts come as they are needed. */
async function fetchAndKeep(request) {
  const answer = await fetch(request);
  if (answer.ok) await (await caches.open(cacheName)).put(request, answer.clone());
  return answer;
}
