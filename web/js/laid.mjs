// A picture that is laid on the bench at true scale, to draw over or to stand behind a subject: how it is read and
// placed, and how it is kept in this browser's own store (IndexedDB), outside every draft and link.

import {pixelHeight} from './density.mjs';
import {make} from './dom.mjs';

const BASE = 'openwork', SHELF = 'under';
export const LEAST = 1, MOST = 20000; // mm, of a picture's height

/**
 * Where a picture lies: its middle and height in mm, its turn in degrees.
 * @typedef {{x: number, y: number, height: number, turn: number}} Lie
 */

// The element of one.
export function laidImage() {
  const image = make('img', 'under-picture');
  image.alt = '';
  return image;
}

/**
 * Shows a picture in its element; false when the browser cannot read it, and then the element is as it was.
 * @param {HTMLImageElement} image
 * @param {Blob} blob
 */
export async function showBlob(image, blob) {
  const address = URL.createObjectURL(blob);
  const was = image.src;
  image.src = address;
  try {
    await image.decode();
  } catch {
    URL.revokeObjectURL(address);
    image.src = was;
    return false;
  }
  if (was) URL.revokeObjectURL(was);
  return true;
}

/**
 * The height in mm of the picture that an element shows, by its file's resolution; 0 where it tells none, or none that
 * a picture may have.
 * @param {HTMLImageElement} image
 * @param {File} file
 */
export async function ownHeight(image, file) {
  const pixel = await pixelHeight(file).catch(() => 0);
  const height = pixel * image.naturalHeight;
  return height >= LEAST && height <= MOST ? height : 0;
}

/**
 * Lays an element where its picture lies; map: CSS px to the mm, and where (0, 0) lies on the bench.
 * @param {HTMLImageElement} image
 * @param {Lie} lie
 * @param {[number, number, number]} map
 */
export function layImage(image, {x, y, height, turn}, [zoom, left, top]) {
  const ratio = image.naturalWidth / image.naturalHeight || 1;
  const high = height * zoom, wide = high * ratio;
  Object.assign(image.style, {
    width: `${wide}px`,
    height: `${high}px`,
    left: `${left + x * zoom - wide / 2}px`,
    top: `${top - y * zoom - high / 2}px`,
    rotate: `${-turn}deg`,
  });
}

/**
 * Keeps a picture under a name, or with null forgets it; rejects where there is no room.
 * @param {string} key
 * @param {{blob: Blob} | null} picture
 */
export async function keepLaid(key, picture) {
  await store('readwrite', (shelf) => (picture ? shelf.put(picture, key) : shelf.delete(key)));
}

/**
 * The picture kept under a name; null where there is none, or the store is closed to this page.
 * @param {string} key
 */
export async function keptLaid(key) {
  try {
    const kept = await store('readonly', (shelf) => shelf.get(key));
    return kept?.blob ? kept : null;
  } catch {
    return null;
  }
}

/** @returns {Promise<IDBDatabase>} */
function base() {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(BASE, 1);
    request.onupgradeneeded = () => request.result.createObjectStore(SHELF);
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

/**
 * @param {IDBTransactionMode} mode
 * @param {(shelf: IDBObjectStore) => IDBRequest<any>} what
 * @returns {Promise<any>}
 */
async function store(mode, what) {
  const db = await base();
  try {
    return await new Promise((resolve, reject) => {
      const deal = db.transaction(SHELF, mode);
      const request = what(deal.objectStore(SHELF));
      deal.oncomplete = () => resolve(request.result);
      deal.onabort = deal.onerror = () => reject(deal.error);
    });
  } finally {
    db.close();
  }
}
