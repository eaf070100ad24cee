// The picture of a drawing, the traced outlines over it, and what is drawn on it by hand to say how it is read: the
// part, what should lie level, two points a known distance apart.
//
// The picture is shown by the browser, upright as its file says, and never read by the page; the outlines and all that
// is drawn lie in the same frame: pixels of the upright picture, y down.

import {make, shape} from './dom.mjs';

const LEAST = 4; // px of the picture: a stroke shorter than that was a slip of the hand
const LARGEST = 2400; // px along a side of a picture that is turned by quarters for show

/** @typedef {{kind: string, done: (from: Point, to: Point) => void}} Aid what is drawn by hand, and what comes of it */

export class Paper {
  #image;
  #svg;
  #pieces = shape('g');
  #narrow = shape('g', {class: 'narrow'});
  #aids = shape('g', {class: 'aids'});
  #ground = shape('rect', {class: 'ground', width: '100%', height: '100%'}); // what a hand that draws meets
  #shown = ''; // which picture is there
  /** @type {Point | null} */
  #size = null; // width and height in its pixels, once they are known
  #quarters = 0; // that it was turned by then
  /** @type {Aid | null} */
  #aid = null; // while something is drawn by hand
  /** @type {Point | null} */
  #from = null;
  #turned = 0; // degrees counter-clockwise that it is shown turned by
  #shrunk = 1; // and how much smaller, to find room

  /**
   * picked(index) is called when a piece is clicked, shown() when the browser shows the picture.
   * @param {HTMLImageElement} image
   * @param {SVGSVGElement} svg
   * @param {{picked: (index: number) => void, shown: () => void}} hear
   */
  constructor(image, svg, {picked, shown}) {
    this.#image = image;
    image.draggable = false;
    this.#svg = svg;
    svg.append(this.#ground, this.#pieces, this.#narrow, this.#aids);
    svg.addEventListener('click', (event) => {
      const index = [...this.#pieces.children].findIndex((piece) => piece === event.target);
      if (index >= 0 && !this.#aid) picked(index);
    });
    svg.addEventListener('pointerdown', (event) => this.#down(event));
    svg.addEventListener('pointermove', (event) => this.#move(event));
    svg.addEventListener('pointerup', (event) => this.#up(event));
    svg.addEventListener('pointercancel', () => this.#let());
    image.addEventListener('load', () => {
      if (!this.#size && image.src.startsWith('blob:')) this.#frame([image.naturalWidth, image.naturalHeight]);
      shown();
    });
    image.addEventListener('error', () => this.#blank(Boolean(this.#shown)));
  }

  // Shows a picture that the engine drew of the file, upright already.
  /** @param {File} file @param {Uint8Array<ArrayBuffer>} png @param {number} quarters */
  upright(file, png, quarters) {
    const key = keyOf(file, quarters);
    if (this.#shown === key) return;
    this.#free();
    this.#shown = key;
    this.#quarters = quarters;
    this.#image.src = URL.createObjectURL(new Blob([png], {type: 'image/png'}));
  }

  // Shows the file as a picture, turned by so many quarters counter-clockwise. Called once tracing has found it fit to
  // be shown.
  /** @param {File} file @param {Uint8Array<ArrayBuffer>} bytes @param {number} quarters */
  async picture(file, bytes, quarters) {
    const key = keyOf(file, quarters);
    if (this.#shown === key) return;
    this.#free();
    this.#shown = key;
    if (this.#quarters !== quarters) this.#size = null;
    this.#quarters = quarters;
    const svg = /\.svg$/i.test(file.name) || file.type === 'image/svg+xml';
    let blob = new Blob([bytes], {type: svg ? 'image/svg+xml' : file.type || 'image/png'});
    if (quarters) {
      try {
        blob = await turned(blob, quarters);
      } catch { /* a kind the browser does not show: the outline stands alone */ }
      if (this.#shown !== key) return;
    }
    this.#image.src = URL.createObjectURL(blob);
  }

  // Width and height of the picture in its pixels, turned by so many quarters; null while they are not known.
  /** @param {number} quarters @returns {Point | null} */
  size(quarters) {
    if (!this.#size || !((quarters - this.#quarters) % 2)) return this.#size;
    return [this.#size[1], this.#size[0]];
  }

  /** @param {Point} size */
  #frame([width, height]) {
    this.#size = [width, height];
    this.#svg.setAttribute('viewBox', `0 0 ${width} ${height}`);
    this.#svg.parentElement?.style.setProperty('--ratio', String(width / height));
  }

  // Lays outlines over it: SVG path data in a frame of the given size.
  /** @param {string[]} paths @param {Point | null} [size] */
  outlines(paths, size = null) {
    if (size) this.#frame(size);
    this.#pieces.replaceChildren(...paths.map((d) => shape('path', {d, 'fill-rule': 'evenodd'})));
  }

  // Marks the pieces that are taken.
  /** @param {boolean[]} taken */
  mark(taken) {
    [...this.#pieces.children].forEach((path, i) => path.classList.toggle('taken', Boolean(taken[i])));
  }

  // Brings one piece out, −1 none.
  /** @param {number} index */
  point(index) {
    [...this.#pieces.children].forEach((path, i) => path.classList.toggle('pointed', i === index));
  }

  // Rings the narrow places, and the gaps of lines with their numbers, each given by its ends.
  /** @param {[Point, Point][]} narrow @param {[Point, Point][]} gaps */
  rings(narrow, gaps) {
    const unit = Math.max(...(this.#size ?? [1, 1])) / 80;
    /** @param {[Point, Point]} ends @param {Record<string, string>} [more] */
    const ring = ([[x1, y1], [x2, y2]], more = {}) => shape('circle',
      {cx: (x1 + x2) / 2, cy: (y1 + y2) / 2, r: Math.max(Math.hypot(x2 - x1, y2 - y1), unit), ...more});
    this.#narrow.replaceChildren(...narrow.map((ends) => ring(ends)), ...gaps.flatMap((ends, i) => {
      const [[x1, y1], [x2, y2]] = ends;
      const r = Math.max(Math.hypot(x2 - x1, y2 - y1), unit);
      const number = shape('text', {x: (x1 + x2) / 2 + r, y: (y1 + y2) / 2 - r, 'font-size': 3 * unit});
      number.textContent = String(i + 1);
      return [ring(ends, {class: 'gap'}), number];
    }));
  }

  // Shows the picture turned, in degrees counter-clockwise about the middle, as the outlines are taken.
  /** @param {number} degrees */
  turn(degrees) {
    this.#turned = degrees;
    const frame = this.#svg.parentElement;
    if (!frame) return;
    const [w, h] = this.#size ?? [1, 1];
    const a = Math.abs(degrees) * Math.PI / 180;
    const [c, s] = [Math.abs(Math.cos(a)), Math.abs(Math.sin(a))];
    this.#shrunk = degrees ? Math.min(w / (w * c + h * s), h / (w * s + h * c)) : 1;
    frame.style.rotate = degrees ? `${-degrees}deg` : '';
    frame.style.scale = degrees ? String(this.#shrunk) : '';
  }

  // Shows what has been drawn by hand: the part that is read, and the two points.
  /** @param {{crop: Box | null, points: [Point, Point] | null}} drawn */
  aids({crop, points}) {
    const [w, h] = this.#size ?? [1, 1];
    /** @type {SVGElement[]} */
    const list = [];
    if (crop) {
      const [x0, y0, x1, y1] = crop;
      list.push(shape('path', {class: 'outside', d: `M0 0H${w}V${h}H0ZM${x0} ${y0}V${y1}H${x1}V${y0}Z`}));
    }
    if (points) list.push(...stroke(points));
    this.#aids.replaceChildren(...list);
  }

  // Lets something be drawn by hand: kind is 'crop', 'level' or 'points'; done([x0, y0], [x1, y1]) gets where the
  // stroke began and ended, and is called no more after that. null ends it.
  /** @param {string | null} kind @param {Aid['done']} [done] */
  draw(kind, done) {
    this.#aid = kind && done ? {kind, done} : null;
    this.#from = null;
    this.#svg.classList.toggle('drawing', Boolean(kind));
  }

  clear() {
    this.#free();
    this.draw(null);
    this.turn(0);
    this.#size = null;
    this.#quarters = 0;
    for (const group of [this.#pieces, this.#narrow, this.#aids]) group.replaceChildren();
  }

  /** @param {PointerEvent} event */
  #down(event) {
    if (!this.#aid || event.button !== 0) return;
    event.preventDefault();
    this.#svg.setPointerCapture(event.pointerId);
    this.#from = this.#at(event);
  }

  /** @param {PointerEvent} event */
  #move(event) {
    if (!this.#from || !this.#aid) return;
    const to = this.#at(event);
    this.#svg.querySelector('.under-hand')?.remove();
    const group = shape('g', {class: 'under-hand'});
    const [[x0, y0], [x1, y1]] = [this.#from, to];
    if (this.#aid.kind === 'crop') {
      const [x, y] = [Math.min(x0, x1), Math.min(y0, y1)];
      group.append(shape('rect', {x, y, width: Math.abs(x1 - x0), height: Math.abs(y1 - y0)}));
    } else group.append(...stroke([this.#from, to]));
    this.#svg.append(group);
  }

  /** @param {PointerEvent} event */
  #up(event) {
    if (!this.#from || !this.#aid) return;
    const {done} = this.#aid;
    const from = this.#from, to = this.#at(event);
    this.#let();
    if (Math.hypot(to[0] - from[0], to[1] - from[1]) < LEAST) return;
    this.draw(null);
    done(from, to);
  }

  #let() {
    this.#from = null;
    this.#svg.querySelector('.under-hand')?.remove();
  }

  // A place on the screen as pixels of the picture, held within it.
  /** @param {PointerEvent} event @returns {Point} */
  #at(event) {
    const [w, h] = this.#size ?? [1, 1];
    const seen = this.#svg.getBoundingClientRect();
    const px = w / (this.#svg.parentElement?.offsetWidth || w) / this.#shrunk; // of the picture to one of the screen
    const [dx, dy] = [event.clientX - seen.x - seen.width / 2, event.clientY - seen.y - seen.height / 2];
    const a = this.#turned * Math.PI / 180; // turned back
    const x = w / 2 + (dx * Math.cos(a) - dy * Math.sin(a)) * px;
    const y = h / 2 + (dx * Math.sin(a) + dy * Math.cos(a)) * px;
    return [Math.min(w, Math.max(0, x)), Math.min(h, Math.max(0, y))];
  }

  // Some kinds of picture the engine reads and the browser does not show: then the outline stands alone.
  /** @param {boolean} blank */
  #blank(blank) {
    this.#image.hidden = blank;
  }

  #free() {
    if (this.#image.src) URL.revokeObjectURL(this.#image.src);
    this.#image.removeAttribute('src');
    this.#blank(false);
    this.#shown = '';
  }
}

// What tells one show of a picture from another.
/** @param {File} file @param {number} quarters */
function keyOf(file, quarters) {
  return `${file.name} ${file.size} ${file.lastModified} ${quarters}`;
}

// A line from one point to another with a dot at each end.
/** @param {[Point, Point]} ends */
function stroke([[x1, y1], [x2, y2]]) {
  /** @param {number} x @param {number} y */
  const dot = (x, y) => shape('path', {class: 'end', d: `M${x} ${y}h0`});
  return [shape('path', {class: 'way', d: `M${x1} ${y1}L${x2} ${y2}`}), dot(x1, y1), dot(x2, y2)];
}

/** @param {Blob} blob @param {number} quarters @returns {Promise<Blob>} */
async function turned(blob, quarters) {
  const bitmap = await createImageBitmap(blob);
  const k = Math.min(1, LARGEST / Math.max(bitmap.width, bitmap.height));
  const [w, h] = [bitmap.width * k, bitmap.height * k];
  const canvas = make('canvas');
  [canvas.width, canvas.height] = quarters % 2 ? [h, w] : [w, h];
  const pen = canvas.getContext('2d');
  if (!pen) throw new Error('no picture');
  pen.translate(canvas.width / 2, canvas.height / 2);
  pen.rotate(-quarters * Math.PI / 2);
  pen.drawImage(bitmap, -w / 2, -h / 2, w, h);
  bitmap.close();
  return new Promise((resolve, reject) => {
    canvas.toBlob((out) => (out ? resolve(out) : reject(new Error('no picture'))), 'image/png');
  });
}
