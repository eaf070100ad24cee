// The gate: parks the editor's requestAnimationFrame while nothing changes, so that an idle page costs nothing.
//
// Close it before the editor's program starts (it takes its requestAnimationFrame then), open it again for everybody
// else once the program runs. wake() lets one frame through.

export class Gate {
  #real = globalThis.requestAnimationFrame.bind(globalThis);
  /** @type {FrameRequestCallback | null} */
  #parked = null; // the callback that waits
  #wanted = false; // a frame was asked for while none waited
  #due = false; // a frame is on its way

  // Puts the gate in place of requestAnimationFrame.
  install() {
    globalThis.requestAnimationFrame = (callback) => this.#ask(callback);
  }

  // Gives the browser's own back. The editor keeps the one it took.
  restore() {
    globalThis.requestAnimationFrame = this.#real;
  }

  wake() {
    if (this.#due) return;
    if (this.#parked) {
      const callback = this.#parked;
      this.#parked = null;
      this.#let(callback);
    } else {
      this.#wanted = true;
    }
  }

  /** @param {FrameRequestCallback} callback */
  #ask(callback) {
    if (this.#wanted) {
      this.#wanted = false;
      this.#let(callback);
    } else {
      this.#parked = callback;
    }
    return 0;
  }

  /** @param {FrameRequestCallback} callback */
  #let(callback) {
    this.#due = true;
    this.#real((time) => {
      this.#due = false;
      callback(time);
    });
  }
}
