// A press of a pointer shows before its work begins: the browser paints the pressed button first, and the work, which
// lays out and looks at the sheet, comes right after that. What a key or a script presses is done at once.

export function bindPresses() {
  addEventListener('click', (event) => {
    const control = event.target instanceof Element && event.target.closest('button, summary');
    if (!event.isTrusted || !event.detail || !(control instanceof HTMLElement)) return;
    event.stopImmediatePropagation();
    event.preventDefault();
    requestAnimationFrame(() => setTimeout(() => control.click()));
  }, {capture: true});
}
