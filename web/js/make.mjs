// Step 5: what leaves the bench: the cut file, the study, the job sheet and the picture. And what step 4 says of the stock.

import {editor} from './bridge.mjs';
import {Stopped} from './engine.mjs';
import {cleared, Declined, renderHolding} from './holding.mjs';
import {alarm} from './notices.mjs';
import {download} from './files.mjs';
import {forgetSteps, makeParts, makeSteps} from './steps.mjs';
import {write} from './units.mjs';
import {bindWishes, wishes} from './wishes.mjs';
import {Bar} from './work.mjs';

const byId = (id) => document.getElementById(id);
const cut = byId('cut');
const picture = byId('picture');
const study = byId('study');
const job = byId('job');
const made = byId('made');
const stock = byId('stock');
const larger = [[byId('larger-steps'), 'steps', makeSteps], [byId('larger-parts'), 'join', makeParts]];
const bar = new Bar(byId('make-work'), cut);

const known = [...byId('stocks').options].map((option) => option.value);

let lane;
let view = null;
let refusal = ''; // why this stock is not cut

export function bindMake(engineLane) {
  lane = engineLane;
  bindWishes();
  cut.addEventListener('click', makeCut);
  picture.addEventListener('click', makePicture);
  study.addEventListener('click', makeStudy);
  job.addEventListener('click', makeJob);
  for (const [button, verb, make] of larger) button.addEventListener('click', () => makeLarger(verb, make));
  stock.addEventListener('change', () => {
    const sentence = editor.command('stock', {text: stock.value.trim()});
    if (sentence) alarm(sentence);
  });
}

export function renderMake(next) {
  view = next;
  const {stock: name, thickness, bridge} = view.sheet;
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
  }
  revision = view.revision;
  lock();
  renderHolding(view);
}

function caution(element, text) {
  element.hidden = !text;
  if (element.textContent !== text) element.textContent = text;
}

function doubt(name) {
  if (!name.trim()) return 'Say what the sheet is made of: the shop must know before it is cut.';
  if (known.some((each) => name.toLowerCase().includes(each.split(' ').pop()))) return '';
  return 'Ask the shop whether it cuts this stock, by its own material list and the maker’s safety data sheet. A plastic nobody can name is not for the laser.';
}

function advice(thickness, bridge, units) {
  const say = (mm) => `${write(mm, 'fine', units)} ${units}`;
  const twice = 2 * thickness;
  if (bridge < twice) return `Common practice for the palette knife: no bridge under twice the sheet’s thickness, here ${say(twice)}.`;
  return `Common practice: ${say(3)} under a palette knife, ${say(2)} under a brush; for the knife never under twice the thickness.`;
}

function counts({counts: n, areas}) {
  const rows = [];
  if (n) rows.push(['copies', n.copies], ['openings', n.openings], ['islands', n.islands]);
  if (areas?.sheet) rows.push(['cut away', `${Math.round(100 * areas.open / (areas.open + areas.sheet))} %`]); // sheet is what is left of it
  const key = JSON.stringify(rows);
  const place = byId('counts');
  if (place.dataset.rows === key) return;
  place.dataset.rows = key;
  place.replaceChildren(...rows.map(([name, value]) => {
    const pair = document.createElement('div');
    const term = document.createElement('dt');
    const what = document.createElement('dd');
    term.textContent = name;
    what.textContent = typeof value === 'number' ? value.toLocaleString('en-GB') : value;
    pair.append(term, what);
    return pair;
  }));
}

let busy = false;
let revision = 0;

function lock() {
  const empty = view.verdict.state === 'empty';
  cut.disabled = busy || empty || Boolean(refusal);
  picture.disabled = study.disabled = busy || empty;
  job.disabled = busy || empty || Boolean(refusal);
  for (const [button] of larger) button.disabled = cut.disabled;
}

// Work on what is cut: the verdict is waited for first. run gets what asks the engine.
const checked = (doing, verb, run) => work('', verb, async (begin) => {
  const {draft, unsound, unchecked} = await cleared(bar, tell);
  tell(doing);
  const told = begin();
  return run((name, args) => lane.ask(name, {draft, unsound, ...args, cut: {...wishes('cut'), unchecked}}, {told}));
});

async function makeCut() {
  await checked('Working out the cut lines…', 'cut', async (ask) => {
    const format = byId('cut-format').value;
    const {value, bytes} = await ask('cut', {format});
    const name = `${editor.filename()}.${format}`;
    download(new Blob([bytes], {type: value?.type || 'image/svg+xml'}), name);
    return [`${name} is in your downloads.`, ...(value?.notes ?? [])].join(' ');
  });
}

async function makePicture() {
  await work('Painting the picture…', 'picture', async (begin) => {
    const told = begin();
    const options = {...wishes('picture'), width: Number(byId('picture-width').value)};
    const {bytes} = await lane.ask('picture', {draft: editor.save(), picture: options}, {told});
    const name = `${editor.filename()}.png`;
    download(new Blob([bytes], {type: 'image/png'}), name);
    return `${name} is in your downloads.`;
  });
}

async function makeLarger(verb, make) {
  const doing = verb === 'steps' ? 'Finding the smallest sheet…' : 'Looking for joints…';
  await checked(doing, verb, (ask) => make(view, editor.filename(), byId('cut-format').value, ask));
}

async function makeStudy() {
  await work('Laying out the pages…', 'study', async (begin) => {
    const told = begin();
    const {value, bytes} = await lane.ask('study', {draft: editor.save(), study: wishes('study')}, {told});
    const name = `${editor.filename()}-study.pdf`;
    download(new Blob([bytes], {type: 'application/pdf'}), name);
    const {pages, rows, columns, paper} = value.made;
    return `${name} is in your downloads: ${pages} pages of ${paper}, a map and ${rows} ${rows === 1 ? 'row' : 'rows'} of ${columns}.`;
  });
}

async function makeJob() {
  await work('Writing the job sheet…', 'job', async (begin) => {
    const told = begin();
    const options = {...wishes('job'), date: new Date().toISOString().slice(0, 10), file: `${editor.filename()}.openwork.json`, address: location.origin + location.pathname};
    const {bytes} = await lane.ask('job', {draft: editor.save(), cut: wishes('cut'), job: options}, {told});
    const name = `${editor.filename()}-job.pdf`;
    download(new Blob([bytes], {type: 'application/pdf'}), name);
    return `${name} is in your downloads.`;
  });
}

// Says what is being made, in sight: on a narrow screen the line lies below the buttons.
function tell(text) {
  made.textContent = text;
  if (text) made.scrollIntoView({block: 'nearest'});
}

// Carries out one piece of work; run gets what brings out the bar and returns what is told how far it has come.
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
    tell(error.message);
  } finally {
    bar.end();
    busy = false;
    lock();
  }
}
