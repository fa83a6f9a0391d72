// The keyboard. Single keys work only outside of fields and boxes, and can be turned off in the help.
import { $, tell } from './dom.js';
import { state, emit } from './state.js';
import { step, goNext, toggleMark, clearMarks } from './selection.js';
import { send, sending } from './commands.js';
import { acceptLine, dropDialog, splitDialog, mergeDialog, moveDialog } from './actions.js';
import { undo, redo } from './sign_off.js';
import { openEdit, editOpen, closeEdit } from './edit.js';
import { dialogOpen } from './dialogs.js';
import { helpDialog, keysOn } from './help.js';
import { toggleLine, toggleLoop, setSpeed } from './player.js';

const line = () => state.lines.get(state.chosen);
const withLine = (fn) => () =>
  line() ? fn(line()) : tell('Choose a line first (j, or n for the next one to review).');

const DO = {
  j: () => step(1),
  ArrowDown: () => step(1),
  k: () => step(-1),
  ArrowUp: () => step(-1),
  n: goNext,
  a: withLine((l) => acceptLine(l.id)),
  Enter: withLine((l) => acceptLine(l.id)),
  e: withLine((l) => openEdit(l.id)),
  d: withLine((l) => dropDialog([l.id])),
  s: withLine((l) => splitDialog(l.id)),
  g: () => (state.marks.size ? moveDialog([...state.marks]) : withLine((l) => moveDialog([l.id]))()),
  m: () => mergeDialog(),
  x: withLine((l) => toggleMark(l.id)),
  y: withLine((l) => condition(l, 'include')),
  N: withLine((l) => condition(l, 'leave-out')),
  p: () => toggleLine(line(), true),
  ' ': () => toggleLine(line()),
  l: toggleLoop,
  '[': () => setSpeed(-1),
  ']': () => setSpeed(1),
  q: () => emit('questions'),
  u: undo,
  r: redo,
  U: redo,
  '?': helpDialog,
  '/': () => {
    emit('search');
  },
};
/** Decides on a line with a condition. */
function condition(l, name) {
  if (l.line.only_if) send({ do: name, line: l.id });
  else tell('This line has no “if found”.');
}

// Held down, these would go through a row of lines unread.
const ONCE = new Set(['a', 'Enter', 'd', 'e', 'x', 'y', 'N', 'u', 'r', 'U', 'p', ' ', 's', 'g', 'm', 'l', '?', '/']);

export function mountKeys() {
  document.addEventListener('keydown', (e) => {
    if (e.ctrlKey || e.metaKey || e.altKey || e.isComposing || e.defaultPrevented || dialogOpen() || !state.id) return;
    const t = /** @type {HTMLElement} */ (e.target),
      tag = t.tagName;
    if (e.key === 'Escape') return escape(e, t);
    if (
      tag === 'TEXTAREA'
      || tag === 'SELECT'
      || t.isContentEditable
      || (tag === 'INPUT' && !['checkbox', 'radio', 'button'].includes(t.type))
    )
      return;
    const control = t.closest('button,a,summary,input,[role=button],[role=tab],[role=slider]');
    // A control keeps the keys that work it.
    if (control && (e.key === 'Enter' || e.key === ' ' || e.key.startsWith('Arrow'))) return;
    if (e.key.startsWith('Arrow') && t !== document.body && !t.closest('#main')) return;
    if (!keysOn() && e.key.length === 1) return;
    let fn = DO[e.key];
    if (/^[1-9]$/.test(e.key)) fn = () => takeChoice(Number(e.key));
    if (!fn) return;
    e.preventDefault();
    if (e.repeat && (ONCE.has(e.key) || /^[1-9]$/.test(e.key))) return;
    if (sending() && ONCE.has(e.key)) return;
    fn();
  });
}

function takeChoice(n) {
  const l = line(),
    flagged = l?.state === 'flagged',
    c = flagged ? l.choices[n - 1] : null;
  if (c) send(c.command);
  else if (flagged) tell(`There is no choice ${n} here.`);
  else if (l) tell('This line doesn’t need review. Press e to change it.');
}

function escape(e, t) {
  if (editOpen()) {
    closeEdit(true);
    e.preventDefault();
    return;
  }
  if (t.id === 'search' && !t.value) {
    t.blur();
    return;
  }
  const menu = t.closest('details.menu[open]');
  if (menu) {
    menu.open = false;
    menu.querySelector('summary').focus();
    return;
  }
  if (state.marks.size) clearMarks();
  else if (state.filter.place || state.filter.text) {
    state.filter.place = null;
    state.filter.text = '';
    const s = $('search');
    if (s) s.value = '';
    emit('filter');
  }
}
