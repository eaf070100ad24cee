// Several sheets, or their parts, laid on stock of a size: a cut file for each sheet of stock, and a map of how the
// pieces lie on it.

import {byId, make, shape} from './dom.mjs';
import {download} from './files.mjs';
/** @import {Ask} from './steps.mjs' */
import {write} from './units.mjs';
import {wishes} from './wishes.mjs';

const maps = byId('nest-maps');
const list = byId('nest-list');

// Lays the pieces and hands the files over. Returns what is said of it.
/** @param {View} view @param {string} name @param {string} format @param {Drawn[]} lettering @param {Ask} ask */
export async function makeNest(view, name, format, lettering, ask) {
  const {stock, copies, as} = wishes('nest');
  const size = typeof stock === 'object' && !Array.isArray(stock) ? stock : {};
  if (!size.width || !size.height) throw new Error('Say first how wide and how high a sheet of the stock is.');
  const {value, bytes} = await ask('nest', {
    format, stock: size, copies: Number(copies ?? 1), as: String(as ?? ''), sheets: {lettering},
  });
  value.files.forEach(({offset, length}, i) => {
    download(new Blob([bytes.slice(offset, offset + length)], {type: value.type}), `${name}-stock-${i + 1}.${format}`);
  });
  const width = Number(size.width), height = Number(size.height);
  maps.replaceChildren(...value.sheets.map((placed, i) => draw(placed, value.pieces, i, width, height)));
  maps.hidden = list.hidden = false;
  /** @param {number} mm */
  const length = (mm) => write(mm, 'length', view.units);
  const n = value.sheets.length;
  list.replaceChildren(...[
    `${n} ${n === 1 ? 'sheet' : 'sheets'} of stock, ${length(width)} × ${length(height)} ${view.units}; `
      + `no way of laying the pieces takes fewer than ${value.bound}. `
      + `They cover ${Math.round(100 * value.share)} % of it.`,
    ...value.pieces.map((piece) =>
      `${piece.name}: ${piece.count} × ${length(piece.width)} × ${length(piece.height)} ${view.units}.`),
    ...value.notes,
  ].map((line) => make('li', '', line)));
  return `${n} ${n === 1 ? 'cut file is' : 'cut files are'} in your downloads, one for each sheet of stock; `
    + 'how the pieces lie is below.';
}

// The draft has changed: what is shown is of another.
export function forgetNest() {
  maps.replaceChildren();
  maps.hidden = list.hidden = true;
}

/**
 * @param {NestPlaced[]} placed @param {NestPiece[]} pieces @param {number} index
 * @param {number} width @param {number} height
 */
function draw(placed, pieces, index, width, height) {
  const air = Math.max(width, height) / 40;
  const map = shape('svg', {
    class: 'steps-map', role: 'img', 'aria-label': `Sheet ${index + 1} of the stock`,
    viewBox: `${-air} ${-air} ${width + 2 * air} ${height + 2 * air}`,
  });
  map.append(shape('rect', {class: 'panel', x: 0, y: 0, width, height}));
  for (const lies of placed) {
    const {at: [x, y], width: w, height: h, piece} = lies;
    const {outline} = pieces[piece];
    map.append(outline
      ? drawOutline(outline, lies, height)
      : shape('rect', {class: 'sheet', x, y: height - y - h, width: w, height: h}));
    const number = shape('text', {x: x + w / 2, y: height - y - h / 2, 'font-size': Math.min(w, h) * 0.35});
    number.textContent = String(piece + 1);
    map.append(number);
  }
  return map;
}

// A piece's rings, from the lower left corner of its box on, turned by quarters and laid on stock of a height; their y
// runs up.
/** @param {Point[][]} rings @param {NestPlaced} lies @param {number} height */
function drawOutline(rings, {at: [x, y], width: w, height: h, turned, quarters}, height) {
  const turns = quarters ?? (turned ? 1 : 0);
  const corner = [turns === 1 || turns === 2 ? w : 0, turns > 1 ? h : 0];
  return shape('path', {
    class: 'sheet', d: rings.map((ring) => `M${ring.map((point) => point.join(' ')).join('L')}Z`).join(''),
    transform: `translate(${x} ${height - y}) scale(1 -1) translate(${corner.join(' ')}) rotate(${90 * turns})`,
  });
}
