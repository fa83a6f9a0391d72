// The takeoff: the faces that were measured, a form to type what a tape says, what it all comes to, and what is lacking.
// The figures are computed by the program; the page only shows them.
import { h, $, button, cap, clip, refill, keepTyped } from './dom.js';
import { state, emit, shownTime, toldTime } from './state.js';
import { get, recPath } from './api.js';
import { act, locked, structures } from './settle.js';
import { playRange } from './player.js';

/** @type {HTMLElement|null} */ let panel = null;
/** @type {any} */ let known = null;
let of = null, asked = 0;

const SHAPES = [['wall', 'wall'], ['gable', 'gable'], ['roof-slope', 'roof slope'], ['dormer-sides', 'dormer sides'], ['hip-or-valley', 'hip or valley']];
// What the three fields are called for each shape; none where the shape has no such measure.
const FIELDS = {
  wall: { width: 'Width', height: 'Height' }, gable: { width: 'Width', height: 'Height at the peak' }, 'dormer-sides': { width: 'Width of one', height: 'Height of one' },
  'roof-slope': { width: 'Along the eave', height: 'Up the rafter', rise: 'Rise in 12' }, 'hip-or-valley': { width: 'Run', rise: 'Rise in 12' },
};

export function mountTakeoff(el) { panel = el; known = null; of = null; }

/** Asks for the takeoff anew where something was done since. */
export async function drawTakeoff() {
  if (!panel || !state.rec) return;
  if (known && of === state.id && known.version === state.rec.version) return draw();
  const mine = ++asked, id = state.id;
  let fresh;
  try { fresh = await get(recPath(id, '/takeoff')); } catch (e) { if (mine === asked) refill(panel, h('p', { class: 'error' }, clip(e.message, 200))); return; }
  if (mine !== asked || id !== state.id) return;
  known = fresh; of = id;
  draw();
}

function draw() {
  const t = known;
  keepTyped(panel, () => refill(panel,
    h('section', { class: 'part' }, h('h2', { class: 'small' }, `Measured (${t.faces.length})`),
      t.faces.length ? h('ul', { role: 'list' }, t.faces.slice(0, 200).map(face)) : h('p', { class: 'soft empty' }, 'Nothing was measured yet.'),
      form()),
    t.lacking.length > 0 && h('section', { class: 'part' }, h('h2', { class: 'small' }, `Tapes that are lacking (${t.lacking.length})`),
      h('ul', { role: 'list' }, t.lacking.map((x) => h('li', {}, h('b', {}, clip(x.measure, 120)), h('span', { class: 'soft' }, ` ${clip(x.place, 60)}, for ${clip(x.purpose, 80)}`))))),
    h('section', { class: 'part' }, h('h2', { class: 'small' }, `What it comes to (${t.figures.length})`),
      t.figures.length ? [h('p', { class: 'soft' }, clip(t.openings, 200)), figures(t.figures)] : h('p', { class: 'soft empty' }, 'No figure yet: a width and a height give the first.'))));
}

const nameOf = (f) => `${f.place}: ${f.name}${f.number > 1 ? ' ' + f.number : ''}`;

function face(f) {
  const names = FIELDS[f.shape] || FIELDS.wall;
  const there = ['width', 'height', 'rise'].filter((k) => f[k]);
  const one = (k) => h('span', { class: 'measure' }, h('span', { class: 'soft' }, (names[k] || k) + ' '), h('b', {}, f[k].told));
  // A width and a height that were said in one breath come from the same words.
  const origin = (m) => [m.from, m.quote, m.start, m.who].join(' ');
  const sources = there.filter((k, i) => !there.slice(0, i).some((x) => origin(f[x]) === origin(f[k])));
  return h('li', { class: 'face', 'data-face': f.id },
    h('span', {}, h('b', {}, clip(nameOf(f), 100))), h('div', { class: 'measures' }, there.map(one)), h('div', {}, sources.map((k) => from(f[k]))),
    button('Change', 'change-face', () => edit(f), { class: 'mini', 'data-keep': `face ${f.id}`, 'aria-label': `Change: ${clip(nameOf(f), 100)}` }));
}

/** Where a measure comes from: words to play, a name, or a rule. */
function from(m) {
  if (m.from === 'typed') return h('span', { class: 'soft' }, `typed by ${clip(m.who, 40)}`);
  if (m.from === 'rule') return h('span', { class: 'soft' }, clip(m.source, 160));
  return h('span', { class: 'from' }, m.start != null && button(shownTime(m.start), 'play', () => playRange(m.start, m.start + 4), { class: 'time', 'aria-label': `Play from ${toldTime(m.start)}` }), ' ', h('q', { class: 'quote' }, clip(m.quote, 120)));
}

function figures(all) {
  const groups = new Map();
  for (const f of all) { const k = `${f.structure}\n${f.heading}`; if (!groups.has(k)) groups.set(k, []); groups.get(k).push(f); }
  return [...groups].map(([k, list]) => h('section', { class: 'figures' }, h('h3', {}, k.startsWith('house\n') ? list[0].heading : `${clip(list[0].structure, 40)}: ${list[0].heading}`), h('ul', { role: 'list' }, list.map(figure))));
}

function figure(f) {
  return h('li', { 'data-figure': f.key }, h('details', { class: 'figure' },
    h('summary', {}, h('span', {}, clip(f.place === 'House' ? cap(f.name) : `${f.place}: ${f.name}`, 120)), ' ', h('b', {}, f.told)),
    h('p', { class: 'formula' }, `${f.formula} = ${f.told}`),
    f.inputs.length > 0 && h('ul', { role: 'list' }, f.inputs.map((i) => h('li', {}, h('span', { class: 'soft' }, clip(i.name, 80) + ': '), h('b', {}, i.told), ' ', from(i)))),
    f.rule && h('p', { class: 'soft ground' }, clip(f.rule, 300))));
}

/** @type {any} the face that the form is about, as the person chose it */ let chosen = { structure: 'house', side: 'front', shape: 'wall', number: 1 };

const same = (f) => f.structure === chosen.structure && f.side === chosen.side && f.shape === chosen.shape;

function edit(f) {
  chosen = { structure: f.structure, side: f.side, shape: f.shape, number: f.number };
  draw();
  $('measure-width')?.focus();
}

function form() {
  const there = known.faces.filter(same), numbers = [...new Set([...there.map((f) => f.number), (there.at(-1)?.number || 0) + 1])];
  if (!numbers.includes(chosen.number)) chosen.number = numbers[0];
  const now = there.find((f) => f.number === chosen.number);
  const pick = (k, label, options) => {
    const el = h('select', { id: 'measure-' + k, 'data-keep': 'measure-' + k, onchange: () => { chosen = { ...chosen, [k]: k === 'number' ? +el.value : el.value, ...(k === 'number' ? {} : { number: 0 }) }; draw(); } }, options.map(([v, name]) => h('option', { value: v, '.selected': String(v) === String(chosen[k]) }, clip(name, 60))));
    return h('div', { class: 'field' }, h('label', { for: 'measure-' + k }, label), el);
  };
  const inputs = {};
  const write = ([k, label]) => {
    inputs[k] = h('input', { type: 'text', id: 'measure-' + k, 'data-field': k, 'data-typed': `measure ${k} ${Object.values(chosen).join(' ')}`, autocomplete: 'off', spellcheck: 'false', maxlength: '60', size: '9', placeholder: k === 'rise' ? '6' : '26\' 4"', value: now?.[k]?.told || '' });
    return h('div', { class: 'field' }, h('label', { for: 'measure-' + k }, label), inputs[k]);
  };
  const error = h('p', { class: 'error', role: 'alert' });
  const buildings = [...new Set([...structures(), ...known.faces.map((f) => f.structure)])];
  return h('form', { class: 'measure-form', 'aria-label': 'Type a measure', onsubmit: (e) => { e.preventDefault(); keep(inputs, now, error); } },
    h('div', { class: 'fields' }, pick('structure', 'Building', buildings.map((x) => [x, x])), pick('side', 'Side', state.catalogue.sides.map((x) => [x, x === 'none' ? 'no one side' : x])), pick('shape', 'What', SHAPES),
      numbers.length > 1 && pick('number', 'Which', numbers.map((n) => [n, there.some((f) => f.number === n) ? `number ${n}` : 'another'])),
      Object.entries(FIELDS[chosen.shape]).map(write), h('button', { type: 'submit', class: 'main-button', 'data-act': 'measure' }, 'Keep')), error);
}

async function keep(inputs, now, error) {
  if (locked()) return;
  const measures = {};
  for (const [k, el] of Object.entries(inputs)) if (el.value.trim() !== (now?.[k]?.told || '')) measures[k] = el.value.trim();
  if (!Object.keys(measures).length) { error.textContent = 'Type what the tape says first.'; inputs.width.focus(); return; }
  const typed = Object.values(inputs).map((el) => [el, el.dataset.typed]);
  typed.forEach(([el]) => el.removeAttribute('data-typed'));
  // What somebody else measured since this was drawn is looked at first.
  const seen = { [Object.values(chosen).join('/')]: now?.version ?? 0 };
  const r = await act({ do: 'measure', face: { ...chosen }, measures }, { stay: true, seen });
  // A line without a number may have an answer now.
  if (r.ok) { emit('reload'); return; }
  typed.forEach(([el, k]) => { el.dataset.typed = k; });
  error.textContent = r.error || '';
  const f = inputs[r.field];
  if (f) { f.setAttribute('aria-invalid', 'true'); f.focus(); }
}
