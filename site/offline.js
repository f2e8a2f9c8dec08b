// Keeps the site on the device (worker.js) and offers a newer build when there is one. The old one
// runs on until the user takes the offer: nobody is interrupted in the middle of a brief.
// site/setup bundles this with Workbox.
import {Workbox} from 'workbox-window';

const QUIET_MS = 3000;
const READY = 'A new version is ready. What you entered stays. Later means at the next start.';
const CHANGING = 'Changing to the new version.';

const root = document.documentElement;
const bar = document.getElementById('update');
const words = document.getElementById('update-text');
const now = document.getElementById('update-now');
const later = document.getElementById('update-later');

// The bar takes room from the sheet, which then moves: never under a finger about to tap.
function whenQuiet(act) {
  const signs = ['pointerdown', 'pointermove', 'keydown', 'wheel'];
  let timer = 0;
  const wait = () => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      for (const sign of signs) removeEventListener(sign, wait, {capture: true});
      act();
    }, QUIET_MS);
  };
  for (const sign of signs) addEventListener(sign, wait, {capture: true, passive: true});
  wait();
}

function showBar() {
  bar.hidden = false;
  root.classList.add('offered');
  words.textContent = READY;
}

function hideBar() {
  bar.hidden = true;
  words.textContent = '';
  root.classList.remove('offered');
}

function keepOffline() {
  const workbox = new Workbox('worker.js', {updateViaCache: 'none'});
  let registration = null;
  let taken = false;

  // Another window of this site may have taken the new version already: then this one still runs
  // the old files, and is offered the same.
  workbox.addEventListener('waiting', () => whenQuiet(showBar));
  workbox.addEventListener('controlling', (event) => {
    if (taken) {
      location.reload();
    } else if (event.isUpdate || event.isExternal) {
      whenQuiet(showBar);
    }
  });

  now.addEventListener('click', () => {
    taken = true;
    words.textContent = CHANGING;
    if (registration && registration.waiting) {
      workbox.messageSkipWaiting();
    } else {
      location.reload();
    }
  });
  later.addEventListener('click', hideBar);
  new ResizeObserver(() => root.style.setProperty('--offer', `${bar.offsetHeight}px`)).observe(bar);

  // Where there is no network there is nothing newer, and nothing to say.
  const look = () => {
    if (document.visibilityState === 'visible') workbox.update().catch(() => {});
  };
  document.addEventListener('visibilitychange', look);
  window.addEventListener('pageshow', look);
  workbox.register().then((made) => {
    registration = made;
  }).catch(() => {});
}

// There is none from a folder, in some private windows, or without HTTPS; the page works all the same.
if ('serviceWorker' in navigator && location.protocol !== 'file:') keepOffline();
