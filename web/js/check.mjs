// What the engine is asked while the hand rests, each once for a state of the draft: the whole panel first, then what would
// put it right, then what the field really is. The view says what it wants, and its token which state that is about.

import {editor} from './bridge.mjs';
import {Stopped, Superseded} from './engine.mjs';
import {Bar} from './work.mjs';

const questions = [
  {verb: 'check', wanted: (view) => view.check.wanted, tell: editor.answer, failed: editor.answerFailed},
  {verb: 'mends', wanted: (view) => view.mendsWanted, tell: editor.mends, failed: editor.mendsFailed},
  {verb: 'recognise', wanted: (view) => view.found.wanted, tell: editor.recognised, failed: editor.recogniseFailed},
];
const asked = new Map(); // the token each verb is worked on for, or was answered for
const bar = new Bar(document.getElementById('check-work'), document.getElementById('bench'));
const again = document.getElementById('check-again');
const followers = new Set(); // who else hears how far the check has come
let lane;

// Lets somebody hear how far the check of the whole panel has come, from 0 to 1; returns what ends that.
export function follow(told) {
  followers.add(told);
  return () => followers.delete(told);
}

export function bindCheck(engineLane, view) {
  lane = engineLane;
  again.addEventListener('click', () => {
    asked.delete('check');
    again.hidden = true;
    editor.checkAgain();
    globalThis.openworkWake();
    document.getElementById('bench').focus();
  });
  renderCheck(view);
}

export function renderCheck(view) {
  if (!lane || !view.check) return;
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
    send(question, token);
  }
}

async function send({verb, tell, failed}, token) {
  const shown = verb === 'check'; // the others are told of when they are there
  again.hidden = true;
  const show = shown ? bar.begin(() => lane.stop(verb)) : null;
  const told = show && ((part) => [show, ...followers].forEach((each) => each(part)));
  const current = () => asked.get(verb) === token;
  try {
    const {json} = await lane.ask(verb, {draft: editor.save()}, {instead: true, told});
    if (shown && current()) bar.end();
    tell(token, json);
  } catch (error) {
    if (error instanceof Superseded) return;
    if (shown && current()) bar.end();
    if (error instanceof Stopped) {
      failed(token, 'You stopped the check of the whole panel. The next change starts it again, or press “Check again”.');
      again.hidden = false;
      return;
    }
    failed(token, error.message);
  } finally {
    globalThis.openworkWake();
  }
}
