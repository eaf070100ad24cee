// Before a cut file leaves the bench: the whole panel's verdict on the very draft that is cut. It is waited for; the
// person is asked where the sheet does not hold, and in other words where there is no verdict to be had.

import {editor} from './bridge.mjs';
import {follow} from './check.mjs';
import {Stopped} from './engine.mjs';
/** @import {Bar} from './work.mjs' */
import {ask} from './notices.mjs';

const CHANGED = 'The draft was changed while its verdict was waited for, so nothing was made. '
  + 'Press the button again for the draft as it is now.';
const FEW = 4; // reasons that are read out when the person is asked

// The person would rather not.
export class Declined extends Error {}

/** @type {{revision: number, resolve: (view: View) => void, reject: (error: Error) => void} | null} */
let waiting = null;

// Hears of each change of the view, and ends the waiting when there is a verdict, or another draft.
/** @param {View} view */
export function renderHolding(view) {
  if (!waiting) return;
  const {revision, resolve, reject} = waiting;
  if (view.revision !== revision) reject(new Error(CHANGED));
  else if (!pending(view)) resolve(view);
}

// Whether the whole panel is still to be looked at.
/** @param {View} view */
const pending = (view) => view.check.wanted || view.inHand;

/**
 * Resolves to {draft, unsound, unchecked} once what stands on the bench may be cut: its text, the reasons why it does
 * not hold, and whether nobody knows. Rejects with Stopped or Declined, or with a sentence. While it is waited `bar` is
 * out, and `say` gets what to say of that.
 * @param {Bar} bar
 * @param {(words: string) => void} say
 */
export async function cleared(bar, say) {
  const draft = editor.save();
  const now = editor.view();
  if (!now) throw new Error('The editor has stopped, so there is no verdict.');
  let view = now;
  const {revision} = view;
  if (pending(view)) {
    say('Waiting for the verdict on the whole panel…');
    let unfollow = () => {};
    try {
      view = await new Promise((resolve, reject) => {
        waiting = {revision, resolve, reject};
        unfollow = follow(bar.begin(() => reject(new Stopped())));
      });
    } finally {
      unfollow();
      waiting = null;
      bar.end();
      say('');
    }
  }
  if (view.verdict.state === 'empty') throw new Error(view.verdict.line);
  const {failed: unchecked, reasons: unsound} = view.check;
  const yes = unchecked ? await unknown(view) : !unsound.length || await unfit(view);
  if (!yes) throw new Declined();
  return {draft, unsound, unchecked};
}

/** @param {View} view */
function unfit({faults}) {
  const why = faults.filter((fault) => fault.severity === 'fault');
  const lines = why.slice(0, FEW).map((fault) => fault.text);
  if (why.length > FEW) lines.push(`And ${why.length - FEW} more.`);
  return ask({
    name: 'This sheet does not hold',
    lines: [...lines, 'The shop would cut it as it is.'],
    yes: 'Make the cut file all the same', no: 'Go back',
  });
}

/** @param {View} view */
function unknown({verdict}) {
  return ask({
    name: 'Nobody knows whether this sheet holds',
    lines: [verdict.line, 'The shop would cut it as it is, and the file says that it was not checked.'],
    yes: 'Make the cut file unchecked', no: 'Go back',
  });
}
