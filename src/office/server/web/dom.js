// Small helpers to build elements. Text only ever goes in as text nodes or attributes.

/**
 * @param {string} tag @param {Record<string, any>} [attrs] `on…` are listeners, `.name` are properties
 * @param {...any} kids @returns {HTMLElement}
 */
export function h(tag, attrs = {}, ...kids) {
  const el = document.createElement(tag);
  set(el, attrs);
  el.append(...kids.flat(3).filter((k) => k != null && k !== false));
  return el;
}

/** @returns {SVGElement} */
export function s(tag, attrs = {}, ...kids) {
  const el = document.createElementNS('http://www.w3.org/2000/svg', tag);
  set(el, attrs);
  el.append(...kids.flat(3).filter((k) => k != null && k !== false));
  return el;
}

function set(el, attrs) {
  for (const [k, v] of Object.entries(attrs)) {
    if (v == null || v === false) continue;
    if (k.startsWith('on')) el.addEventListener(k.slice(2), v);
    else if (k.startsWith('.')) el[k.slice(1)] = v;
    else el.setAttribute(k, v === true ? '' : v);
  }
}

export const $ = (id) => document.getElementById(id);

/** A button; `name` tells what it does. */
export function button(label, name, onclick, attrs = {}) {
  return h('button', { type: 'button', 'data-do': name, onclick, ...attrs }, label);
}

export const key = (k) => h('kbd', { 'aria-hidden': 'true' }, k);

// Marks that turn the reading direction could make a line read as something else; they are not for show.
const BIDI = /[\u200e\u200f\u202a-\u202e\u2066-\u2069]/g;

/** Text made fit to show: no direction marks, and not endless (a word may be a megabyte). */
export function clip(text, most = 240) {
  const t = String(text ?? '')
    .slice(0, most * 2)
    .replace(BIDI, '');
  return t.length > most ? t.slice(0, most) + '…' : t;
}

export function clock(sec) {
  if (sec == null || !isFinite(sec)) return '';
  const t = Math.max(0, Math.floor(sec));
  const m = Math.floor(t / 60) % 60,
    hrs = Math.floor(t / 3600),
    ss = String(t % 60).padStart(2, '0');
  return hrs ? `${hrs}:${String(m).padStart(2, '0')}:${ss}` : `${m}:${ss}`;
}

export function when(iso) {
  const d = new Date(iso);
  return isNaN(d)
    ? ''
    : d.toLocaleString(undefined, { day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit' });
}

export const cap = (t) => (t ? t[0].toUpperCase() + t.slice(1) : t);
export const count = (n, one, many = one + 's') => `${n} ${n === 1 ? one : many}`;

/** Puts new content in, and gives the focus back to the same control (by `data-keep`) if it was inside. */
export function refill(root, ...kids) {
  const had = root.contains(document.activeElement)
    ? document.activeElement.closest('[data-keep]')?.dataset.keep
    : null;
  root.replaceChildren(...kids.flat(3).filter((k) => k != null && k !== false));
  if (had) root.querySelector(`[data-keep="${CSS.escape(had)}"]`)?.focus({ preventScroll: true });
}

/** What a person typed and has not sent survives a redraw. */
export function keepTyped(root, draw) {
  const old = new Map();
  for (const el of root.querySelectorAll('[data-typed]'))
    if (!el.defaultValue || el.value !== el.defaultValue) old.set(el.dataset.typed, el.value);
  const at = document.activeElement,
    id = root.contains(at) ? at.dataset.typed : null;
  const caret = id && at.tagName === 'INPUT' ? [at.selectionStart, at.selectionEnd] : null;
  draw();
  for (const el of root.querySelectorAll('[data-typed]')) {
    if (!old.has(el.dataset.typed)) continue;
    el.value = old.get(el.dataset.typed);
    if (el.dataset.typed === id) {
      el.focus({ preventScroll: true });
      if (caret) el.setSelectionRange(...caret);
    }
  }
}

let toldTimer = 0;
/** Says it in the foot and in the live region. @param {'plain'|'bad'} [kind] */
export function tell(text, kind = 'plain') {
  const el = $('told');
  el.className = 'told' + (kind === 'bad' ? ' bad' : '');
  // The same words twice would not be read out; an emptied region is.
  el.textContent = '';
  clearTimeout(toldTimer);
  toldTimer = setTimeout(() => {
    el.textContent = text;
  }, 20);
}
