// The fields of a line, for editing one and for adding one. What is typed goes to the server as typed.
import { h, clip } from './dom.js';
import { state } from './state.js';
import { readQuantity, structures } from './settle.js';

let serial = 0;

/**
 * @param {Record<string,string>} start the values the form opens with
 * @returns {{el:HTMLElement, changed:()=>Record<string,string>, fail:(r:any)=>void}}
 */
export function lineFields(start) {
  const n = ++serial, id = (f) => `f${n}-${f}`;
  const base = { ...start };
  let unitTouched = false;
  const inputs = {}, errors = {};
  const el = h('div', { class: 'fields' });
  const put = (f, label, control) => {
    control.id = id(f);
    control.dataset.field = f;
    control.setAttribute('aria-describedby', id(f) + '-e');
    inputs[f] = control;
    errors[f] = h('span', { class: 'field-note', id: id(f) + '-e' });
    el.append(h('div', { class: 'field field-' + f }, h('label', { for: control.id }, label), control, errors[f]));
  };
  const text = (f, more = {}) => h('input', { type: 'text', autocomplete: 'off', spellcheck: 'false', maxlength: '300', '.value': start[f] || '', ...more });
  const select = (f, options) => {
    const all = options.some(([v]) => v === start[f]) ? options : [[start[f] || '', start[f] || 'not said'], ...options];
    return h('select', {}, all.map(([v, name]) => h('option', { value: v, '.selected': v === (start[f] || '') }, clip(name, 60))));
  };
  put('quantity', 'Quantity', text('quantity', { placeholder: '6, 6\' 6", 12-14 ft' }));
  put('unit', 'Unit', select('unit', state.catalogue.units));
  put('item', 'Item', text('item', { list: id('items') }));
  put('work', 'Work', select('work', state.catalogue.works));
  put('side', 'Side', select('side', state.catalogue.sides.map((x) => [x, x === 'none' ? 'not said' : x])));
  put('structure', 'Building', text('structure', { list: id('structures') }));
  put('size', 'Size', text('size'));
  put('detail', 'Detail', text('detail'));
  el.append(h('datalist', { id: id('items') }, state.catalogue.items.map((i) => h('option', { value: i.name }))),
    h('datalist', { id: id('structures') }, structures().map((x) => h('option', { value: clip(x, 60) }))));

  const note = (f, words, bad) => {
    errors[f].textContent = words || '';
    errors[f].classList.toggle('bad', !!bad);
    if (bad) inputs[f].setAttribute('aria-invalid', 'true'); else inputs[f].removeAttribute('aria-invalid');
  };
  let timer = 0, asked = 0;
  const preview = () => {
    clearTimeout(timer);
    const typed = inputs.quantity.value.trim(), mine = ++asked;
    if (!typed) { note('quantity', ''); return; }
    timer = setTimeout(async () => {
      const r = await readQuantity(typed, inputs.item.value);
      if (mine !== asked) return;
      if (r.error) { note('quantity', clip(r.error, 160), true); return; }
      note('quantity', 'reads as ' + clip(r.shown, 60));
      // A unit typed with the number wins over the list, until the list is used by hand.
      if (r.unit && !unitTouched) inputs.unit.value = r.unit;
    }, 180);
  };
  inputs.quantity.addEventListener('input', preview);
  inputs.item.addEventListener('change', () => {
    const known = state.catalogue.items.some((i) => i.name.toLowerCase() === inputs.item.value.trim().toLowerCase());
    note('item', inputs.item.value.trim() && !known ? 'not in the catalogue' : '');
    if (inputs.quantity.value !== (base.quantity || '')) preview();
  });
  inputs.unit.addEventListener('change', () => { unitTouched = true; });

  return {
    el,
    changed() {
      const out = {};
      for (const [f, input] of Object.entries(inputs)) {
        if (f === 'unit' && !unitTouched) continue;
        if (input.value !== (base[f] || '')) out[f] = input.value;
      }
      return out;
    },
    fail(r) {
      const names = Object.keys(this.changed());
      const f = r.field && inputs[r.field] ? r.field : names.length === 1 ? names[0] : inputs.quantity.hasAttribute('aria-invalid') ? 'quantity' : null;
      if (!f) return false;
      note(f, clip(r.error, 200), true);
      inputs[f].focus();
      return true;
    },
  };
}

/** @param {import('./state.js').Line} l */
export function valuesOf(l) {
  return { quantity: l.shown.quantity || '', unit: l.line.unit, item: l.shown.item, work: l.line.work || '', side: l.line.side, structure: l.line.structure, size: l.line.size || '', detail: l.line.detail || '' };
}
