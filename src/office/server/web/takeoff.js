// The takeoff: what was measured, a form to type measurements, the totals, and what is still needed. The figures are
// computed by the program; the page only shows them.
import { h, $, button, cap, clip, refill, keepTyped } from './dom.js';
import { state } from './state.js';
import { get, recPath } from './api.js';
import { part, playFromButton } from './parts.js';
import { dimensionForm, chooseDimension, fieldNames } from './dimension_form.js';

/** @type {HTMLElement|null} */ let panel = null;
/** @type {any} */ let known = null;
let of = null,
  asked = 0;

export function mountTakeoff(el) {
  panel = el;
  known = null;
  of = null;
}

/** Asks for the takeoff again where something was changed since. */
export async function drawTakeoff() {
  if (!panel || !state.rec) return;
  if (known && of === state.id && known.version === state.rec.version) return draw();
  const mine = ++asked,
    id = state.id;
  let fresh;
  try {
    fresh = await get(recPath(id, '/takeoff'));
  } catch (e) {
    if (mine === asked) refill(panel, h('p', { class: 'error' }, clip(e.message, 200)));
    return;
  }
  if (mine !== asked || id !== state.id) return;
  known = fresh;
  of = id;
  draw();
}

function draw() {
  const { dimensions, lacking, figures, openings } = known;
  const measured = dimensions.length
    ? h('ul', { role: 'list' }, dimensions.slice(0, 200).map(dimension))
    : h('p', { class: 'soft empty' }, 'Nothing has been measured yet.');
  const totals = figures.length
    ? [h('p', { class: 'soft' }, clip(openings, 200)), inGroups(figures)]
    : h('p', { class: 'soft empty' }, 'No totals yet: a width and a height give the first one.');
  const heading = (name, n) => h('h2', { class: 'small' }, `${name} (${n})`);
  keepTyped(panel, () =>
    refill(
      panel,
      h('section', { class: 'part' }, heading('Measured', dimensions.length), measured, dimensionForm(dimensions)),
      part('Measurements still needed', '', lacking, needed),
      h('section', { class: 'part' }, heading('Totals', figures.length), totals),
    ),
  );
}

const needed = (x) =>
  h(
    'li',
    {},
    h('b', {}, clip(x.measure, 120)),
    h('span', { class: 'soft' }, ` ${clip(x.place, 60)}, for ${clip(x.purpose, 80)}`),
  );

const nameOf = (d) => `${d.place}: ${d.name}${d.number > 1 ? ' ' + d.number : ''}`;

function dimension(d) {
  const names = fieldNames(d.shape),
    there = ['width', 'height', 'slope'].filter((k) => d[k]);
  const one = (k) =>
    h('span', { class: 'measure' }, h('span', { class: 'soft' }, (names[k] || k) + ' '), h('b', {}, d[k].told));
  // A width and a height that were said in one breath come from the same words.
  const origin = (m) => [m.from, m.quote, m.start, m.who].join(' ');
  const first = (k, i) => !there.slice(0, i).some((x) => origin(d[x]) === origin(d[k]));
  const name = clip(nameOf(d), 100);
  const about = { class: 'mini', 'data-keep': `dimension ${d.id}`, 'aria-label': `Change: ${name}` };
  return h(
    'li',
    { class: 'dimension', 'data-dimension': d.id },
    h('span', {}, h('b', {}, name)),
    h('div', { class: 'measures' }, there.map(one)),
    h(
      'div',
      {},
      there.filter(first).map((k) => from(d[k])),
    ),
    button('Change', 'change-dimension', () => change(d), about),
  );
}

function change(d) {
  chooseDimension(d);
  draw();
  $('measure-width')?.focus();
}

/** Where a measurement comes from: words to play, a name, or a rule. */
function from(m) {
  if (m.from === 'typed') return h('span', { class: 'soft' }, `typed by ${clip(m.who, 40)}`);
  if (m.from === 'rule') return h('span', { class: 'soft' }, clip(m.source, 160));
  return h(
    'span',
    { class: 'from' },
    playFromButton(m.start, m.start + 4),
    ' ',
    h('q', { class: 'quote' }, clip(m.quote, 120)),
  );
}

/** The figures under the headings of their structures. */
function inGroups(all) {
  const groups = new Map();
  for (const f of all) {
    const k = `${f.structure}\n${f.heading}`;
    if (!groups.has(k)) groups.set(k, []);
    groups.get(k).push(f);
  }
  const title = (f) => (f.structure === 'house' ? f.heading : `${clip(f.structure, 40)}: ${f.heading}`);
  return [...groups.values()].map((list) =>
    h('section', { class: 'figures' }, h('h3', {}, title(list[0])), h('ul', { role: 'list' }, list.map(figure))),
  );
}

function figure(f) {
  const name = f.place === 'House' ? cap(f.name) : `${f.place}: ${f.name}`;
  const input = (i) =>
    h('li', {}, h('span', { class: 'soft' }, clip(i.name, 80) + ': '), h('b', {}, i.told), ' ', from(i));
  return h(
    'li',
    { 'data-figure': f.key },
    h(
      'details',
      { class: 'figure' },
      h('summary', {}, h('span', {}, clip(name, 120)), ' ', h('b', {}, f.told)),
      h('p', { class: 'formula' }, `${f.formula} = ${f.told}`),
      f.inputs.length > 0 && h('ul', { role: 'list' }, f.inputs.map(input)),
      f.rule && h('p', { class: 'soft ground' }, clip(f.rule, 300)),
    ),
  );
}
