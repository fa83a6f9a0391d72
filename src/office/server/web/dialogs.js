// Boxes that ask something: one at a time, on the browser's own dialog, so focus and Escape are kept right.
import { h, button } from './dom.js';
import { state, emit } from './state.js';

/** @type {HTMLDialogElement|null} */ let open = null;
let answer = null;

export const dialogOpen = () => !!open;
export function closeDialog(value = null) { answer = value; open?.close(); }

/**
 * @param {{title:string, body:any[], buttons?:[string,string,any][], alert?:boolean, digits?:boolean, data?:any, wide?:boolean, cancel?:string|null}} o
 *   A button's value may be a function: false keeps the box open. @returns {Promise<any>} null when left
 */
export function dialog(o) {
  if (open) closeDialog(null);
  const was = document.activeElement;
  answer = null;
  return new Promise((done) => {
    const el = /** @type {HTMLDialogElement} */ (h('dialog', { class: 'box' + (o.wide ? ' wide' : ''), 'aria-labelledby': 'box-title', role: o.alert ? 'alertdialog' : null, ...(o.data || {}) }));
    const buttons = (o.buttons || []).map(([label, name, value], i) => button(label, name, () => {
      const v = typeof value === 'function' ? value() : value;
      if (v !== false) closeDialog(v);
    }, { class: 'main-button', type: !i && !o.alert ? 'submit' : 'button' }));
    el.append(h('form', { method: 'dialog', onsubmit: (e) => e.preventDefault() },
      h('h2', { id: 'box-title', tabindex: '-1' }, o.title), h('div', { class: 'box-body' }, o.body),
      h('div', { class: 'box-buttons' }, buttons, o.cancel !== null && !o.alert && button(o.cancel || 'Cancel', 'cancel', () => closeDialog(null)))));
    el.addEventListener('keydown', (e) => {
      if (e.target.matches?.('input[type=text],textarea,select')) return;
      if (o.digits && /^[1-9]$/.test(e.key) && !e.ctrlKey && !e.metaKey && !e.altKey) { e.preventDefault(); el.querySelector(`[data-choice="${e.key}"]`)?.click(); }
    });
    el.addEventListener('click', (e) => { if (e.target === el && !o.alert) closeDialog(null); });
    el.addEventListener('close', () => {
      el.remove();
      if (open === el) open = null;
      // The row may have been redrawn meanwhile; the chosen line is then the place to go on.
      const back = was?.isConnected && was !== document.body ? was : document.querySelector('.line.chosen');
      back?.focus({ preventScroll: true });
      done(answer);
    });
    document.body.append(el);
    open = el;
    el.showModal();
    (el.querySelector('[data-first]') || el.querySelector('.box-body input[type=text], .box-body select, .box-body button') || el.querySelector('.box-buttons button')).focus();
    if (o.digits) el.querySelector('[data-choice]')?.focus();
  });
}

/** A box with a form that stays, with the server's words, until the act is taken. */
export function formDialog({ title, body, go, act, run, wide }) {
  const error = h('p', { class: 'error', role: 'alert', id: 'box-error' });
  return dialog({
    title, wide, body: [...body, error],
    buttons: [[go, act, () => {
      run().then((r) => { if (r.ok || r.theirs) closeDialog(r); else if (r.error && open) { error.textContent = r.error; showFieldError(open, r); } });
      return false;
    }]],
  });
}

/** Puts the server's words by the field, where it is known which. */
export function showFieldError(root, r) {
  root.querySelectorAll('[aria-invalid]').forEach((f) => f.removeAttribute('aria-invalid'));
  const f = r.field && root.querySelector(`[data-field="${CSS.escape(r.field)}"]`);
  if (!f) return false;
  f.setAttribute('aria-invalid', 'true');
  f.focus();
  return true;
}

export async function askName() {
  const input = h('input', { type: 'text', id: 'who', autocomplete: 'name', maxlength: '60', '.value': state.who, required: true, 'data-field': 'who' });
  const name = await dialog({
    title: 'Who is reviewing?',
    body: [h('p', {}, 'Every change is kept with a name, so that others see who settled what. The name stays on this computer.'), h('label', { for: 'who' }, 'Your name'), input],
    buttons: [['Keep this name', 'who-save', () => input.value.trim() || false]],
    cancel: state.who ? 'Cancel' : 'Only look',
  });
  if (!name) return false;
  state.who = name;
  localStorage.setItem('eavesdraft.who', name);
  emit('who');
  return true;
}

const KEYS = [
  ['Going through', [['j or ↓', 'next line'], ['k or ↑', 'line before'], ['n', 'next that needs a look'], ['q', 'questions about the house'], ['/', 'search'], ['Esc', 'close, or clear marks and filters']]],
  ['Settling the chosen line', [['Enter or a', 'accept as it is'], ['1 to 9', 'take that choice'], ['e', 'edit every field'], ['d', 'drop, with a reason'], ['s', 'split'], ['g', 'move to another side'], ['y', 'an “only if” is wanted'], ['Shift N', 'it is not wanted']]],
  ['Several lines', [['x', 'mark or unmark'], ['m', 'merge the marked'], ['g', 'move the marked']]],
  ['Sound', [['p or Space', 'play the line, or stop'], ['l', 'again and again'], ['[ and ]', 'slower, faster']]],
  ['Words', [['arrows', 'go from word to word'], ['Shift with arrows', 'take several words'], ['Enter', 'play from the word'], ['+', 'add a line from the words taken']]],
  ['Mending', [['u', 'undo'], ['r or Shift U', 'do again'], ['?', 'this list']]],
];

export const keysOn = () => localStorage.getItem('eavesdraft.keys') !== 'off';

export function helpDialog() {
  return dialog({
    title: 'Keys', wide: true, cancel: 'Close', data: { 'data-help': true },
    body: [h('div', { class: 'keys' }, KEYS.map(([name, list]) => h('section', {}, h('h3', {}, name), h('dl', {}, list.map(([k, what]) => h('div', {}, h('dt', {}, k.split(/ (or|to|and|with) /).map((x) => (/^(or|to|and|with)$/.test(x) ? ` ${x} ` : h('kbd', {}, x)))), h('dd', {}, what))))))),
      h('p', { class: 'soft' }, 'A row’s buttons do the same as the keys. Words with a dotted line were not heard clearly.'),
      h('label', { class: 'radio' }, h('input', { type: 'checkbox', 'data-first': true, '.checked': keysOn(), onchange: (e) => localStorage.setItem('eavesdraft.keys', e.target.checked ? 'on' : 'off') }), h('span', {}, 'Single keys act (turn this off if you dictate or use a screen reader’s own keys)'))],
  });
}
