// Tabs of this browser on the same shelf: a draft is changed in one of them only, which holds a lock by its name, and
// each tells the others when the shelf has changed.

const CHANNEL = 'openwork:shelf';

/** @param {string} id */
function lockOf(id) {
  return `openwork:draft:${id}`;
}

/** @type {Map<string, () => void>} */
const held = new Map(); // what lets a draft go, by id

/**
 * Takes a draft for this tab; false when another has it and does not let it go within so many ms. Where the browser has
 * no locks (an address that is not secure) every tab gets it.
 * @param {string} id
 * @param {number} [patience]
 * @returns {Promise<boolean>}
 */
export function take(id, patience = 0) {
  if (held.has(id) || !navigator.locks) return Promise.resolve(true);
  /** @type {LockOptions} */
  const options = patience ? {signal: AbortSignal.timeout(patience)} : {ifAvailable: true};
  return new Promise((resolve) => {
    navigator.locks.request(lockOf(id), options, (lock) => {
      resolve(Boolean(lock));
      if (!lock) return undefined;
      return /** @type {Promise<void>} */ (new Promise((release) => { held.set(id, release); }));
    }).catch(() => resolve(false)); // it took too long
  });
}

/** @param {string} id */
export function letGo(id) {
  held.get(id)?.();
  held.delete(id);
}

export function letAllGo() {
  for (const id of [...held.keys()]) letGo(id);
}

// The ids of drafts that any tab has.
export async function taken() {
  const locks = await navigator.locks?.query();
  const prefix = lockOf('');
  const names = (locks?.held ?? []).map(({name}) => name ?? '');
  return new Set(names.flatMap((name) => (name.startsWith(prefix) ? [name.slice(prefix.length)] : [])));
}

// Whether this tab has a draft.
/** @param {string} id */
export function has(id) {
  return held.has(id);
}

/** @type {BroadcastChannel | null} */
let channel = null;

// Calls back when another tab has changed the shelf.
/** @param {() => void} callback */
export function onShelf(callback) {
  channel ??= typeof BroadcastChannel === 'function' ? new BroadcastChannel(CHANNEL) : null;
  channel?.addEventListener('message', callback);
}

// Tells the other tabs that the shelf has changed.
export function shelfChanged() {
  channel?.postMessage('changed');
}
