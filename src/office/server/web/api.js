// Talks to the server, and knows whether it is there.
import { state, emit } from './state.js';

const found = /[#&?]token=([^&]+)/.exec(location.hash);
if (found) {
  sessionStorage.setItem('eavesdraft.token', decodeURIComponent(found[1]));
  // The key should not stay in the address, where it is copied along.
  history.replaceState(null, '', location.pathname);
}
const token = sessionStorage.getItem('eavesdraft.token');

/** An address for what cannot send a header (sound, events, documents). */
export const withKey = (url) =>
  token ? `${url}${url.includes('?') ? '&' : '?'}token=${encodeURIComponent(token)}` : url;

export class Refused extends Error {
  /** @param {number} status @param {any} data */
  constructor(status, data) {
    super(data?.error || `The server answered with status ${status}.`);
    this.status = status;
    this.data = data || {};
  }
}
export class Gone extends Error {}

/** @returns {Promise<any>} */
export async function call(method, path, body) {
  const headers = {};
  if (token) headers.Authorization = 'Bearer ' + token;
  if (body !== undefined) headers['Content-Type'] = 'application/json';
  const sent = body === undefined ? undefined : JSON.stringify(body);
  let res,
    data = null;
  try {
    res = await fetch(path, { method, headers, body: sent, cache: 'no-store' });
    data = parsed(await res.text());
  } catch {
    lost();
    throw new Gone('no connection');
  }
  if (res.status === 401 || res.status === 403) {
    emit('locked');
    throw new Refused(res.status, data);
  }
  if (!res.ok) throw new Refused(res.status, data);
  return data;
}
function parsed(text) {
  try {
    return text ? JSON.parse(text) : null;
  } catch {
    return { error: text.slice(0, 200) };
  }
}
export const get = (path) => call('GET', path);
export const post = (path, body) => call('POST', path, body);
export const recPath = (id, rest = '') => `/api/recordings/${encodeURIComponent(id)}${rest}`;
/** The recording as it is now, with what this reviewer can undo. */
export const getRecording = (id) => get(recPath(id) + (state.who ? '?who=' + encodeURIComponent(state.who) : ''));

/** Asks how a typed quantity reads. @returns {Promise<{shown?:string,unit?:string|null,error?:string}>} */
export async function readQuantity(text, item) {
  try {
    return await post('/api/read', { text, item: item || null });
  } catch (e) {
    return { error: e instanceof Gone ? 'Connection lost' : e.message };
  }
}

let retry = 0;
function lost() {
  if (!state.offline) {
    state.offline = true;
    emit('offline', true);
  }
  clearTimeout(retry);
  retry = setTimeout(knock, 1500);
}
async function knock() {
  try {
    await call('GET', '/api/queue');
  } catch (e) {
    if (e instanceof Gone) return;
  }
  back();
}
function back() {
  if (!state.offline) return;
  state.offline = false;
  emit('offline', false);
  listen();
}

/** @type {EventSource|null} */ let source = null;
/** Hears of changes made in other windows. */
export function listen() {
  source?.close();
  source = new EventSource(withKey('/api/changes'));
  source.addEventListener('change', (e) => {
    try {
      emit('change-heard', JSON.parse(e.data));
    } catch {
      /* not ours */
    }
  });
  source.addEventListener('all', () => emit('change-heard', null));
  let opened = false;
  source.onopen = () => {
    if (opened) emit('change-heard', null);
    opened = true;
  };
  const mine = source;
  source.onerror = () => {
    if (source !== mine) return;
    // A stream may end for no bad reason: ask before saying that the server is gone.
    knockSoon();
    if (source.readyState === EventSource.CLOSED)
      setTimeout(() => {
        if (!state.offline) listen();
      }, 2000);
  };
}
// A browser allows few connections to one place: a page that nobody sees gives its own up, and looks again when it is
// seen again.
document.addEventListener('visibilitychange', () => {
  if (document.hidden) {
    source?.close();
    source = null;
  } else if (!source) {
    listen();
    emit('change-heard', null);
  }
});
let asked = 0;
function knockSoon() {
  clearTimeout(asked);
  asked = setTimeout(knock, 200);
}
