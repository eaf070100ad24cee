// The step Make: what leaves the bench: the cut file, plates, the study, the job sheet and the picture. And what Sheet
// says of the stock.

import {editor} from './bridge.mjs';
import {byId, caution, find, make, pressed, sentenceOf, valueOf} from './dom.mjs';
/** @import {Lane, Progress} from './engine.mjs' */
/** @import {Ask} from './steps.mjs' */
import {Stopped} from './engine.mjs';
import {cleared, Declined, renderHolding} from './holding.mjs';
import {lettering} from './letters.mjs';
import {forgetNest, makeNest} from './nesting.mjs';
import {tell as passOn} from './notices.mjs';
import {download} from './files.mjs';
import {agreed, toldOf} from './plates.mjs';
import {bindSpeeds, renderSpeeds} from './speeds.mjs';
import {advice, doubt} from './stock.mjs';
import {chosenWay, forgetSteps, makeParts, makeSteps} from './steps.mjs';
import {bindWishes, renderWishes, wishes} from './wishes.mjs';
import {Bar} from './work.mjs';

const cut = byId('cut', HTMLButtonElement);
const picture = byId('picture', HTMLButtonElement);
const study = byId('study', HTMLButtonElement);
const job = byId('job', HTMLButtonElement);
const plates = byId('plates', HTMLButtonElement);
const made = byId('made');
const stock = byId('stock', HTMLInputElement);
const cutBy = byId('cut-by');
const format = byId('cut-format', HTMLSelectElement);
const larger = [
  {id: 'larger-steps', verb: /** @type {const} */ ('steps'), lay: makeSteps, doing: 'Finding the smallest sheet…'},
  {id: 'larger-parts', verb: /** @type {const} */ ('join'), lay: makeParts, doing: 'Looking for joints…'},
  {id: 'nest', verb: /** @type {const} */ ('nest'), lay: makeNest, doing: 'Laying the pieces on stock…'},
];
const bar = new Bar(byId('make-work'), cut);

/** @type {Lane} */
let lane;
/** @type {View} */
let view;
let refusal = ''; // why this stock is not cut

/** @param {Lane} engineLane */
export function bindMake(engineLane) {
  lane = engineLane;
  bindWishes();
  bindSpeeds(lane);
  cut.addEventListener('click', makeCut);
  picture.addEventListener('click', makePicture);
  study.addEventListener('click', makeStudy);
  plates.addEventListener('click', makePlates);
  job.addEventListener('click', makeJob);
  pressed('mask', makeMask);
  for (const each of larger) pressed(each.id, () => makeLarger(each));
  cutBy.addEventListener('change', (event) => passOn(editor.command('cut', {text: valueOf(event)})));
  stock.addEventListener('change', () => passOn(editor.command('stock', {text: stock.value.trim()})));
}

/** @param {View} next */
export function renderMake(next) {
  view = next;
  const {stock: name, thickness, bridge, cut: how} = view.sheet;
  renderWishes(view);
  renderSpeeds(view);
  find(cutBy, `[value=${how || 'laser'}]`, HTMLInputElement).checked = true;
  if (!stock.matches(':focus')) stock.value = name;
  refusal = view.sheet.refusal;
  caution(byId('stock-caution'), refusal || doubt(name));
  byId('stock-caution').classList.toggle('refused', Boolean(refusal));
  caution(byId('make-refused'), refusal);
  byId('bridge-hint').textContent = advice(thickness, bridge, view.units);
  counts(view);
  if (view.revision !== revision && !busy) { // they spoke of another draft
    made.textContent = '';
    forgetSteps();
    forgetNest();
  }
  revision = view.revision;
  lock();
  renderHolding(view);
  renderMask();
}

// A mask is cut for the subjects behind which the pattern runs on, or for all where there is none.
function renderMask() {
  const {subjects} = view;
  byId('mask-of').hidden = !subjects.length;
  const behind = subjects.filter(({edge}) => edge === 'behind');
  const names = (behind.length ? behind : subjects).map(({name}) => name).join(', ');
  byId('mask-hint').textContent = `Of ${names}, on a sheet like the stencil’s with the same registration marks.`
    + (behind.length ? '' : ' The pattern gives way to it already; a mask keeps it clean.');
}

// Figures that are not known yet have their place already, so that nothing moves when they come.
/** @param {View} view */
function counts({counts: n, areas, verdict}) {
  // areas.sheet is what is left of it.
  const away = areas?.sheet ? `${Math.round(100 * areas.open / (areas.open + areas.sheet))} %` : '…';
  /** @type {[string, string | number][]} */
  const rows = verdict.state === 'empty' ? [] : [['copies', n?.copies ?? '…'], ['openings', n?.openings ?? '…'],
    ['islands', n?.islands ?? '…'], ['cut away', away]];
  const key = JSON.stringify(rows);
  const place = byId('counts');
  if (place.dataset.rows === key) return;
  place.dataset.rows = key;
  place.replaceChildren(...rows.map(([name, value]) => {
    const pair = make('div');
    pair.append(make('dt', '', name), make('dd', '', value.toLocaleString('en-GB')));
    return pair;
  }));
}

let busy = false;
let revision = 0;

function lock() {
  const empty = view.verdict.state === 'empty';
  cut.disabled = busy || empty || Boolean(refusal);
  const offered = view.verdict.state !== 'fails' && !refusal; // what does not hold is not what stands out
  cut.classList.toggle('main', offered);
  for (const name of ['plain', 'edged']) cut.classList.toggle(name, !offered);
  picture.disabled = study.disabled = busy || empty;
  job.disabled = plates.disabled = busy || empty || Boolean(refusal);
  for (const id of ['plates-row', 'study-key', 'larger-plates']) byId(id).hidden = view.paint.colours.length < 2;
  for (const {id} of larger) byId(id, HTMLButtonElement).disabled = cut.disabled;
  byId('mask', HTMLButtonElement).disabled = busy || Boolean(refusal);
}

/**
 * Work on what is cut: the verdict is waited for first. run gets what asks the engine.
 * @param {string} doing
 * @param {Verb} verb
 * @param {(ask: Ask) => Promise<string>} run
 */
const checked = (doing, verb, run) => work('', verb, async (begin) => {
  const {draft, unsound, unchecked} = await cleared(bar, tell);
  tell(doing);
  const progress = begin();
  return run((name, args) => lane.ask(name, {draft, unsound, ...args, cut: {...cutWishes(), unchecked}}, {progress}));
});

// What is wished of a cut file, and what it says of itself: units, date, the link that opens the draft.
function cutWishes() {
  const wish = wishes('cut'), {fragment} = editor.link();
  const label = typeof wish.label === 'object' && !Array.isArray(wish.label) ? wish.label : {};
  return {...wish, units: view.units, label: {...label, date: today()}, link: fragment ? address() + fragment : ''};
}

const today = () => new Date().toISOString().slice(0, 10);
const address = () => location.origin + location.pathname;

async function makeCut() {
  await checked('Working out the cut lines…', 'cut', async (ask) => {
    const {value, bytes} = await ask('cut', {format: format.value});
    const said = handOver([bytes], value.type, `.${format.value}`);
    return [`${said}.`, ...(value.notes ?? [])].join(' ');
  });
}

// A file for each colour. Each is checked as a sheet of its own; where one does not hold the person is asked first.
async function makePlates() {
  await work('Parting the colours…', 'cut', async (begin) => {
    const progress = begin();
    const overTies = Boolean(wishes('plates').overTies);
    const args = {draft: editor.save(), plates: true, overTies, format: format.value, cut: cutWishes()};
    const {value, bytes} = await lane.ask('cut', args, {progress});
    const parted = value.plates ?? [];
    await agreed(parted);
    for (const {number, offset, length} of parted) {
      handOver([bytes.subarray(offset, offset + length)], value.type, `-${number}.${format.value}`);
    }
    return toldOf(parted, overTies);
  });
}

async function makeMask() {
  await work('Working out the mask…', 'cut', async (begin) => {
    const progress = begin();
    const {growth = 0} = wishes('mask');
    const args = {draft: editor.save(), format: format.value, cut: cutWishes(), mask: true, growth: Number(growth)};
    const {value, bytes} = await lane.ask('cut', args, {progress});
    const said = handOver([bytes], value.type, `-mask.${format.value}`);
    return [`${said}.`, ...(value.notes ?? [])].join(' ');
  });
}

async function makePicture() {
  await work('Painting the picture…', 'picture', async (begin) => {
    const progress = begin();
    const width = Number(byId('picture-width', HTMLSelectElement).value);
    const options = {...wishes('picture'), view: view.paint.look, units: view.units, width};
    const {bytes} = await lane.ask('picture', {draft: editor.save(), picture: options}, {progress});
    return `${handOver([bytes], 'image/png', '.png')}.`;
  });
}

/** @param {typeof larger[number]} which */
async function makeLarger({doing, verb, lay}) {
  await checked(doing, verb, async (ask) => {
    const drawn = await lettering(view.title, lane);
    return lay(view, editor.filename(), format.value, drawn, ask);
  });
}

async function makeStudy() {
  await work('Laying out the pages…', 'study', async (begin) => {
    const progress = begin();
    const options = {...wishes('study'), units: view.units, lettering: await lettering(view.title, lane)};
    const {value, bytes} = await lane.ask('study', {draft: editor.save(), study: options}, {progress});
    const {pages, rows, columns, paper} = value.made;
    const said = handOver([bytes], 'application/pdf', '-study.pdf');
    return `${said}: ${pages} pages of ${paper}, a map and ${rows} ${rows === 1 ? 'row' : 'rows'} of ${columns}.`;
  });
}

async function makeJob() {
  await work('Writing the job sheet…', 'job', async (begin) => {
    const progress = begin();
    const name = editor.filename();
    const options = {
      ...wishes('job'), ...wishes('paint'), units: view.units, date: today(), file: `${name}.openwork.json`,
      address: address(), cutFile: `${name}.${format.value}`, lettering: await lettering(view.title, lane),
      ...chosenWay(),
    };
    const {bytes} = await lane.ask('job', {draft: editor.save(), cut: cutWishes(), job: options}, {progress});
    return `${handOver([bytes], 'application/pdf', '-job.pdf')}.`;
  });
}

// Puts a file named after the draft into the downloads, and says so.
/** @param {BlobPart[]} parts @param {string} type @param {string} ending */
function handOver(parts, type, ending) {
  const name = `${editor.filename()}${ending}`;
  download(new Blob(parts, {type}), name);
  return `${name} is in your downloads`;
}

// Says what is being made, in sight: on a narrow screen the line lies below the buttons.
/** @param {string} text */
function tell(text) {
  made.textContent = text;
  if (text) made.scrollIntoView({block: 'nearest'});
}

/**
 * Carries out one piece of work; run gets what brings out the bar and returns what hears how far it has come.
 * @param {string} doing
 * @param {Verb} verb
 * @param {(begin: () => Progress) => Promise<string>} run
 */
async function work(doing, verb, run) {
  busy = true;
  lock();
  made.classList.remove('wrong');
  tell(doing);
  try {
    made.textContent = await run(() => bar.begin(() => lane.stop(verb)));
  } catch (error) {
    if (error instanceof Declined) {
      made.textContent = '';
      return;
    }
    if (error instanceof Stopped) {
      made.textContent = 'Stopped; nothing was made.';
      return;
    }
    made.classList.add('wrong');
    tell(sentenceOf(error));
  } finally {
    bar.end();
    busy = false;
    lock();
  }
}
