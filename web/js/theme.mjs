// Light and dark: the choice is kept in this browser, `color-scheme` on the root element does the rest (see style.css).
// Loaded before the first paint, and so it also says whether the page opens on the demonstration, which it shows itself
// until the editor draws.

const KEY = 'openwork:theme';
const root = document.documentElement;
const dark = matchMedia('(prefers-color-scheme: dark)');

let listener = () => {};

// 'light', 'dark', or '' for what the system says.
export function chosen() {
  return root.dataset.theme ?? '';
}

// 'light' or 'dark': what is shown now.
export function shown() {
  return chosen() || (dark.matches ? 'dark' : 'light');
}

/** @param {string} theme */
export function choose(theme) {
  put(theme);
  try {
    if (theme) localStorage.setItem(KEY, theme);
    else localStorage.removeItem(KEY);
  } catch { /* not kept, but shown */ }
  listener();
}

// Calls back whenever what is shown may have changed.
/** @param {() => void} callback */
export function onChange(callback) {
  listener = callback;
  dark.addEventListener('change', () => listener());
  matchMedia('(forced-colors: active)').addEventListener('change', () => listener());
}

const names = ['ground', 'sheet', 'paint', 'ink', 'text', 'faint', 'accent', 'fault', 'warn', 'halo'];

// The canvas's colours as "#rrggbb", read from the style sheet's custom properties.
export function palette() {
  const probe = document.createElement('span');
  probe.hidden = true;
  probe.style.forcedColorAdjust = 'none'; // the drawing keeps its colours
  document.body.append(probe);
  /** @type {Record<string, string>} */
  const colours = {};
  for (const name of names) {
    probe.style.color = `var(--canvas-${name})`;
    colours[name] = hex(getComputedStyle(probe).color);
  }
  probe.remove();
  return colours;
}

/** @param {string} colour */
function hex(colour) {
  const parts = colour.match(/[\d.]+/g) ?? ['0', '0', '0'];
  return '#' + parts.slice(0, 3).map((part) => Math.round(Number(part)).toString(16).padStart(2, '0')).join('');
}

/** @param {string} theme */
function put(theme) {
  if (theme === 'light' || theme === 'dark') root.dataset.theme = theme;
  else delete root.dataset.theme;
}

try {
  put(localStorage.getItem(KEY) ?? '');
  const kept = ['openwork:draft', 'openwork:draft-at'].some((key) => localStorage.getItem(key));
  if (!kept && !location.hash) root.dataset.opens = 'demonstration';
} catch { /* storage is closed to this page */ }
