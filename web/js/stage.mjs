// The stage: holds the editor's canvas inside the page and owns all of its input.
//
// The drawing library takes a whole page by default: it makes a canvas, appends it to body, reads body's size and
// styles html and body. Here it is handed a canvas that lies in the host element already, with its graphics context
// awake and of its final size, since each of these is slow where the graphics are drawn by the processor; and every
// pointer, wheel and key event is heard on the host and handed to the editor in CSS pixels from the host's upper left.

/** @import {Gate} from './gate.mjs' */
import {editor} from './bridge.mjs';

const SHIFT = 1, CONTROL = 2, ALT = 4, PAN = 8;
const LINE = 16; // CSS px a wheel "line" stands for
const PAGE = 400; // and a "page"
const REST = 500; // ms after which a finger that stays reads what a mouse reads by hovering

export class Stage {
  #host;
  #gate;
  /** @type {HTMLCanvasElement | null} */
  #canvas = null;
  #width = 0; // device px
  #height = 0;
  /** @type {Map<number, {type: string, pan: boolean}>} */
  #held = new Map(); // pointers that are down, by id
  #space = false;
  #touched = false; // the last pointer was a finger or a pen
  #rest = 0; // the timer of a finger that may stay

  /** @param {HTMLElement} host @param {Gate} gate */
  constructor(host, gate) {
    this.#host = host;
    this.#gate = gate;
    this.#measure();
  }

  // Whether a pointer is down on the canvas.
  get held() {
    return this.#held.size > 0;
  }

  // Lays the canvas on the bench and wakes its graphics; false where the browser has none.
  open() {
    this.#measure(); // the page has been laid out since
    const canvas = document.createElement('canvas');
    canvas.width = this.#width;
    canvas.height = this.#height;
    canvas.classList.add('drawing');
    canvas.setAttribute('aria-hidden', 'true');
    // On losing the graphics context the library would reload the page at once, and again, and again.
    canvas.addEventListener('webglcontextlost', (event) => {
      event.stopImmediatePropagation();
      event.preventDefault();
      this.#host.dispatchEvent(new CustomEvent('surfacelost', {bubbles: true}));
    }, {capture: true});
    // As the library would ask for it, but that its edges need no smoothing: it draws to images of its own.
    const look = {alpha: true, premultipliedAlpha: true, stencil: true, antialias: false};
    if (!canvas.getContext('webgl2', look)) return false;
    this.#canvas = canvas;
    this.#host.prepend(canvas);
    return true;
  }

  // Everything that must be in place before the editor's program runs.
  prepare() {
    const body = document.body, canvas = this.#canvas;
    if (!canvas) return;
    Object.defineProperty(body, 'clientWidth', {configurable: true, get: () => this.#width});
    Object.defineProperty(body, 'clientHeight', {configurable: true, get: () => this.#height});
    // Until the library runs, the canvas keeps its size.
    for (const [side, own] of Object.entries({width: canvas.width, height: canvas.height})) {
      Object.defineProperty(canvas, side, {configurable: true, get: () => own, set: () => {}});
    }
    /** @param {Node} owner @param {string} name @param {(...args: never[]) => Node} value */
    const instead = (owner, name, value) => Object.defineProperty(owner, name, {configurable: true, value});
    /** @param {string} name @param {ElementCreationOptions} [options] */
    const create = (name, options) => (name === 'canvas' ? canvas
      : Document.prototype.createElement.call(document, name, options));
    instead(document, 'createElement', create);
    /** @param {Node} node */
    const append = (node) => (node === canvas ? node : Node.prototype.appendChild.call(body, node));
    instead(body, 'appendChild', append);
    this.#gate.install();
    this.#listen();
  }

  // Undoes what the library did to the rest of the page, once its program has begun.
  settle() {
    const canvas = this.#canvas;
    if (!canvas) return;
    for (const [owner, name] of /** @type {const} */ ([[document, 'createElement'], [document.body, 'appendChild'],
      [canvas, 'width'], [canvas, 'height']])) Reflect.deleteProperty(owner, name);
    this.#gate.restore();
    canvas.removeAttribute('tabindex');
    for (const element of [document.documentElement, document.body]) element.removeAttribute('style');
    const views = document.querySelectorAll('meta[name=viewport]');
    for (const extra of [...views].slice(1)) extra.remove();
    this.#follow();
  }

  /** @param {ResizeObserverEntry} [entry] */
  #measure(entry) {
    const ratio = globalThis.devicePixelRatio || 1;
    const exact = entry?.devicePixelContentBoxSize?.[0];
    const width = agreed(this.#host.clientWidth * ratio, exact?.inlineSize);
    const height = agreed(this.#host.clientHeight * ratio, exact?.blockSize);
    const changed = width !== this.#width || height !== this.#height;
    this.#width = Math.max(1, width);
    this.#height = Math.max(1, height);
    return changed;
  }

  // Follows the host's size and the screen's pixel ratio.
  #follow() {
    const observer = new ResizeObserver(([entry]) => {
      if (this.#measure(entry)) this.#resized();
    });
    try {
      observer.observe(this.#host, {box: 'device-pixel-content-box'});
    } catch {
      observer.observe(this.#host);
    }
    const watch = () => {
      const query = matchMedia(`(resolution: ${devicePixelRatio}dppx)`);
      query.addEventListener('change', () => {
        this.#measure();
        this.#resized();
        watch();
      }, {once: true});
    };
    watch();
  }

  #resized() {
    globalThis.dispatchEvent(new Event('resize'));
    this.#gate.wake();
  }

  #listen() {
    const host = this.#host;
    /**
     * @template {keyof HTMLElementEventMap} K
     * @param {K} kind
     * @param {(event: HTMLElementEventMap[K]) => void} hear
     * @param {AddEventListenerOptions} [options]
     */
    const on = (kind, hear, options = {}) => host.addEventListener(kind, hear, {capture: true, ...options});
    on('pointerdown', (event) => this.#down(event));
    on('pointermove', (event) => {
      // The browser gathers the moves of a frame. A line drawn by hand needs them all, a drag only the last.
      const all = 'fine' in host.dataset && this.#held.has(event.pointerId) ? event.getCoalescedEvents?.() ?? [] : [];
      for (const each of all.length ? all : [event]) this.#send('move', each);
    });
    on('pointerup', (event) => this.#release('up', event));
    on('pointercancel', (event) => this.#release('cancel', event));
    on('lostpointercapture', (event) => this.#release('cancel', event));
    on('pointerleave', (event) => {
      if (!this.#held.has(event.pointerId)) this.#send('leave', event);
    });
    on('wheel', (event) => this.#wheel(event), {passive: false});
    on('keydown', (event) => this.#key(event, true));
    on('keyup', (event) => this.#key(event, false));
    on('blur', () => {
      this.#space = false;
      editor.key('', 0, false, false); // a key held down is let go
    });
    on('contextmenu', (event) => {
      if (this.#touched || this.#held.size) event.preventDefault();
    });
    globalThis.addEventListener('blur', () => this.#letGo());
  }

  // Takes up a gesture that began before the editor was there: its press, where the hand is, and whether it let go.
  /** @param {PointerEvent} down @param {PointerEvent} last @param {boolean} over */
  resume(down, last, over) {
    this.#down(down);
    this.#send('move', last);
    if (over) this.#release('up', last);
  }

  /** @param {PointerEvent} event */
  #down(event) {
    if (event.button > 1) return;
    this.#touched = event.pointerType !== 'mouse';
    event.preventDefault();
    this.#host.focus({preventScroll: true});
    try {
      this.#host.setPointerCapture(event.pointerId);
    } catch { /* the pointer has gone already */ }
    this.#held.set(event.pointerId, {type: event.pointerType, pan: event.button === 1 || this.#space});
    this.#send('down', event);
    clearTimeout(this.#rest);
    if (this.#touched && this.#held.size === 1) this.#rest = setTimeout(() => this.#send('rest', event), REST);
  }

  /** @param {string} kind @param {PointerEvent} event */
  #release(kind, event) {
    if (!this.#held.has(event.pointerId)) return;
    clearTimeout(this.#rest);
    this.#send(kind, event);
    this.#held.delete(event.pointerId);
  }

  // Ends every gesture in hand, when the window loses the keyboard or the pointer.
  #letGo() {
    for (const [id, {type}] of this.#held) editor.pointer('cancel', id, 0, 0, 0, type);
    this.#held.clear();
    clearTimeout(this.#rest);
    this.#space = false;
  }

  /** @param {string} kind @param {PointerEvent} event */
  #send(kind, event) {
    const [x, y] = this.#place(event);
    const pan = this.#held.get(event.pointerId)?.pan ? PAN : 0;
    const cursor = editor.pointer(kind, event.pointerId, x, y, mods(event) | pan, event.pointerType || 'mouse');
    this.#host.style.cursor = this.#space && !this.#held.size ? 'grab' : cursor;
  }

  /** @param {WheelEvent} event */
  #wheel(event) {
    event.preventDefault();
    const unit = event.deltaMode === 1 ? LINE : event.deltaMode === 2 ? PAGE : 1;
    const [x, y] = this.#place(event);
    editor.wheel(x, y, event.deltaX * unit, event.deltaY * unit, mods(event));
  }

  /** @param {KeyboardEvent} event @param {boolean} down */
  #key(event, down) {
    if (passes(event)) return;
    if (event.key === ' ') {
      this.#space = down;
      event.preventDefault();
      this.#host.style.cursor = down ? 'grab' : '';
      return;
    }
    const held = event.getModifierState('AltGraph') ? mods(event) & SHIFT : mods(event);
    if (editor.key(event.key, held, down, event.repeat)) event.preventDefault();
  }

  /** @param {MouseEvent} event */
  #place(event) {
    const box = this.#host.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  }
}

// The browser's own count of device pixels where it is within a pixel of what the ratio gives: it knows how the host's
// edges were rounded. An emulated ratio is not in that count.
/** @param {number} computed @param {number} [counted] */
function agreed(computed, counted) {
  return counted !== undefined && Math.abs(counted - computed) <= 1 ? counted : Math.round(computed);
}

/** @param {MouseEvent | KeyboardEvent} event */
function mods(event) {
  return (event.shiftKey ? SHIFT : 0) | (event.ctrlKey || event.metaKey ? CONTROL : 0) | (event.altKey ? ALT : 0);
}

// Keys that belong to the browser and the page: Tab must always lead out of the canvas.
/** @param {KeyboardEvent} event */
function passes(event) {
  if (event.key === 'Tab' || event.isComposing || /^F\d+$/.test(event.key)) return true;
  // Some layouts write [ and ] with AltGraph, and it also looks like Ctrl+Alt.
  if (event.getModifierState('AltGraph')) return false;
  return event.ctrlKey || event.metaKey;
}
