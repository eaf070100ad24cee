// A click of a pointer is put off by a frame: the browser paints the pressed button first, and the work, which lays out
// and looks at the sheet, comes right after that. What a key or a script clicks is done at once.

export function deferClicks() {
  addEventListener('click', (event) => {
    const control = event.target instanceof Element && event.target.closest('button, summary');
    if (!event.isTrusted || !event.detail || !(control instanceof HTMLElement)) return;
    event.stopImmediatePropagation();
    event.preventDefault();
    requestAnimationFrame(() => setTimeout(() => control.click()));
  }, {capture: true});
}
