// How large a pixel of a picture is, where its file says so.
//
// PNG: the chunk pHYs, in pixels to the metre (PNG, third edition, 11.3.4.3). JPEG: the segment JFIF, in dots to the
// inch or to the centimetre (ITU-T T.871, 10.1). Files that were never on paper say 72 or 96 dots to the inch: that
// says nothing.

import {INCH} from './units.mjs';

const SCREENS = [72, 96]; // dots to the inch
const HEAD = 65536; // bytes that are looked through

// The height of one pixel in mm, 0 where the file does not say.
/** @param {Blob} file */
export async function pixelHeight(file) {
  const bytes = new DataView(await file.slice(0, HEAD).arrayBuffer());
  const perMM = png(bytes) || jpeg(bytes);
  if (!(perMM > 0) || SCREENS.some((dpi) => Math.abs(perMM * INCH - dpi) < 0.1)) return 0;
  return 1 / perMM;
}

/** @param {DataView} bytes */
function png(bytes) {
  if (bytes.byteLength < 33 || bytes.getUint32(0) !== 0x89504e47) return 0;
  for (let at = 8; at + 21 <= bytes.byteLength;) {
    const length = bytes.getUint32(at), kind = bytes.getUint32(at + 4);
    if (kind === 0x70485973) return bytes.getUint8(at + 16) === 1 ? bytes.getUint32(at + 12) / 1000 : 0; // pHYs
    if (kind === 0x49444154) return 0; // IDAT: it would have come before
    at += 12 + length;
  }
  return 0;
}

/** @param {DataView} bytes */
function jpeg(bytes) {
  if (bytes.byteLength < 20 || bytes.getUint16(0) !== 0xffd8) return 0;
  for (let at = 2; at + 18 <= bytes.byteLength && bytes.getUint8(at) === 0xff;) {
    const marker = bytes.getUint8(at + 1);
    if (marker === 0xe0 && bytes.getUint32(at + 4) === 0x4a464946) { // JFIF
      const unit = bytes.getUint8(at + 11), dots = bytes.getUint16(at + 14);
      return unit === 1 ? dots / INCH : unit === 2 ? dots / 10 : 0;
    }
    if (marker === 0xda) return 0; // the picture itself begins
    at += 2 + bytes.getUint16(at + 2);
  }
  return 0;
}
