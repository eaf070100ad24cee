// Number fields: show what the editor says, send what the person typed, and say beside the field what was wrong with
// it.
//
// An input with data-field="sheet.kerf" sends the command "sheet" with {values: {kerf: …}}. data-unit is a kind of
// units.mjs; data-blank is what an empty field (0) stands for.

import {editor} from './bridge.mjs';
import {every, make} from './dom.mjs';
/** @import {Kind} from './units.mjs' */
import {factor, kindNamed, kindOf, parse, write} from './units.mjs';

const PAUSE = 350; // ms without a further arrow key before a stepped value is sent

let serial = 0;
/** @type {Units} */
let units = 'mm';
/** @type {{field: NumberField, input: HTMLInputElement, command: string, name: string}[]} */
const all = [];

export class NumberField {
  #input;
  #kind;
  #blank;
  #send;
  #said = ''; // the text the editor last stood for
  #after;
  #shell;
  #timer = 0;
  /** @type {HTMLElement | null} */
  #wrong = null;
  #stood = ''; // the text of the editor's value when something wrong was typed over it
  #zero; // nought is a value like others, and no empty field
  #unit; // written behind the field instead of the kind's own

  /**
   * send(value) applies the value and answers '' or a sentence. unit, if given, is written behind the field. zero says
   * that nought is a value like others; otherwise it stands for what an empty field does.
   * @param {HTMLInputElement} input
   * @param {Kind} kind
   * @param {(value: number) => string} send
   */
  constructor(input, kind, send, unit = '', zero = false) {
    this.#unit = unit;
    this.#zero = zero;
    this.#input = input;
    this.#kind = kind;
    this.#send = send;
    this.#blank = input.dataset.blank;
    input.type = 'text';
    input.inputMode = 'decimal';
    input.autocomplete = 'off';
    input.id ||= `number-${++serial}`;
    if (this.#blank) input.placeholder = this.#blank;
    this.#after = make('span', 'after', unit);
    const shell = this.#shell = make('span', 'shell');
    shell.dataset.after = String(unit.length);
    input.replaceWith(shell);
    shell.append(input, this.#after);
    input.addEventListener('change', () => this.#commit());
    input.addEventListener('keydown', (event) => this.#key(event));
    input.addEventListener('focus', () => input.select());
    input.addEventListener('blur', () => {
      if (this.#timer) this.#commit();
    });
  }

  get dirty() {
    return this.#input.value !== this.#said;
  }

  // Shows the editor's value, unless the person is in the middle of typing another.
  /** @param {number | null} value @param {Units} unitsNow */
  show(value, unitsNow) {
    const unit = this.#unit || kindOf(this.#kind, unitsNow).after;
    this.#after.textContent = unit;
    this.#shell.dataset.after = String(unit.length); // how much room it takes (short.css)
    if (this.#blank && !Number.isNaN(Number(this.#blank))) { // a usual value, in mm
      this.#input.placeholder = write(Number(this.#blank), this.#kind, unitsNow);
    }
    const text = value === null || (this.#blank && !value && !this.#zero) ? '' : write(value, this.#kind, unitsNow);
    if (this.#wrong && text === this.#stood) return; // what was typed stays, with what is wrong with it
    if (this.dirty && this.#input.matches(':focus')) {
      this.#said = text;
      this.#stood = text;
      return;
    }
    this.#put(text);
  }

  /** @param {boolean} disabled */
  disable(disabled) {
    this.#input.disabled = disabled;
  }

  /** @param {string} text */
  #put(text) {
    this.#said = text;
    this.#stood = text;
    if (this.#input.value !== text) this.#input.value = text;
    this.#blame('');
  }

  #commit() {
    clearTimeout(this.#timer);
    this.#timer = 0;
    if (!this.dirty) return this.#blame('');
    const text = this.#input.value.trim();
    const value = text === '' && this.#blank ? 0 : parse(text, this.#kind, units);
    if (Number.isNaN(value)) {
      const such = this.#stood || '12.5';
      return this.#blame(`“${text}” is not a number. Type one, such as ${such}; Escape brings the old one back.`);
    }
    this.#said = this.#input.value; // the editor's answer may now be shown
    const sentence = this.#send(value);
    if (sentence) this.#said = '\u0000'; // what stands here is not what the editor holds
    this.#blame(sentence);
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    if (event.key === 'Enter') {
      event.preventDefault();
      this.#commit();
      this.#input.select();
    } else if (event.key === 'Escape' && (this.dirty || this.#wrong)) {
      event.preventDefault();
      event.stopPropagation();
      clearTimeout(this.#timer);
      this.#timer = 0;
      refresh();
    } else if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
      event.preventDefault();
      this.#step(event.key === 'ArrowUp' ? 1 : -1, event.shiftKey ? 10 : 1);
    }
  }

  /** @param {number} sign @param {number} times */
  #step(sign, times) {
    const value = parse(this.#input.value || '0', this.#kind, units);
    if (Number.isNaN(value)) return;
    const {step, whole} = kindOf(this.#kind, units);
    const unit = factor(this.#kind, units);
    const next = whole ? wholeBeside(value, sign) + sign * (times - 1) : value + sign * times * step * unit;
    this.#input.value = write(whole ? Math.max(1, next) : next, this.#kind, units);
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#commit(), PAUSE);
  }

  // Forgets what was typed and shows the editor's value again.
  /** @param {number | null} value @param {Units} unitsNow */
  revert(value, unitsNow) {
    this.#said = this.#input.value;
    this.#blame('');
    this.show(value, unitsNow);
  }

  /** @param {string} sentence */
  #blame(sentence) {
    if (!sentence) {
      this.#wrong?.remove();
      this.#wrong = null;
      this.#input.removeAttribute('aria-invalid');
      this.#input.removeAttribute('aria-describedby');
      return;
    }
    if (!this.#wrong) {
      this.#wrong = make('p', 'wrong');
      this.#wrong.id = `${this.#input.id}-wrong`;
      this.#wrong.setAttribute('role', 'alert');
      this.#input.closest('.field, .choice, .count')?.after(this.#wrong);
    }
    this.#wrong.textContent = sentence;
    this.#input.setAttribute('aria-invalid', 'true');
    this.#input.setAttribute('aria-describedby', this.#wrong.id);
  }
}

// True while some field holds text that was not sent.
export function typing() {
  return all.some(({field, input}) => input.matches(':focus') && field.dirty);
}

/** @type {View | undefined} */
let last;

// Makes number fields of every input with data-field. Which motif "place" speaks of, the view says.
export function bindFields() {
  for (const input of every(document, 'input[data-field]', HTMLInputElement)) {
    const [command, name] = (input.dataset.field ?? '').split('.');
    const field = new NumberField(input, kindNamed(input.dataset.unit), (value) => {
      if (command === 'pen') return editor.pen(name, '', value);
      /** @type {Omit<Command, 'name'>} */
      const rest = {values: {[name]: value}};
      // The strip under the panel speaks of what is in hand, be it a motif or a subject.
      if (command === 'place' && last?.subject) return editor.command('subjectPlace', {...rest, id: last.subject});
      if (command === 'place') rest.id = last?.selected;
      if (command === 'subjectPlace') rest.id = last?.subject;
      if (command === 'lay') rest.text = last?.repeat.lay;
      return editor.command(command, rest);
    });
    all.push({field, input, command, name});
  }
}

// Shows the view's values in every field.
/** @param {View} view */
export function renderFields(view) {
  last = view;
  units = view.units;
  for (const {field, command, name} of all) field.show(valueOf(view, command, name), units);
  for (const {field, command, name} of all) {
    if (command === 'cell') field.disable(view.repeat.free[name] === false);
    if (command === 'repeats') field.disable(view.repeats[name] === null);
    if (command === 'pen') field.disable(valueOf(view, command, name) === null);
  }
}

function refresh() {
  if (!last) return;
  for (const {field, input, command, name} of all) {
    if (input.matches(':focus')) field.revert(valueOf(last, command, name), units);
  }
}

// What a field shows: null for nothing.
/** @param {View} view @param {string} command @param {string} name */
function valueOf(view, command, name) {
  const {panel, field, sheet, lay, retie, repeat, repeats, pen, paint} = view;
  const subject = view.subjects.find(({id}) => id === view.subject);
  if (command === 'place') return number(subject ?? view.motifs.find((motif) => motif.id === view.selected), name);
  if (command === 'subjectPlace') return number(subject, name);
  if (command === 'pen') return number(pen, name);
  if (command === 'repeats') return number(repeats, name);
  /** @type {Record<string, object>} */
  const parts = {panel, field, sheet, lay, retie, cell: repeat, paste: paint.reckoned};
  return number(parts[command], name) ?? 0;
}

// The member of a part of the view when it is a number, else null.
/** @param {object | undefined} part @param {string} name @returns {number | null} */
function number(part, name) {
  const value = Object.entries(part ?? {}).find(([key]) => key === name)?.[1];
  return typeof value === 'number' ? value : null;
}

// The next whole number above (sign 1) or below (−1).
/** @param {number} value @param {number} sign */
function wholeBeside(value, sign) {
  return sign > 0 ? Math.floor(value + 1) : Math.ceil(value - 1);
}
