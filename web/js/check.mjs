// What the engine is asked while the hand rests, each once for a state of the draft: the whole panel first, then what
// would put it right, then what the field really is. The view says what it wants, and its token which state that is
// about.

import {editor} from './bridge.mjs';
import {byId, sentenceOf} from './dom.mjs';
/** @import {Lane, Progress} from './engine.mjs' */
import {Stopped, Superseded} from './engine.mjs';
import {Bar} from './work.mjs';

/**
 * @typedef {object} Question
 * @property {'check' | 'mends' | 'recognise'} verb
 * @property {(view: View) => boolean} wanted
 * @property {(token: number, json: string) => void} tell
 * @property {(token: number, sentence: string) => void} failed
 */

/** @type {Question[]} */
const questions = [
  {verb: 'check', wanted: (view) => view.check.wanted, tell: editor.answer, failed: editor.answerFailed},
  {verb: 'mends', wanted: (view) => view.mendsWanted, tell: editor.mends, failed: editor.mendsFailed},
  {verb: 'recognise', wanted: (view) => view.found.wanted, tell: editor.recognised, failed: editor.recogniseFailed},
];
/** @type {Map<Verb, number>} */
const asked = new Map(); // the token each verb is worked on for, or was answered for
const bar = new Bar(byId('check-work'), byId('bench'));
const again = byId('check-again');
/** @type {Set<Progress>} */
const followers = new Set(); // who else hears how far the check has come
/** @type {Lane | null} */
let lane = null;

// Lets somebody hear how far the check of the whole panel has come, from 0 to 1; returns what ends that.
/** @param {Progress} progress */
export function follow(progress) {
  followers.add(progress);
  return () => void followers.delete(progress);
}

/** @param {Lane} engineLane @param {View} view */
export function bindCheck(engineLane, view) {
  lane = engineLane;
  again.addEventListener('click', () => {
    asked.delete('check');
    again.hidden = true;
    editor.checkAgain();
    globalThis.openworkWake();
    byId('bench').focus();
  });
  renderCheck(view);
}

/** @param {View} view */
export function renderCheck(view) {
  if (!lane) return;
  const {token} = view.check;
  for (const question of questions) {
    const {verb} = question;
    if (asked.has(verb) && asked.get(verb) !== token) {
      lane.drop(verb);
      asked.delete(verb);
      if (verb === 'check') {
        bar.end();
        again.hidden = true;
      }
    }
    if (!question.wanted(view) || asked.get(verb) === token) continue;
    asked.set(verb, token);
    send(lane, question, token);
  }
}

/** @param {Lane} lane @param {Question} question @param {number} token */
async function send(lane, {verb, tell, failed}, token) {
  const shown = verb === 'check'; // the others are told of when they are there
  again.hidden = true;
  const show = shown ? bar.begin(() => lane.stop(verb)) : null;
  const progress = show && (/** @param {number} part */ (part) => [show, ...followers].forEach((each) => each(part)));
  const current = () => asked.get(verb) === token;
  try {
    const {json} = await lane.ask(verb, {draft: editor.save()}, {instead: true, progress});
    if (shown && current()) bar.end();
    tell(token, json);
  } catch (error) {
    if (error instanceof Superseded) return;
    if (shown && current()) bar.end();
    if (error instanceof Stopped) {
      failed(token, 'You stopped the check of the whole panel. '
        + 'The next change starts it again, or press “Check again”.');
      again.hidden = false;
      return;
    }
    failed(token, sentenceOf(error));
  } finally {
    globalThis.openworkWake();
  }
}
