// Which line is chosen, which are selected together, and the way from one to the next.
import { tell } from './dom.js';
import { state, on, emit } from './state.js';
import { rowOf, drawButtons, clearButtons, showChosen, showUnchosen } from './rows.js';
import { visibleIds } from './list.js';

/** Chooses a line by a click on it, or with the focus. */
export function mountSelection(root) {
  root.addEventListener('click', (e) => {
    const li = e.target.closest('.line');
    if (!li || e.defaultPrevented) return;
    const busy = e.target.closest('button,input,select,textarea,label,summary');
    // Choosing must not take the text a reviewer has just marked to copy, nor the focus from a control.
    choose(li.dataset.line, { focus: !busy && String(getSelection()) === '', scroll: false });
  });
  root.addEventListener('focusin', (e) => {
    const li = e.target.closest('.line');
    if (li && li.dataset.line !== state.chosen) choose(li.dataset.line, { focus: false, scroll: false });
  });
}

/** @param {string|null} id @param {{focus?:boolean,scroll?:boolean}} [how] */
export function choose(id, { focus = true, scroll = true } = {}) {
  const li = rowOf(id);
  if (id === state.chosen && li) {
    if (focus) li.focus({ preventScroll: true });
    if (scroll) bring(li);
    return;
  }
  showUnchosen(state.chosen);
  state.chosen = li ? id : null;
  if (li) {
    const fold = li.closest('details');
    if (fold) fold.open = true;
    showChosen(id, focus);
    if (scroll) bring(li);
  } else clearButtons();
  emit('chosen');
}

function bring(li) {
  li.scrollIntoView({ block: 'nearest' });
  // Rows out of view have a guessed height; once drawn, the place may be a little off.
  requestAnimationFrame(() => li.isConnected && li.scrollIntoView({ block: 'nearest' }));
}

export function step(by) {
  const ids = visibleIds(),
    i = ids.indexOf(state.chosen);
  const to = ids[i < 0 ? 0 : Math.max(0, Math.min(ids.length - 1, i + by))];
  if (to) choose(to);
}

/**
 * The next line in a state, after the chosen one, or from the top.
 * @param {string} wanted @param {string[]} [ids] the order before a change moved rows
 */
export function nextIn(wanted, ids = visibleIds(), from = state.chosen) {
  const i = ids.indexOf(from);
  for (let k = 1; k <= ids.length; k++) {
    const id = ids[(i + k + ids.length) % ids.length];
    if (id !== from && state.lines.get(id)?.state === wanted && rowOf(id)?.hidden === false) return id;
  }
  return null;
}

/** The line to begin with: the first that needs review, or the first. */
export function chooseFirst(how) {
  choose(nextIn('flagged', visibleIds(), null) || visibleIds()[0] || null, how);
}

export function goNext() {
  const id = nextIn('flagged') || (state.lines.get(state.chosen)?.state === 'flagged' ? state.chosen : null);
  const filtered = state.filter.place || state.filter.text;
  if (id) choose(id);
  else tell(filtered ? 'Nothing left to review in what is shown.' : 'Nothing left to review.');
}

export function toggleMark(id) {
  if (!id || state.lines.get(id)?.state === 'dropped') return;
  if (state.marks.has(id)) state.marks.delete(id);
  else state.marks.add(id);
  showMarks([id]);
}
export function clearMarks() {
  const ids = [...state.marks];
  state.marks.clear();
  showMarks(ids);
}
function showMarks(ids) {
  for (const id of ids) {
    const li = rowOf(id);
    if (!li) continue;
    li.classList.toggle('marked', state.marks.has(id));
    const box = li.querySelector('.mark');
    if (box) box.checked = state.marks.has(id);
  }
  if (state.chosen) drawButtons(state.chosen);
  emit('marks');
}
on('mark', toggleMark);
