// Keeps one whole build for use without a network. A page always gets files of one build: the shell
// comes from the network while there is one, everything else carries the build in its address.
"use strict";
const cacheName = "loomwright-@BUILD@";
const files = @FILES@;

self.addEventListener("install", (event) => {
    event.waitUntil((async () => {
        const cache = await caches.open(cacheName);
        // An address with a build in it cannot be stale; it may come from the browser's own cache.
        await cache.addAll(files.map((file) =>
            new Request(file, { cache: file.includes("?v=") ? "default" : "reload" })));
        await self.skipWaiting();
    })());
});

self.addEventListener("activate", (event) => {
    event.waitUntil((async () => {
        for (const name of await caches.keys()) {
            if (name.startsWith("loomwright-") && name !== cacheName) await caches.delete(name);
        }
        await self.clients.claim();
    })());
});

async function shell(request) {
    try {
        const fresh = await fetch(request);
        if (fresh.ok) return fresh;
    } catch {
        // no network
    }
    return (await caches.match("./", { cacheName })) ?? Response.error();
}

async function kept(request) {
    return (await caches.match(request, { cacheName })) ?? fetch(request);
}

self.addEventListener("fetch", (event) => {
    const request = event.request;
    if (request.method !== "GET" || new URL(request.url).origin !== location.origin) return;
    event.respondWith(request.mode === "navigate" ? shell(request) : kept(request));
});
