// Where the motif in hand stands: what a mirror or a rotation point makes of it, and the offers to make its silhouette
// fit there. A new outline is worked out by the engine and goes back as one command.

import {editor} from './bridge.mjs';
import {byId, every, sentenceOf, within} from './dom.mjs';
/** @import {Lane} from './engine.mjs' */
import {alarm, say} from './notices.mjs';

const card = byId('offer');
const offers = byId('offers');
const line = byId('hand-site');

const narrow = matchMedia('(max-width: 820px)'); // there the offer takes room from the bench, as style.css has it
/** @type {Record<string, string>} */
const ended = {keep: 'folded', other: 'folded', gather: 'gathered'};

/** @type {Lane | null} */
let lane = null;
/** @type {View | undefined} */
let view;
let busy = false;

/** @param {Lane} engineLane */
export function bindSite(engineLane) {
  lane = engineLane;
  offers.addEventListener('click', (event) => {
    const way = within(event, 'button')?.dataset.way;
    if (way) remake(way);
  });
}

/** @param {View} next */
export function renderSite(next) {
  view = next;
  const held = next.motifs.find((motif) => motif.id === next.selected);
  const text = held?.text ?? '';
  const ways = held?.offers ?? [];
  const {name, which} = next.held;
  say(line, !name ? '' : `${name}: ${which}.${text && !ways.length ? ` ${text}` : ''}`);
  if (next.inHand && narrow.matches) return; // the bench must not change its size under the finger
  card.hidden = !ways.length;
  say(byId('offer-text'), ways.length ? text : '');
  for (const button of every(offers, 'button', HTMLButtonElement)) {
    button.hidden = !ways.includes(button.dataset.way ?? '');
    button.disabled = busy;
  }
}

/** @param {string} way */
async function remake(way) {
  if (!lane || !view) return;
  const {selected: id, motifs, silhouettes} = view;
  const draft = editor.save();
  const motif = motifs.find((each) => each.id === id);
  const name = silhouettes.find((each) => each.id === motif?.silhouette)?.name ?? 'Silhouette';
  working(true);
  try {
    const {value} = await lane.ask('remake', {draft, motif: id, way});
    if (editor.save() !== draft) {
      return alarm('The draft was changed meanwhile, and the new silhouette would not fit it. Press again.');
    }

    const sentence = editor.command('remake', {id, text: titled(name, ended[way]), outline: value});
    if (sentence) alarm(sentence);
    else byId('bench').focus({preventScroll: true}); // the buttons are gone
  } catch (error) {
    alarm(sentenceOf(error));
  } finally {
    working(false);
  }
}

// The new silhouette's name: the old one, and once what was done to it.
/** @param {string} name @param {string} how */
function titled(name, how) {
  return name.endsWith(`, ${how}`) ? name : `${name}, ${how}`;
}

/** @param {boolean} yes */
function working(yes) {
  busy = yes;
  const now = editor.view();
  if (now) renderSite(now);
}
