// Editing a line in its row. A half-typed form outlives redraws of the row.
import { h, button, clip, tell } from './dom.js';
import { state, on } from './state.js';
import { send, locked } from './commands.js';
import { rowOf } from './rows.js';
import { refreshLines } from './list.js';
import { choose } from './selection.js';
import { LineFields, valuesOf } from './fields.js';
import { sayLine } from './words.js';

/** @type {{id:string, seen:number, fields:any, form:HTMLElement, note:HTMLElement}|null} */ let editing = null;

export const editOpen = () => !!editing;

export function openEdit(id) {
  const l = state.lines.get(id);
  if (!l || l.state === 'dropped' || locked()) return;
  if (editing?.id === id) {
    editing.form.querySelector('input').focus();
    return;
  }
  closeEdit();
  choose(id, { focus: false });
  editing = makeForm(l);
  const li = rowOf(id),
    first = editing.form.querySelector('[data-field="quantity"]');
  li.append(editing.form);
  li.classList.add('editing');
  first.focus({ preventScroll: true });
  first.select();
  editing.form.scrollIntoView({ block: 'nearest' });
}
on('edit', openEdit);

function makeForm(l) {
  const fields = new LineFields(valuesOf(l)),
    error = h('p', { class: 'error', role: 'alert' });
  const note = h('p', { class: 'meanwhile', role: 'status' });
  const one = { id: l.id, seen: l.version, fields, note, error };
  const onsubmit = (e) => {
    e.preventDefault();
    save(one);
  };
  const saves = h('button', { type: 'submit', class: 'main-button', 'data-do': 'save' }, 'Save');
  one.form = h(
    'form',
    { class: 'edit', 'aria-label': 'Edit ' + clip(l.shown.item, 60), onsubmit },
    fields.el,
    note,
    error,
    h(
      'div',
      { class: 'edit-buttons' },
      saves,
      button('Cancel', 'cancel', () => closeEdit(true)),
    ),
  );
  one.form.addEventListener('keydown', (e) => {
    if (e.key !== 'Escape') return;
    e.preventDefault();
    e.stopPropagation();
    closeEdit(true);
  });
  return one;
}

async function save(one) {
  const changed = one.fields.changed();
  if (!Object.keys(changed).length) {
    closeEdit(true);
    tell('Nothing was changed.');
    return;
  }
  one.error.textContent = '';
  const r = await send({ do: 'change', line: one.id, fields: changed }, { seen: { [one.id]: one.seen } });
  if (r.ok) {
    if (editing === one) closeEdit();
    document.querySelector('.line.chosen')?.focus({ preventScroll: true });
  } else if (r.theirs) closeEdit(true);
  else if (r.error && !one.fields.fail(r)) one.error.textContent = r.error;
}

export function closeEdit(focus = false) {
  if (!editing) return;
  const { id, form } = editing,
    li = form.closest('.line');
  form.remove();
  li?.classList.remove('editing');
  editing = null;
  // The row stayed where it was while the form was in it; now it goes where it belongs.
  refreshLines([id], true);
  if (focus) choose(state.lines.has(id) ? id : null);
}

// Others' changes to the line that is being edited are told in the form; the form's version stays as it was opened,
// so the server still asks before one is laid over the other.
on('heard', (ids) => {
  if (!editing || !ids.includes(editing.id)) return;
  const l = state.lines.get(editing.id);
  if (!l) {
    tell('The line that you are editing is gone.', 'bad');
    closeEdit();
    return;
  }
  const now = l.state === 'dropped' ? 'dropped' : sayLine(l);
  editing.note.textContent = `${clip(l.by || 'Somebody', 40)} changed this in the meantime. Now: ${now}.`;
});
