// Small pictures of the seventeen groups as the engine sends them: PNGs end to end in one block of bytes, laid as masks
// over a .group-picture; where the draft has colours the pictures bring their own, and paint.css lays them under the
// masks.

import {every} from './dom.mjs';

/**
 * The address of one picture out of a block. It is let go of by `letGo`.
 * @param {{offset: number, length: number}} row
 * @param {Uint8Array<ArrayBuffer>} bytes
 */
export function addressOf({offset, length}, bytes) {
  return URL.createObjectURL(new Blob([bytes.subarray(offset, offset + length)], {type: 'image/png'}));
}

// Lets addresses go, but not while they may still be on the screen.
/** @param {Iterable<string>} urls */
export function letGo(urls) {
  const gone = [...urls];
  setTimeout(() => gone.forEach((url) => URL.revokeObjectURL(url)), 1000);
}

/**
 * The addresses of all pictures of a block, by symbol.
 * @param {PictureRow[]} rows
 * @param {Uint8Array<ArrayBuffer>} bytes
 */
export function addressesOf(rows, bytes) {
  return new Map(rows.map((row) => [row.symbol, addressOf(row, bytes)]));
}

/**
 * Shows a picture in a place that has a .group-picture; '' shows none.
 * @param {HTMLElement} card
 * @param {string} url
 */
export function showPicture(card, url) {
  const mask = `url("${url}")`;
  for (const picture of every(card, '.group-picture > span', HTMLElement)) {
    if (!url) {
      picture.removeAttribute('style'); // ticket.css paints nothing then
      continue;
    }
    if (picture.style.maskImage !== mask) picture.style.maskImage = mask;
    picture.style.setProperty('--picture', mask);
  }
}
