// The fields of a line, for editing one and for adding one. What is typed goes to the server as typed.
import { h, clip } from './dom.js';
import { state } from './state.js';
import { readQuantity } from './api.js';
import { sideOptions, structures } from './words.js';

/** How long typing must rest before the server is asked how a quantity reads, in milliseconds. */
const REST = 180;

let serial = 0;

/** A form's fields; the values it opens with are those that count as unchanged. */
export class LineFields {
  /** @param {Record<string,string>} start */
  constructor(start) {
    this.start = start;
    this.id = `f${++serial}`;
    this.inputs = {};
    this.notes = {};
    this.unitTouched = false;
    this.timer = 0;
    this.asked = 0;
    this.el = h('div', { class: 'fields' });
    this.draw();
    this.inputs.quantity.addEventListener('input', () => this.preview());
    this.inputs.item.addEventListener('change', () => this.checkItem());
    this.inputs.unit.addEventListener('change', () => {
      this.unitTouched = true;
    });
  }

  draw() {
    const { units, works, items } = state.catalogue;
    this.put('quantity', 'Quantity', this.text('quantity', { placeholder: '6, 6\' 6", 12-14 ft' }));
    this.put('unit', 'Unit', this.select('unit', units));
    this.put('item', 'Item', this.text('item', { list: `${this.id}-items` }));
    this.put('work', 'Work', this.select('work', works));
    this.put('side', 'Side', this.select('side', sideOptions()));
    this.put('structure', 'Building', this.text('structure', { list: `${this.id}-structures` }));
    this.put('size', 'Size', this.text('size'));
    this.put('detail', 'Detail', this.text('detail'));
    this.suggest(
      'items',
      items.map((i) => i.name),
    );
    this.suggest(
      'structures',
      structures().map((x) => clip(x, 60)),
    );
  }

  put(f, label, control) {
    const noteId = `${this.id}-${f}-note`;
    control.id = `${this.id}-${f}`;
    control.dataset.field = f;
    control.setAttribute('aria-describedby', noteId);
    this.inputs[f] = control;
    this.notes[f] = h('span', { class: 'field-note', id: noteId });
    const parts = [h('label', { for: control.id }, label), control, this.notes[f]];
    this.el.append(h('div', { class: 'field field-' + f }, parts));
  }

  text(f, more = {}) {
    const plain = { type: 'text', autocomplete: 'off', spellcheck: 'false', maxlength: '300' };
    return h('input', { ...plain, '.value': this.start[f] || '', ...more });
  }

  select(f, options) {
    const now = this.start[f] || '';
    const all = options.some(([v]) => v === now) ? options : [[now, now || 'not said'], ...options];
    return h(
      'select',
      {},
      all.map(([v, name]) => h('option', { value: v, '.selected': v === now }, clip(name, 60))),
    );
  }

  suggest(name, values) {
    this.el.append(
      h(
        'datalist',
        { id: `${this.id}-${name}` },
        values.map((value) => h('option', { value })),
      ),
    );
  }

  note(f, words, bad = false) {
    this.notes[f].textContent = words;
    this.notes[f].classList.toggle('bad', bad);
    if (bad) this.inputs[f].setAttribute('aria-invalid', 'true');
    else this.inputs[f].removeAttribute('aria-invalid');
  }

  /** Shows how the quantity reads, once typing rests. */
  preview() {
    clearTimeout(this.timer);
    const typed = this.inputs.quantity.value.trim(),
      mine = ++this.asked;
    if (!typed) return this.note('quantity', '');
    this.timer = setTimeout(async () => {
      const r = await readQuantity(typed, this.inputs.item.value);
      if (mine !== this.asked) return;
      if (r.error) return this.note('quantity', clip(r.error, 160), true);
      this.note('quantity', 'reads as ' + clip(r.shown, 60));
      // A unit typed with the number wins over the list, until the list is used by hand.
      if (r.unit && !this.unitTouched) this.inputs.unit.value = r.unit;
    }, REST);
  }

  checkItem() {
    const typed = this.inputs.item.value.trim();
    const known = state.catalogue.items.some((i) => i.name.toLowerCase() === typed.toLowerCase());
    this.note('item', typed && !known ? 'not in the catalog' : '');
    if (this.inputs.quantity.value !== (this.start.quantity || '')) this.preview();
  }

  /** The fields that are different now. @returns {Record<string,string>} */
  changed() {
    const differs = ([f, input]) => (f !== 'unit' || this.unitTouched) && input.value !== (this.start[f] || '');
    return Object.fromEntries(
      Object.entries(this.inputs)
        .filter(differs)
        .map(([f, input]) => [f, input.value]),
    );
  }

  /** Puts the server's words by the field they are about, if it is known which. */
  fail(r) {
    const changed = Object.keys(this.changed());
    const unread = this.inputs.quantity.hasAttribute('aria-invalid') ? 'quantity' : null;
    const f = this.inputs[r.field] ? r.field : changed.length === 1 ? changed[0] : unread;
    if (!f) return false;
    this.note(f, clip(r.error, 200), true);
    this.inputs[f].focus();
    return true;
  }
}

/** @param {import('./state.js').Line} l */
export function valuesOf(l) {
  const { unit, work, side, structure, size, detail } = l.line;
  const values = { quantity: l.shown.quantity, unit, item: l.shown.item, work, side, structure, size, detail };
  return Object.fromEntries(Object.entries(values).map(([field, value]) => [field, value || '']));
}
