// The whole-panel check: when the view wants one, the draft goes to the engine, and its answer back with the view's token.

import {editor} from './bridge.mjs';
import {Superseded} from './engine.mjs';

let lane;
let asked = null; // the token being worked on or answered

export function bindCheck(engineLane, draft) {
  lane = engineLane;
  renderCheck(draft);
}

export function renderCheck({check}) {
  if (!lane || !check) return;
  if (!check.wanted) {
    if (asked !== null && check.token !== asked) {
      lane.drop('check');
      asked = null;
    }
    return;
  }
  if (check.token === asked) return;
  asked = check.token;
  send(check.token);
}

async function send(token) {
  try {
    const {json} = await lane.ask('check', {draft: editor.save()}, {instead: true});
    editor.answer(token, json);
  } catch (error) {
    if (error instanceof Superseded) return;
    editor.answerFailed(token, error.message);
  } finally {
    globalThis.openworkWake();
  }
}
