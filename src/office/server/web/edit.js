// Editing a line in its row, and adding a line. A half-typed form outlives redraws of the row.
import { h, button, clip, tell } from './dom.js';
import { state, on, wordsBetween, wordText } from './state.js';
import { act, locked } from './settle.js';
import { choose, rowOf, sayLine, refreshLines } from './lines.js';
import { lineFields, valuesOf } from './fields.js';
import { formDialog } from './dialogs.js';

/** @type {{id:string, seen:number, fields:any, form:HTMLElement, note:HTMLElement}|null} */ let editing = null;

export const editOpen = () => !!editing;

export function openEdit(id) {
  const l = state.lines.get(id);
  if (!l || l.state === 'dropped' || locked()) return;
  if (editing?.id === id) { editing.form.querySelector('input').focus(); return; }
  closeEdit();
  choose(id, { focus: false });
  const fields = lineFields(valuesOf(l)), error = h('p', { class: 'error', role: 'alert' }), note = h('p', { class: 'meanwhile', role: 'status' });
  const form = h('form', { class: 'edit', 'aria-label': 'Edit ' + clip(l.shown.item, 60), onsubmit: (e) => { e.preventDefault(); save(); } },
    fields.el, note, error,
    h('div', { class: 'edit-buttons' }, h('button', { type: 'submit', class: 'main-button', 'data-act': 'save' }, 'Save'), button('Cancel', 'cancel', () => closeEdit(true))));
  form.addEventListener('keydown', (e) => { if (e.key === 'Escape') { e.preventDefault(); e.stopPropagation(); closeEdit(true); } });
  editing = { id, seen: l.version, fields, form, note };
  const mine = editing;
  async function save() {
    const changed = fields.changed();
    if (!Object.keys(changed).length) { closeEdit(true); tell('Nothing was changed.'); return; }
    error.textContent = '';
    const r = await act({ do: 'change', line: id, fields: changed }, { seen: { [id]: mine.seen } });
    if (r.ok) { if (editing === mine) closeEdit(); const li = document.querySelector('.line.chosen'); li?.focus({ preventScroll: true }); }
    else if (r.theirs) closeEdit(true);
    else if (r.error && !fields.fail(r)) error.textContent = r.error;
  }
  const li = rowOf(id);
  li.append(form);
  li.classList.add('editing');
  const first = form.querySelector('[data-field="quantity"]');
  first.focus({ preventScroll: true });
  first.select();
  form.scrollIntoView({ block: 'nearest' });
}

export function closeEdit(focus = false) {
  if (!editing) return;
  const li = editing.form.closest('.line');
  editing.form.remove();
  li?.classList.remove('editing');
  const id = editing.id;
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
  if (!l) { tell('The line that you edit is gone.', 'bad'); closeEdit(); return; }
  editing.note.textContent = `Changed meanwhile by ${clip(l.by || 'somebody', 40)}. Now: ${l.state === 'dropped' ? 'dropped' : sayLine(l)}.`;
});

/**
 * Adds a line. @param {[number,number]|null} words @param {{quote?:string,item?:string,side?:string,structure?:string,start?:number|null,end?:number|null}} [from]
 */
export function addDialog(words, from = {}) {
  if (locked()) return;
  const w = words || wordsBetween(from.start ?? null, from.end ?? null);
  const near = w && [...state.lines.values()].filter((l) => l.words && l.words[0] <= w[0]).pop();
  const fields = lineFields({ item: from.item || '', side: from.side || near?.line.side || 'none', structure: from.structure || near?.line.structure || 'house', unit: 'each', quantity: '', work: '' });
  const quote = from.quote || wordText(w);
  return formDialog({
    title: 'Add a line', wide: true, go: 'Add the line', act: 'add-save',
    body: [quote ? h('q', { class: 'quote block' }, clip(quote, 300)) : h('p', { class: 'soft' }, 'Not from the words: it stands on your name.'), fields.el],
    run: async () => {
      const f = fields.el.querySelectorAll('[data-field]'), out = {};
      for (const x of f) if (x.value.trim() && !(x.dataset.field === 'unit' && !('unit' in fields.changed()))) out[x.dataset.field] = x.value;
      const r = await act({ do: 'add', words: w, fields: out });
      return !r.ok && r.error && fields.fail(r) ? { ok: false } : r;
    },
  });
}
