// Boxes that ask something: one at a time, on the browser's own dialog, so focus and Escape are kept right.
import { h, button } from './dom.js';
import { state, emit } from './state.js';

/** @type {HTMLDialogElement|null} */ let open = null;
let answer = null;

export const dialogOpen = () => !!open;
export function closeDialog(value = null) {
  answer = value;
  open?.close();
}

/**
 * Asks something. A button's value may be a function: false keeps the box open.
 * @param {{title:string, body:any[], buttons?:[string,string,any][], alert?:boolean, digits?:boolean, data?:any,
 *   wide?:boolean, cancel?:string|null}} o
 * @returns {Promise<any>} null when left
 */
export function dialog(o) {
  if (open) closeDialog(null);
  const was = document.activeElement;
  answer = null;
  return new Promise((done) => {
    const el = makeBox(o);
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
    focusFirst(el, o.digits);
  });
}

function makeBox(o) {
  const role = o.alert ? 'alertdialog' : null,
    more = o.data || {};
  const box = h('dialog', { class: 'box' + (o.wide ? ' wide' : ''), 'aria-labelledby': 'box-title', role, ...more });
  const leave = o.cancel !== null && !o.alert && button(o.cancel || 'Cancel', 'cancel', () => closeDialog(null));
  box.append(
    h(
      'form',
      { method: 'dialog', onsubmit: (e) => e.preventDefault() },
      h('h2', { id: 'box-title', tabindex: '-1' }, o.title),
      h('div', { class: 'box-body' }, o.body),
      h('div', { class: 'box-buttons' }, boxButtons(o), leave),
    ),
  );
  box.addEventListener('keydown', (e) => {
    if (o.digits) pressDigit(box, e);
  });
  box.addEventListener('click', (e) => {
    if (e.target === box && !o.alert) closeDialog(null);
  });
  return /** @type {HTMLDialogElement} */ (box);
}

function boxButtons(o) {
  return (o.buttons || []).map(([label, name, value], i) => {
    const press = () => {
      const v = typeof value === 'function' ? value() : value;
      if (v !== false) closeDialog(v);
    };
    return button(label, name, press, { class: 'main-button', type: !i && !o.alert ? 'submit' : 'button' });
  });
}

/** A digit takes the choice of that number. */
function pressDigit(box, e) {
  if (e.target.matches?.('input[type=text],textarea,select') || e.ctrlKey || e.metaKey || e.altKey) return;
  if (!/^[1-9]$/.test(e.key)) return;
  e.preventDefault();
  box.querySelector(`[data-choice="${e.key}"]`)?.click();
}

function focusFirst(box, digits) {
  const body = '.box-body input[type=text], .box-body select, .box-body button';
  const first =
    box.querySelector('[data-first]') || box.querySelector(body) || box.querySelector('.box-buttons button');
  first.focus();
  if (digits) box.querySelector('[data-choice]')?.focus();
}

/** A box with a form that stays, with the server's words, until the command is taken. */
export function formDialog({ title, body, go, name, run, wide }) {
  const error = h('p', { class: 'error', role: 'alert', id: 'box-error' });
  return dialog({
    title,
    wide,
    body: [...body, error],
    buttons: [
      [
        go,
        name,
        () => {
          run().then((r) => {
            if (r.ok || r.theirs) closeDialog(r);
            else if (r.error && open) {
              error.textContent = r.error;
              showFieldError(open, r);
            }
          });
          return false;
        },
      ],
    ],
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

const WHY_A_NAME =
  'Changes save as you make them, each with a name, so that others can see who made it. '
  + 'The name stays on this computer.';

export async function askName() {
  const input = h('input', {
    type: 'text',
    id: 'who',
    autocomplete: 'name',
    maxlength: '60',
    '.value': state.who,
    required: true,
    'data-field': 'who',
  });
  const name = await dialog({
    title: 'Who is reviewing?',
    body: [h('p', {}, WHY_A_NAME), h('label', { for: 'who' }, 'Your name'), input],
    buttons: [['Save', 'who-save', () => input.value.trim() || false]],
    cancel: state.who ? 'Cancel' : 'View only',
  });
  if (!name) return false;
  state.who = name;
  localStorage.setItem('eavesdraft.who', name);
  emit('who');
  return true;
}
