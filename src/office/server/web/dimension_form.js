// The form that measurements are typed into: which wall, gable or slope, and its width, height or slope.
import { h, clip } from './dom.js';
import { state, emit } from './state.js';
import { send, locked } from './commands.js';
import { sideOptions, structures } from './words.js';

const SHAPES = [
  ['wall', 'wall'],
  ['gable', 'gable'],
  ['roof-slope', 'roof slope'],
  ['dormer-sides', 'dormer sides'],
  ['hip-or-valley', 'hip or valley'],
];
// What the three fields are called for each shape; none where the shape has no such measurement.
const FIELDS = {
  wall: { width: 'Width', height: 'Height' },
  gable: { width: 'Width', height: 'Height at the peak' },
  'dormer-sides': { width: 'Width of one', height: 'Height of one' },
  'roof-slope': { width: 'Along the eave', height: 'Up the rafter', slope: 'Slope (rise in 12)' },
  'hip-or-valley': { width: 'Run', slope: 'Slope (rise in 12)' },
};
export const fieldNames = (shape) => FIELDS[shape] || FIELDS.wall;

/** @type {any} what the form is about, as the person chose it */
let chosen = { structure: 'house', side: 'front', shape: 'wall', number: 1 };

export function chooseDimension({ structure, side, shape, number }) {
  chosen = { structure, side, shape, number };
}

const alike = (d) => d.structure === chosen.structure && d.side === chosen.side && d.shape === chosen.shape;

/** @param {any[]} dimensions those that are known */
export function dimensionForm(dimensions) {
  const box = h('div', {});
  const draw = () => box.replaceChildren(form(dimensions, draw));
  draw();
  return box;
}

function form(dimensions, redraw) {
  const there = dimensions.filter(alike),
    next = (there.at(-1)?.number || 0) + 1;
  const numbers = [...new Set([...there.map((d) => d.number), next])];
  if (!numbers.includes(chosen.number)) chosen.number = numbers[0];
  const now = there.find((d) => d.number === chosen.number);
  const inputs = Object.fromEntries(Object.keys(fieldNames(chosen.shape)).map((k) => [k, input(k, now)]));
  const error = h('p', { class: 'error', role: 'alert' });
  const buildings = [...new Set([...structures(), ...dimensions.map((d) => d.structure)])];
  const numbered = (n) => [n, there.some((d) => d.number === n) ? `number ${n}` : 'another'];
  const pick = (k, label, options) => field(k, label, picker(k, options, redraw));
  const onsubmit = (e) => {
    e.preventDefault();
    save(inputs, now, error);
  };
  return h(
    'form',
    { class: 'measure-form', 'aria-label': 'Type a measurement', onsubmit },
    h(
      'div',
      { class: 'fields' },
      pick(
        'structure',
        'Building',
        buildings.map((x) => [x, x]),
      ),
      pick('side', 'Side', sideOptions('no one side')),
      pick('shape', 'What', SHAPES),
      numbers.length > 1 && pick('number', 'Which', numbers.map(numbered)),
      Object.entries(inputs).map(([k, el]) => field(k, fieldNames(chosen.shape)[k], el)),
      h('button', { type: 'submit', class: 'main-button', 'data-do': 'set-dimension' }, 'Save'),
    ),
    error,
  );
}

const field = (k, label, control) => h('div', { class: 'field' }, h('label', { for: 'measure-' + k }, label), control);

function picker(k, options, redraw) {
  const onchange = (e) => {
    const value = k === 'number' ? { number: Number(e.target.value) } : { [k]: e.target.value, number: 0 };
    chosen = { ...chosen, ...value };
    redraw();
    document.getElementById('measure-' + k)?.focus();
  };
  const option = ([v, name]) => h('option', { value: v, '.selected': String(v) === String(chosen[k]) }, clip(name, 60));
  return h('select', { id: 'measure-' + k, 'data-keep': 'measure-' + k, onchange }, options.map(option));
}

const input = (k, now) =>
  h('input', {
    type: 'text',
    id: 'measure-' + k,
    'data-field': k,
    'data-typed': `measure ${k} ${Object.values(chosen).join(' ')}`,
    autocomplete: 'off',
    spellcheck: 'false',
    maxlength: '60',
    size: '9',
    value: now?.[k]?.told || '',
    placeholder: k === 'slope' ? '6' : '26\' 4"',
  });

async function save(inputs, now, error) {
  if (locked()) return;
  const all = Object.entries(inputs),
    measurements = {};
  for (const [k, el] of all) if (el.value.trim() !== (now?.[k]?.told || '')) measurements[k] = el.value.trim();
  if (!Object.keys(measurements).length) {
    error.textContent = 'Type a measurement first.';
    inputs.width.focus();
    return;
  }
  // What was typed must not outlive the answer.
  const typed = all.map(([, el]) => [el, el.dataset.typed]);
  typed.forEach(([el]) => el.removeAttribute('data-typed'));
  // What somebody else measured since this was drawn is looked at first.
  const seen = { [Object.values(chosen).join('/')]: now?.version ?? 0 };
  const r = await send({ do: 'set-dimension', dimension: { ...chosen }, measurements }, { stay: true, seen });
  // A line without a number may have an answer now.
  if (r.ok) return emit('reload');
  typed.forEach(([el, k]) => {
    el.dataset.typed = k;
  });
  error.textContent = r.error || '';
  const f = inputs[r.field];
  if (!f) return;
  f.setAttribute('aria-invalid', 'true');
  f.focus();
}
