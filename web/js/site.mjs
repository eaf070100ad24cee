// Where the motif in hand stands: what a mirror or a rotation point makes of it, and the offers to make its silhouette fit
// there. A new outline is worked out by the engine and goes back as one command.

import {editor} from './bridge.mjs';
import {alarm, say} from './notices.mjs';

const byId = (id) => document.getElementById(id);
const card = byId('offer');
const offers = byId('offers');
const line = byId('hand-site');

const narrow = matchMedia('(max-width: 820px)'); // there the offer takes room from the bench, as style.css has it
const ended = {keep: 'folded', other: 'folded', gather: 'gathered'};

let lane = null;
let view = null;
let busy = false;

export function bindSite(engineLane) {
  lane = engineLane;
  offers.addEventListener('click', (event) => {
    const {way} = event.target.closest('button')?.dataset ?? {};
    if (way) remake(way);
  });
}

export function renderSite(next) {
  view = next;
  const held = view.motifs.find((motif) => motif.id === view.selected);
  const text = held?.text ?? '';
  const ways = held?.offers ?? [];
  say(line, !held ? '' : text && !ways.length ? text : `${held.inCell} in a cell`);
  if (view.inHand && narrow.matches) return; // the bench must not change its size under the finger
  card.hidden = !ways.length;
  say(byId('offer-text'), ways.length ? text : '');
  for (const button of offers.children) {
    button.hidden = !ways.includes(button.dataset.way);
    button.disabled = busy;
  }
}

async function remake(way) {
  const draft = editor.save();
  const id = view.selected;
  const motif = view.motifs.find((each) => each.id === id);
  const name = view.silhouettes.find((each) => each.id === motif?.silhouette)?.name ?? 'Silhouette';
  working(true);
  try {
    const {value} = await lane.ask('remake', {draft, motif: id, way});
    if (editor.save() !== draft) return alarm('The draft was changed meanwhile, and the new silhouette would not fit it. Press again.');
    const sentence = editor.command('remake', {id, text: titled(name, ended[way]), outline: value});
    if (sentence) alarm(sentence);
    else byId('bench').focus({preventScroll: true}); // the buttons are gone
  } catch (error) {
    alarm(error.message);
  } finally {
    working(false);
  }
}

// The new silhouette's name: the old one, and once what was done to it.
function titled(name, how) {
  return name.endsWith(`, ${how}`) ? name : `${name}, ${how}`;
}

function working(yes) {
  busy = yes;
  if (view) renderSite(editor.view());
}
