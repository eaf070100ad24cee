// The painter's swatches: the list of them, and swatches as CSS colours or as a table, read and written.

import {editor} from './bridge.mjs';
import {button, byId, every, make, pressed, sentenceOf} from './dom.mjs';
import {download, tooLarge} from './files.mjs';
import {say, tell} from './notices.mjs';

const LONGEST = 200_000; // bytes of a file of swatches
const FRESH = '#8a6f4d'; // of a new swatch

const list = byId('swatches');
const said = byId('swatch-said');
const file = byId('swatch-file', HTMLInputElement);

/** @type {SwatchView[]} */
let swatches = [];
let shown = '';

export function bindSwatches() {
  pressed('swatch-new', () => {
    tell(editor.command('swatch', {swatches: [fresh()]}));
    globalThis.openworkChanged();
    const made = every(list, '.swatch-name', HTMLInputElement).at(-1);
    made?.focus();
    made?.select();
  });
  pressed('swatch-in', () => file.click());
  file.addEventListener('change', () => {
    const [chosen] = file.files ?? [];
    file.value = '';
    if (chosen) bringIn(chosen);
  });
  pressed('swatch-css', () => save('css', 'text/css', asCSS()));
  pressed('swatch-table', () => save('csv', 'text/csv', asTable()));
}

/** @returns {Swatch} */
function fresh() {
  return {id: '', name: `Swatch ${swatches.length + 1}`, colour: FRESH};
}

/** @param {SwatchView[]} now */
export function renderSwatches(now) {
  swatches = now;
  const key = JSON.stringify(now);
  if (key === shown) return;
  shown = key;
  const active = document.activeElement;
  const focus = active instanceof HTMLElement && list.contains(active) ? active.dataset.key : '';
  const at = [...list.children].findIndex((item) => item.contains(active));
  list.replaceChildren(...now.map(row));
  if (focus) {
    const next = list.children[Math.min(at, now.length - 1)]?.querySelector('.swatch-name');
    const again = every(list, `[data-key="${CSS.escape(focus)}"]`)[0];
    (again ?? (next instanceof HTMLElement ? next : byId('swatch-new'))).focus();
  }
  for (const id of ['swatch-css', 'swatch-table']) byId(id, HTMLButtonElement).disabled = !now.length;
}

/** @param {SwatchView} swatch */
function row(swatch) {
  const {id, name, colour, note, value, used} = swatch;
  const item = make('li', 'swatch');
  /** @param {'colour' | 'name' | 'note'} member @param {string} type @param {string} label */
  const input = (member, type, label) => {
    const it = make('input', `swatch-${member}`);
    Object.assign(it, {type, value: swatch[member], maxLength: 200, autocomplete: 'off', spellcheck: false});
    if (type === 'color') it.removeAttribute('maxlength');
    it.setAttribute('aria-label', label);
    it.dataset.key = `${member} ${id}`;
    it.addEventListener('change', () => {
      const changed = {id, name, colour, note, [member]: it.value};
      tell(editor.command('reswatch', {id, swatches: [changed]}));
    });
    return it;
  };
  const noted = input('note', 'text', `Tube or mix of ${name}`);
  noted.placeholder = 'tube or mix';
  noted.title = note;
  const light = make('span', 'value', `L* ${Math.round(value)}`);
  light.title = 'How light it is, from 0 for black to 100 for white';
  const away = button('plain small', 'Take away', () => tell(editor.command('unswatch', {id})));
  away.setAttribute('aria-label', `Take away ${name}`);
  away.dataset.key = `away ${id}`;
  away.disabled = used;
  item.append(
    input('colour', 'color', `Colour of ${name}`),
    input('name', 'text', `Name of the swatch ${colour}`),
    noted, light, away,
  );
  return item;
}

/** @param {File} chosen */
async function bringIn(chosen) {
  try {
    const large = tooLarge(chosen, LONGEST);
    if (large) throw new Error(large);
    const found = read(await chosen.text());
    const sentence = editor.command('swatch', {swatches: found});
    if (sentence) throw new Error(sentence);
    say(said, `${found.length} ${found.length === 1 ? 'swatch was' : 'swatches were'} read from ${chosen.name}.`);
  } catch (error) {
    say(said, sentenceOf(error));
  }
}

// Swatches out of CSS colours (--verdigris: #17564a;) or a table (name, colour, note; a line each).
/** @param {string} text @returns {Swatch[]} */
export function read(text) {
  /** @type {Swatch[]} */
  const out = [];
  const declared = [...text.matchAll(/--([\w-]+)\s*:\s*([^;}]+);?[ \t]*(?:\/\*(.*?)\*\/)?/g)];
  for (const [, name, value, note = ''] of declared) {
    const colour = parsed(value.trim());
    if (!colour) throw new Error(`“${value.trim()}”, the value of --${name}, is not a colour; nothing was read.`);
    out.push({id: '', name: spoken(name), colour, note: note.trim()});
  }
  if (!declared.length) {
    text.split(/\r?\n/).forEach((line, i) => {
      const cells = cellsOf(line);
      const at = cells.findIndex((cell) => parsed(cell));
      if (at >= 0) {
        const rest = cells.filter((cell, k) => k !== at && cell);
        out.push({id: '', name: rest[0] ?? '', colour: parsed(cells[at]), note: rest.slice(1).join(', ')});
      } else if (i > 0 && line.trim()) { // the first line may be a heading
        throw new Error(`Line ${i + 1} has no colour: “${line.trim().slice(0, 60)}”. Nothing was read.`);
      }
    });
  }
  if (!out.length) throw new Error('There are no colours in this file: neither CSS colours nor a table of them.');
  return out;
}

// What stands between commas, semicolons or tabs, without its quotes; a comma in quotes or in brackets parts nothing.
/** @param {string} line */
function cellsOf(line) {
  const found = line.match(/(?:"(?:[^"]|"")*"|\([^)]*\)|[^,;\t"(])+/g) ?? [];
  return found.map((cell) => cell.trim().replace(/^"(.*)"$/, '$1').replaceAll('""', '"'));
}

// A CSS colour as #rrggbb; '' for what is none, or cannot be seen.
/** @param {string} text */
function parsed(text) {
  if (!/^#|^\w+\(|^[a-z]+$/i.test(text) || !CSS.supports('color', text)) return '';
  const context = document.createElement('canvas').getContext('2d');
  if (!context) return '';
  context.fillStyle = text;
  const colour = String(context.fillStyle);
  if (/^#[0-9a-f]{6}$/i.test(colour)) return colour;
  context.fillRect(0, 0, 1, 1); // another space, or partly transparent: what it looks like on nothing
  const [r, g, b, a] = context.getImageData(0, 0, 1, 1).data;
  return a < 255 ? '' : `#${[r, g, b].map((part) => part.toString(16).padStart(2, '0')).join('')}`;
}

/** @param {string} name */
const spoken = (name) => name.charAt(0).toUpperCase() + name.slice(1).replaceAll('-', ' ');

function asCSS() {
  /** @type {Set<string>} */
  const used = new Set();
  const lines = swatches.map(({name, colour, note}) => {
    const base = name.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '') || 'swatch';
    let own = base;
    for (let n = 2; used.has(own); n++) own = `${base}-${n}`;
    used.add(own);
    return `  --${own}: ${colour};${note ? ` /* ${note.replaceAll('*/', '* /')} */` : ''}\n`;
  });
  return `:root {\n${lines.join('')}}\n`;
}

function asTable() {
  /** @param {string} cell */
  const quoted = (cell) => /[",;\t(]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
  return ['name,colour,note', ...swatches.map(({name, colour, note}) => [name, colour, note].map(quoted).join(','))]
    .map((line) => `${line}\n`).join('');
}

/** @param {string} ending @param {string} type @param {string} text */
function save(ending, type, text) {
  const name = `${editor.filename()}-swatches.${ending}`;
  download(new Blob([text], {type}), name);
  say(said, `${name} is in your downloads.`);
}
