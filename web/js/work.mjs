// A bar that shows how far a long piece of work has come, with a way to stop it. It comes out only once the work has
// taken a while, so that what is quick does not flicker.

import {find} from './dom.mjs';

const PATIENCE = 400; // ms

export class Bar {
  #root;
  #part;
  #button;
  #home;
  #timer = 0;
  /** @type {(() => void) | null} */
  #stop = null;

  /**
   * root holds a <progress> and a button; home is where the focus goes when the bar goes with it.
   * @param {HTMLElement} root
   * @param {HTMLElement} home
   */
  constructor(root, home) {
    this.#root = root;
    this.#home = home;
    this.#part = find(root, 'progress', HTMLProgressElement);
    this.#button = find(root, 'button');
    this.#button.addEventListener('click', () => this.#stop?.());
  }

  /**
   * Begins to watch a piece of work; stop ends it. Returns what hears how far it has come, from 0 to 1.
   * @param {() => void} stop
   * @returns {(part: number) => void}
   */
  begin(stop) {
    this.end();
    this.#stop = stop;
    this.#part.removeAttribute('value'); // not known yet
    this.#timer = setTimeout(() => { this.#root.hidden = false; }, PATIENCE);
    return (part) => { this.#part.value = part; };
  }

  end() {
    clearTimeout(this.#timer);
    this.#stop = null;
    const had = this.#root.contains(document.activeElement);
    this.#root.hidden = true;
    if (had) this.#home.focus();
  }
}
