// The words on the panel and its rulers: a transparent canvas over the drawing, filled with what the editor asks for.

import {every} from './dom.mjs';

const CONTROLS = '.views, .signs-switch, .examples-open, .copies'; // that lie over the canvas
const FONT = 12.5; // CSS px
const BESIDE = 26; // CSS px of the left ruler that a figure may take beside its tick
const ASIDE = 24; // CSS px from a width on one side of its mark to the same on the other
const CORNER = {width: 40, height: 28}; // CSS px, where the two rulers meet

export class Labels {
  #canvas;
  #pen;
  /** @type {BenchLabel[]} */
  #list = [];
  /** @type {Record<string, string>} */
  #colours = {};
  #size = {width: 0, height: 0}; // CSS px
  #family = '';
  /** @type {Box[]} */
  #taken = []; // boxes of the widths that stand
  #controls = every(document, CONTROLS);
  /** @type {Box[]} */
  #covered = []; // boxes of these

  /** @param {HTMLCanvasElement} canvas */
  constructor(canvas) {
    this.#canvas = canvas;
    this.#pen = canvas.getContext('2d');
    this.#measure();
    const observer = new ResizeObserver(() => {
      this.#measure();
      this.draw();
    });
    for (const each of [canvas, ...this.#controls]) observer.observe(each);
  }

  // Takes the editor's list: {x, y, text, kind, align, emph, leader, reach}, x and y in CSS px, y the middle of the
  // line. Where there is a leader a line runs to the word from so far beside that point.
  /** @param {BenchLabel[]} list */
  show(list) {
    this.#list = list;
    this.draw();
  }

  /** @param {Record<string, string>} palette */
  colours(palette) {
    this.#colours = palette;
    this.draw();
  }

  // Asking for the size at every frame of a drag would have the page laid out each time.
  #measure() {
    this.#size = {width: this.#canvas.clientWidth, height: this.#canvas.clientHeight};
    this.#family = getComputedStyle(this.#canvas).fontFamily;
    const {left, top} = this.#canvas.getBoundingClientRect();
    this.#covered = this.#controls.map((control) => {
      const box = control.getBoundingClientRect();
      return [box.left - left, box.top - top, box.right - left, box.bottom - top];
    });
  }

  draw() {
    const ratio = globalThis.devicePixelRatio || 1;
    const {width, height} = this.#size;
    const across = Math.round(width * ratio), down = Math.round(height * ratio);
    if (this.#canvas.width !== across || this.#canvas.height !== down) {
      this.#canvas.width = across;
      this.#canvas.height = down;
    }
    const pen = this.#pen;
    if (!pen) return;
    pen.setTransform(ratio, 0, 0, ratio, 0, 0);
    pen.clearRect(0, 0, width, height);
    this.#taken = [];
    for (const label of this.#list) this.#write(pen, label, this.#family);
  }

  // Where a width stands so that it is read: on the other side of its mark when it would run off the edge or under a
  // control; nowhere, where another stands already. The mark says by itself that there is something.
  /** @param {CanvasRenderingContext2D} pen @param {BenchLabel} label */
  #room(pen, label) {
    const width = pen.measureText(label.text).width;
    let left = label.align === 'left' ? label.x : label.align === 'right' ? label.x - width : label.x - width / 2;
    /** @param {number} from @returns {Box} */
    const boxAt = (from) => [from - 3, label.y - FONT / 2 - 2, from + width + 3, label.y + FONT / 2 + 2];
    const aside = label.leader ? 2 * (label.x - label.leader[0]) : ASIDE;
    if (label.align === 'left' && (left + width > this.#size.width - 4 || meets(boxAt(left), this.#covered))) {
      const other = label.x - aside - width;
      if (other > 0) left = other;
    }
    const box = boxAt(left);
    if (meets(box, this.#taken)) return null;
    this.#taken.push(box);
    return left;
  }

  /** @param {CanvasRenderingContext2D} pen @param {BenchLabel} label @param {string} family */
  #write(pen, label, family) {
    const ruler = label.kind.startsWith('ruler');
    if (ruler && this.#cramped(pen, label, family)) return;
    const figure = ['width', 'caution', 'gap'].includes(label.kind); // beside a mark
    pen.font = `${label.emph || figure ? 600 : 400} ${figure ? FONT + 0.5 : FONT}px ${family}`;
    pen.textAlign = label.align;
    pen.textBaseline = 'middle';
    if (figure) {
      const left = this.#room(pen, label);
      if (left === null) return;
      if (label.leader) this.#lead(pen, {...label, leader: label.leader}, left);
      label = {...label, x: left};
      pen.textAlign = 'left';
    }
    if (!ruler) {
      pen.lineJoin = 'round';
      pen.lineWidth = 4;
      pen.strokeStyle = this.#colours.halo;
      pen.strokeText(label.text, label.x, label.y);
    }
    pen.fillStyle = this.#colour(label, ruler);
    if (label.kind !== 'ruler-y') return pen.fillText(label.text, label.x, label.y);
    // A long figure on the left ruler is drawn narrower, so that it stays clear of the edge and of its tick.
    const width = Math.min(pen.measureText(label.text).width, BESIDE);
    pen.textAlign = 'left';
    pen.fillText(label.text, Math.max(3, label.x - width / 2), label.y, BESIDE);
  }

  // The line from a sign to its word, whose left end is told.
  /** @param {CanvasRenderingContext2D} pen @param {BenchLabel & {leader: Point}} label @param {number} left */
  #lead(pen, {leader: [x, y], reach = 0, y: level, text, kind}, left) {
    const end = left > x ? left - 3 : left + pen.measureText(text).width + 3;
    const far = Math.hypot(end - x, level - y);
    if (far <= reach) return;
    for (const halo of [true, false]) {
      pen.beginPath();
      pen.moveTo(x + (end - x) * reach / far, y + (level - y) * reach / far);
      pen.lineTo(end, level);
      pen.lineWidth = halo ? 3.5 : 1.3;
      pen.strokeStyle = halo ? this.#colours.halo : this.#colour({kind}, false);
      pen.stroke();
    }
  }

  // A ruler's figure that would run under the corner or off the edge is left out; its tick remains.
  /** @param {CanvasRenderingContext2D} pen @param {BenchLabel} label @param {string} family */
  #cramped(pen, label, family) {
    if (label.kind === 'ruler-y') {
      return label.y < CORNER.height + FONT / 2 || label.y > this.#size.height - FONT / 2;
    }

    pen.font = `400 ${FONT}px ${family}`;
    const half = pen.measureText(label.text).width / 2;
    return label.x - half < CORNER.width || label.x + half > this.#size.width;
  }

  /** @param {{kind: string, emph?: boolean}} label @param {boolean} ruler */
  #colour(label, ruler) {
    if (ruler) return label.emph ? this.#colours.text : this.#colours.faint;
    if (label.kind === 'width') return this.#colours.fault;
    if (label.kind === 'caution') return this.#colours.warn;
    if (label.kind === 'handle') return this.#colours.accent;
    return this.#colours.ink;
  }
}

// Whether a box meets one of some others.
/** @param {Box} box @param {Box[]} others */
function meets(box, others) {
  return others.some(([x0, y0, x1, y1]) => box[0] < x1 && x0 < box[2] && box[1] < y1 && y0 < box[3]);
}
