// What lies over the panel's place while there is nothing to see there: that the bench is being set up, that it is
// empty and what to begin with, or that it cannot be set up.

import {bring} from './bring.mjs';
import {button, byId, find, make} from './dom.mjs';
import {exampleButtons} from './examples.mjs';
/** @import {Choice} from './notices.mjs' */
import {drawUpTicket, showStep} from './ticket.mjs';

const over = byId('over');

/**
 * Lays a sentence over the panel's place: kind 'wait', 'empty' or 'fault'; '' takes it away.
 * @param {string} kind
 * @param {string} [words]
 * @param {string} [hint]
 * @param {Choice & {offers?: boolean} | null} [choice] what there is to do; whether drafts to begin with are offered
 */
export function cover(kind, words = '', hint = '', choice = null) {
  over.hidden = !kind;
  over.dataset.kind = kind;
  over.replaceChildren(make('p', 'over-head', words), make('p', '', hint));
  if (kind === 'wait') over.append(make('progress'));
  if (choice) over.append(button('main', choice.label, choice.run));
  if (kind === 'empty' && choice?.offers) over.append(exampleButtons());
}

function beginAtStep1() {
  showStep('silhouettes');
  drawUpTicket(true);
  find(document, '#silhouettes [data-key^=place], #bring-in', HTMLElement).focus();
}

// Says what to begin with, while nothing is placed.
/** @param {View} view */
export function renderEmpty(view) {
  const empty = view.verdict.state === 'empty' && !view.motifs.length;
  if (!empty) {
    if (over.dataset.kind === 'empty') cover('');
    return;
  }
  const words = view.silhouettes.length ? 'Nothing is placed in the cell yet.' : 'An empty panel.';
  if (over.dataset.kind === 'empty' && over.firstElementChild?.textContent === words) return;
  const hint = view.silhouettes.length ? 'Open step 1 and place a silhouette.'
    : 'Bring in a scan, a photograph or an SVG of one silhouette; it is traced on this machine and goes nowhere else.';
  cover('empty', words, hint, view.silhouettes.length
    ? {label: 'Open step 1', run: beginAtStep1}
    : {label: 'Bring in a drawing…', run: () => bring(), offers: true});
}
