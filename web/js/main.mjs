// The page: wires the parts together and renders them all from the editor's one view state.

import {alive, editor, onGone} from './bridge.mjs';
import {bindBring, bring, renderBring} from './bring.mjs';
import {bindCheck, renderCheck} from './check.mjs';
import {bindCopies, renderCopies} from './copies.mjs';
import {deferClicks} from './clicks.mjs';
import {cover, renderEmpty} from './cover.mjs';
import {byId, every, sentenceOf} from './dom.mjs';
import {bindDraw, renderDraw} from './draw.mjs';
import {Lane} from './engine.mjs';
import {handOver} from './early.mjs';
import {bindEvenness, renderEvenness} from './evenness.mjs';
import {bindExamples, renderExamples} from './examples.mjs';
import {bindFields, renderFields} from './fields.mjs';
import {bindFiles, download, openAddress, save} from './files.mjs';
import {bindFitting, renderFitting} from './fitting.mjs';
import {bindFocus, bindSkips} from './focus.mjs';
import {Gate} from './gate.mjs';
import {buildGroups, drawGroups, renderGroups} from './groups.mjs';
import {bindGuide} from './guide.mjs';
import {bindHand, renderHand} from './hand.mjs';
import {bindHead, renderHead, restoreUnits} from './head.mjs';
import {bindHelp} from './help.mjs';
import {bindHints, renderHints} from './hints.mjs';
import {bindHistory} from './history.mjs';
import {bindHow, drawHow} from './how.mjs';
import {bindKeys} from './keys.mjs';
import {Labels} from './labels.mjs';
/** @import {Found} from './last.mjs' */
import {findLast, putAside, stored, textOf} from './last.mjs';
import {bindLeaving} from './leaving.mjs';
import {holdLast} from './local.mjs';
import {bindMake, renderMake} from './make.mjs';
import {bindNaming} from './naming.mjs';
import {alarm, note} from './notices.mjs';
import {bindPaint, renderPaint} from './paint.mjs';
import {bindOffline} from './offline.mjs';
import {bindPhoto, renderPhoto} from './photo.mjs';
import {bindPanel, renderPanel} from './panel.mjs';
import {bindColourings, renderColourings} from './colourings.mjs';
import {bindPaste, renderPaste} from './paste.mjs';
import {bindRepeat, renderRepeat} from './repeat.mjs';
import {renderSigns} from './signs.mjs';
import {bindSettling, renderSettling} from './settling.mjs';
import {bindShelf, COPIED, pictureShelf, showShelf} from './shelf.mjs';
import {bindSilhouettes, renderSilhouettes} from './silhouettes.mjs';
import {bindSite, renderSite} from './site.mjs';
import {Stage} from './stage.mjs';
import {Lacking, presented, start} from './start.mjs';
import {beganUnkept, bindStore, keep, openFound, renderStore} from './store.mjs';
import {onChange, palette, shown} from './theme.mjs';
import {bindTubes} from './tubes.mjs';
import {bindFigure, bindSubject, renderSubject} from './subject.mjs';
import {bindTies, renderTies} from './ties.mjs';
import {bindTicket, renderTicket, showStep} from './ticket.mjs';
import {bindUnkept} from './unkept.mjs';
import {bindVerdict, renderVerdict} from './verdict.mjs';

const host = byId('bench');
const gate = new Gate();
const stage = new Stage(host, gate);
const labels = new Labels(byId('labels', HTMLCanvasElement));
const checks = new Lane();
const works = new Lane();

const reload = {label: 'Reload', run: () => location.reload()};
const RENDER_EVERY = 100; // ms
let renderTimer = 0; // the timer of a rendering that waits
let renderedAt = 0; // when the last one was
let following = false; // a hand drags, and the page has heard of it
let heard = -1; // serial of the last message shown

globalThis.openworkWake = () => gate.wake();
globalThis.openworkLabels = (/** @type {string} */ json) => labels.show(JSON.parse(json));
globalThis.openworkChanged = renderSoon;

// The page hears at once that a hand drags. Then the look at the panel and the words follow it some ten times a second,
// each between two frames, and are right the moment it lets go.
function renderSoon() {
  const goesOn = following && stage.held;
  following = stage.held;
  if (!goesOn) return render();
  renderTimer ||= setTimeout(() => {
    editor.look();
    renderTimer = setTimeout(render, RENDER_EVERY / 2);
  }, Math.max(0, RENDER_EVERY - (performance.now() - renderedAt)));
}

function render() {
  clearTimeout(renderTimer);
  renderTimer = 0;
  renderedAt = performance.now();
  const view = editor.view();
  if (!view) return;
  renderHead(view);
  renderTicket(view);
  renderFields(view);
  renderSilhouettes(view);
  renderDraw(view);
  renderGroups(view);
  renderRepeat(view);
  renderFitting(view);
  renderEvenness(view);
  renderSigns(view);
  renderHand(view);
  renderCopies(view);
  renderSettling(view);
  renderSite(view);
  renderPanel(view);
  renderSubject(view);
  renderPhoto(view);
  renderPaint(view);
  renderColourings(view);
  renderPaste(view);
  renderMake(view);
  renderTies(view);
  renderBring(view);
  renderVerdict(view);
  renderEmpty(view);
  renderCheck(view);
  renderStore(view);
  renderExamples(view);
  renderHints(view);
  if (view.message && view.message.serial !== heard) {
    heard = view.message.serial;
    if (view.message.tone === 'error') alarm(view.message.text);
    else note(view.message.text);
  }
}

/** @param {string} name */
function act(name) {
  const sentence = editor.act(name);
  if (sentence) alarm(sentence);
  else if (name === 'new') note('An empty draft. Undo brings back what was open before.');
  gate.wake();
}

function colour() {
  const colours = palette();
  labels.colours(colours);
  if (!alive()) return;
  editor.theme(shown(), colours);
  gate.wake();
}

// What is opened first: the draft this browser kept, else the demonstration. A link in the address comes on top of it.
/** @param {string} demonstration @param {Found | null} found */
function firstDraft(demonstration, found) {
  if (demonstration) editor.demonstration(demonstration);
  const sentence = found && openFound(found);
  if (found && !sentence) {
    if (found.copy) note(COPIED, {stay: true});
    return;
  }
  if (found) aside(found, sentence ?? '');
  if (demonstration) editor.start(demonstration);
  beganUnkept();
}

// Puts a kept draft that would not open aside, and says what came of that.
/** @param {Found} found @param {string} sentence */
async function aside(found, sentence) {
  const put = putAside(found), safe = put === true || await put;
  if (!safe) holdLast();
  const done = safe ? 'and has been put aside; it is on the shelf.'
    : 'and there is no room to put it aside: save it before you change anything.';
  alarm(`The draft this browser kept would not open, ${done} ${sentence}`, {
    label: 'Save it as a file',
    run: () => download(new Blob([textOf(found)], {type: 'application/json'}), 'put-aside.openwork.json'),
  });
}

// The demonstration's text; '' when this copy of the page has none, and the bench begins empty.
async function demonstration() {
  try {
    const response = await fetch('demo.openwork.json');
    return response.ok ? await response.text() : '';
  } catch {
    return '';
  }
}

// Switches off what needs the editor; the kept draft can still be saved.
function switchOff() {
  const needy = '.step-body :is(input, select, button), .hand :is(input, select, button), [data-act], '
    + '#title, #units input, #copy-link, #open, #history-open';
  for (const control of every(document, needy)) control.toggleAttribute('disabled', true);
}

// The page without its drawing: says what is missing and what to do.
/** @param {string} sentence */
function withoutEditor(sentence) {
  document.body.classList.add('without');
  document.getElementById('first')?.remove();
  showStep('', false);
  switchOff();
  const kept = stored();
  const comfort = kept ? ' The last draft is kept in this browser and can still be saved as a file.' : '';
  const rescue = kept ? {label: 'Save the last draft', run: save} : null;
  cover('fault', 'The bench cannot be set up here.', sentence + comfort, rescue);
  byId('foot').dataset.state = 'error';
  byId('verdict-head').textContent = 'No verdict.';
  byId('verdict-line').textContent = 'Without the drawing there is nothing to judge.';
}

async function main() {
  bindTicket();
  bindFields();
  bindHead(act);
  bindSkips();
  onChange(colour);
  bindHelp();
  bindGuide();
  bindHints();
  bindHow();
  bindHistory();
  bindRepeat();
  bindFitting();
  bindHand();
  bindCopies();
  bindVerdict();
  bindPanel();
  bindSubject();
  bindPhoto();
  bindPaint();
  bindFiles((file) => bring(file));
  bindShelf(download);
  bindUnkept(save, showShelf);
  bindSilhouettes((id) => bring(null, id));
  bindBring();
  bindDraw();
  bindKeys(act);
  bindLeaving();
  bindNaming();
  deferClicks();
  bindFocus();
  colour();
  const shows = document.documentElement.dataset.opens === 'demonstration';
  if (!shows) cover('wait', 'Setting up the bench…');
  const waiting = every(document, '.ticket, .hand, .views, .head > .buttons, .title');
  for (const part of waiting) part.inert = true;
  host.addEventListener('surfacelost', () => {
    keep();
    alarm('The browser took the drawing surface away. Your draft is kept; reload the page to go on.', reload);
  });
  onGone((sentence) => {
    switchOff();
    alarm(sentence, reload);
  });
  if (shows) {
    // Starting keeps the processor busy: the picture goes on the screen before. A tab in the background shows nothing.
    const pictured = presented().then(() => performance.mark('openwork:first-picture'));
    await Promise.race([pictured, new Promise((go) => setTimeout(go, 300))]);
  }
  try {
    // The demonstration is also the way out when what was kept cannot be read.
    await start(stage, Promise.all([demonstration(), findLast()]), ([demo, found]) => {
      colour();
      firstDraft(demo, found);
      openAddress();
    });
  } catch (error) {
    for (const part of waiting) part.inert = false;
    if (error instanceof Lacking) return withoutEditor(error.message);
    console.error(error);
    return withoutEditor(`${sentenceOf(error)} Reload the page to try again.`);
  }
  cover('');
  restoreUnits();
  for (const part of waiting) part.inert = false;
  gate.wake();
  await presented();
  handOver(stage);
  document.getElementById('first')?.remove();
  performance.mark('openwork:first-drawing');
  buildGroups();
  bindSettling(works);
  bindMake(works);
  bindTies(works);
  bindFigure(works);
  bindColourings(works);
  bindPaste(works);
  bindTubes(works);
  bindSite(works);
  bindEvenness(works);
  bindStore();
  bindOffline();
  bindExamples();
  pictureShelf(works);
  render();
  drawGroups(works);
  drawHow(works);
  const view = editor.view();
  if (view) bindCheck(checks, view);
}

main();
