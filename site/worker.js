// The service worker: keeps every file of one build and answers from what it kept, so that the page
// starts without a network and never mixes two builds. site/setup bundles it with Workbox, and
// site/finish.py puts in the list of files; each is kept only if it has the hash of that build.
//
// A newer worker waits until the page asks for it (offline.js) or until no page is open any more.
import {clientsClaim} from 'workbox-core';
import {cleanupOutdatedCaches, precacheAndRoute} from 'workbox-precaching';

clientsClaim();
cleanupOutdatedCaches();
precacheAndRoute(self.__WB_MANIFEST, {cleanURLs: false, ignoreURLParametersMatching: [/.*/]});

self.addEventListener('message', (event) => {
  if (event.data && event.data.type === 'SKIP_WAITING') self.skipWaiting();
});
