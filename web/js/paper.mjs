// The picture of a drawing, the traced outlines over it, and what is drawn on it by hand to say how it is read: the part, what
// should lie level, two points a known distance apart.
//
// The picture is shown by the browser, upright as its file says, and never read by the page; the outlines and all that is
// drawn lie in the same frame: pixels of the upright picture, y down.

const NS = 'http://www.w3.org/2000/svg';
const LEAST = 4; // px of the picture: a stroke shorter than that was a slip of the hand
const LARGEST = 2400; // px along a side of a picture that is turned by quarters for show

export class Paper {
  #image;
  #svg;
  #pieces = document.createElementNS(NS, 'g');
  #narrow = document.createElementNS(NS, 'g');
  #aids = document.createElementNS(NS, 'g');
  #ground = shape('rect', {class: 'ground', width: '100%', height: '100%'}); // what a hand that draws meets
  #shown = ''; // which picture is there
  #size = null; // width and height in its pixels, once they are known
  #quarters = 0; // that it was turned by then
  #aid = null; // {kind, done} while something is drawn by hand
  #from = null;

  // picked(index) is called when a piece is clicked, shown() when the browser shows the picture.
  constructor(image, svg, {picked, shown}) {
    this.#image = image;
    image.draggable = false;
    this.#svg = svg;
    this.#narrow.classList.add('narrow');
    this.#aids.classList.add('aids');
    svg.append(this.#ground, this.#pieces, this.#narrow, this.#aids);
    svg.addEventListener('click', (event) => {
      const index = [...this.#pieces.children].indexOf(event.target);
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
  upright(file, png, quarters) {
    const key = `${file.name} ${file.size} ${file.lastModified} ${quarters}`;
    if (this.#shown === key) return;
    this.#free();
    this.#shown = key;
    this.#quarters = quarters;
    this.#image.src = URL.createObjectURL(new Blob([png], {type: 'image/png'}));
  }

  // Shows the file as a picture, turned by so many quarters counter-clockwise. Called once tracing has found it fit to be shown.
  async picture(file, bytes, quarters) {
    const key = `${file.name} ${file.size} ${file.lastModified} ${quarters}`;
    if (this.#shown === key) return;
    this.#free();
    this.#shown = key;
    if (this.#quarters !== quarters) this.#size = null;
    this.#quarters = quarters;
    const type = /\.svg$/i.test(file.name) || file.type === 'image/svg+xml' ? 'image/svg+xml' : file.type || 'image/png';
    let blob = new Blob([bytes], {type});
    if (quarters) {
      try {
        blob = await turned(blob, quarters);
      } catch { /* a kind the browser does not show: the outline stands alone */ }
      if (this.#shown !== key) return;
    }
    this.#image.src = URL.createObjectURL(blob);
  }

  // Width and height of the picture in its pixels, turned by so many quarters; null while they are not known.
  size(quarters) {
    if (!this.#size || !((quarters - this.#quarters) % 2)) return this.#size;
    return [this.#size[1], this.#size[0]];
  }

  #frame([width, height]) {
    this.#size = [width, height];
    this.#svg.setAttribute('viewBox', `0 0 ${width} ${height}`);
    this.#svg.parentElement.style.setProperty('--ratio', width / height);
  }

  // Lays outlines over it: SVG path data in a frame of the given size.
  outlines(paths, size = null) {
    if (size) this.#frame(size);
    this.#pieces.replaceChildren(...paths.map((d) => shape('path', {d, 'fill-rule': 'evenodd'})));
  }

  // Marks the pieces that are taken.
  mark(taken) {
    [...this.#pieces.children].forEach((path, i) => path.classList.toggle('taken', Boolean(taken[i])));
  }

  // Brings one piece out, −1 none.
  point(index) {
    [...this.#pieces.children].forEach((path, i) => path.classList.toggle('pointed', i === index));
  }

  // Rings the narrow places, each given by the ends of what is narrow.
  narrow(places) {
    this.#narrow.replaceChildren(...places.map(([[x1, y1], [x2, y2]]) => {
      const r = Math.max(Math.hypot(x2 - x1, y2 - y1), Math.max(...(this.#size ?? [1, 1])) / 80);
      return shape('circle', {cx: (x1 + x2) / 2, cy: (y1 + y2) / 2, r});
    }));
  }

  // Shows what has been drawn by hand: the part that is read, and the two points.
  aids({crop, points}) {
    const [w, h] = this.#size ?? [1, 1];
    const list = [];
    if (crop) {
      const [x0, y0, x1, y1] = crop;
      list.push(shape('path', {class: 'outside', d: `M0 0H${w}V${h}H0ZM${x0} ${y0}V${y1}H${x1}V${y0}Z`}));
    }
    if (points) list.push(...stroke(points));
    this.#aids.replaceChildren(...list);
  }

  // Lets something be drawn by hand: kind is 'crop', 'level' or 'points'; done([x0, y0], [x1, y1]) gets where the stroke began
  // and ended, and is called no more after that. null ends it.
  draw(kind, done) {
    this.#aid = kind ? {kind, done} : null;
    this.#from = null;
    this.#svg.classList.toggle('drawing', Boolean(kind));
  }

  clear() {
    this.#free();
    this.draw(null);
    this.#size = null;
    this.#quarters = 0;
    for (const group of [this.#pieces, this.#narrow, this.#aids]) group.replaceChildren();
  }

  #down(event) {
    if (!this.#aid || event.button !== 0) return;
    event.preventDefault();
    this.#svg.setPointerCapture(event.pointerId);
    this.#from = this.#at(event);
  }

  #move(event) {
    if (!this.#from) return;
    const to = this.#at(event);
    this.#svg.querySelector('.under-hand')?.remove();
    const group = document.createElementNS(NS, 'g');
    group.classList.add('under-hand');
    const [[x0, y0], [x1, y1]] = [this.#from, to];
    if (this.#aid.kind === 'crop') {
      group.append(shape('rect', {x: Math.min(x0, x1), y: Math.min(y0, y1), width: Math.abs(x1 - x0), height: Math.abs(y1 - y0)}));
    } else group.append(...stroke([this.#from, to]));
    this.#svg.append(group);
  }

  #up(event) {
    if (!this.#from) return;
    const {done} = this.#aid;
    const [from, to] = [this.#from, this.#at(event)];
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
  #at(event) {
    const p = new DOMPoint(event.clientX, event.clientY).matrixTransform(this.#svg.getScreenCTM().inverse());
    const [w, h] = this.#size ?? [1, 1];
    return [Math.min(w, Math.max(0, p.x)), Math.min(h, Math.max(0, p.y))];
  }

  // Some kinds of picture the engine reads and the browser does not show: then the outline stands alone.
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

function shape(name, attributes) {
  const element = document.createElementNS(NS, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  return element;
}

// A line from one point to another with a dot at each end.
function stroke([[x1, y1], [x2, y2]]) {
  const dot = (x, y) => shape('path', {class: 'end', d: `M${x} ${y}h0`});
  return [shape('path', {class: 'way', d: `M${x1} ${y1}L${x2} ${y2}`}), dot(x1, y1), dot(x2, y2)];
}

async function turned(blob, quarters) {
  const bitmap = await createImageBitmap(blob);
  const k = Math.min(1, LARGEST / Math.max(bitmap.width, bitmap.height));
  const [w, h] = [bitmap.width * k, bitmap.height * k];
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = quarters % 2 ? [h, w] : [w, h];
  const pen = canvas.getContext('2d');
  pen.translate(canvas.width / 2, canvas.height / 2);
  pen.rotate(-quarters * Math.PI / 2);
  pen.drawImage(bitmap, -w / 2, -h / 2, w, h);
  bitmap.close();
  return new Promise((resolve, reject) => canvas.toBlob((out) => (out ? resolve(out) : reject(new Error('no picture'))), 'image/png'));
}
