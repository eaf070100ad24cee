// The traced outlines over the picture they came from. The picture is shown by the browser, upright as its file
// says, and never read by the page; the outlines come in the same frame.

const NS = 'http://www.w3.org/2000/svg';

export class Overlay {
  #image;
  #svg;
  #file = null;

  // picked(index) is called when a piece is clicked.
  constructor(image, svg, picked) {
    this.#image = image;
    this.#svg = svg;
    svg.addEventListener('click', (event) => {
      const index = [...svg.children].indexOf(event.target);
      if (index >= 0) picked(index);
    });
    image.addEventListener('error', () => this.#blank(Boolean(this.#file)));
  }

  // Shows the file as a picture. Called once tracing has found it fit to be shown.
  picture(file, bytes) {
    if (this.#file === file) return;
    this.#free();
    this.#file = file;
    const type = /\.svg$/i.test(file.name) || file.type === 'image/svg+xml' ? 'image/svg+xml' : file.type || 'image/png';
    this.#image.src = URL.createObjectURL(new Blob([bytes], {type}));
  }

  // Lays outlines over it: SVG path data in a frame of the given width and height, y down.
  outlines(paths, width, height) {
    this.#svg.setAttribute('viewBox', `0 0 ${width} ${height}`);
    this.#svg.replaceChildren(...paths.map((data) => {
      const path = document.createElementNS(NS, 'path');
      path.setAttribute('d', data);
      path.setAttribute('fill-rule', 'evenodd');
      return path;
    }));
    this.#svg.setAttribute('width', width);
    this.#svg.setAttribute('height', height);
  }

  // Marks the pieces that are taken.
  mark(taken) {
    [...this.#svg.children].forEach((path, i) => path.classList.toggle('taken', Boolean(taken[i])));
  }

  // Brings one piece out, −1 none.
  point(index) {
    [...this.#svg.children].forEach((path, i) => path.classList.toggle('pointed', i === index));
  }

  clear() {
    this.#free();
    this.#svg.replaceChildren();
  }

  // Some kinds of picture the engine reads and the browser does not show: then the outline stands alone.
  #blank(blank) {
    this.#image.hidden = blank;
    this.#svg.classList.toggle('alone', blank);
  }

  #free() {
    if (this.#image.src) URL.revokeObjectURL(this.#image.src);
    this.#image.removeAttribute('src');
    this.#blank(false);
    this.#file = null;
  }
}
