// Photos, measurements and checks that are still needed on site.
import { h, cap, clip, refill, when } from './dom.js';
import { state, itemName } from './state.js';
import { send } from './commands.js';
import { sayLine } from './words.js';
import { quoteOf } from './parts.js';

const KINDS = [
  ['measure', 'Measurements still needed'],
  ['photo', 'Photos still needed'],
  ['check', 'Checks still needed'],
];

export function drawFollowUps(panel, r) {
  const parts = KINDS.map(([kind, name]) => {
    const list = r.follow_ups.filter((one) => one.kind === kind),
      open = list.filter((one) => !one.done).length;
    return (
      list.length > 0
      && h(
        'section',
        { class: 'part' },
        h('h2', { class: 'small' }, `${name} (${open} of ${list.length})`),
        h('ul', { role: 'list' }, list.map(draw)),
      )
    );
  });
  refill(panel, parts, !r.follow_ups.length && h('p', { class: 'soft empty' }, 'Nothing is needed on site.'));
}

/** @param {import('./state.js').FollowUp} one */
function draw(one) {
  const id = 'follow-up-' + one.id,
    name = clip(one.item ? itemName(one.item) : one.quote, 80);
  const li = h(
    'li',
    { 'data-follow-up': one.id, class: 'follow-up' + (one.done ? ' is-done' : '') },
    h(
      'label',
      { class: 'tick-row', for: id },
      tick(one, id),
      h('span', {}, h('b', {}, cap(name)), h('span', { class: 'soft' }, ' ' + clip(one.place, 60))),
    ),
    quoteOf(one),
  );
  if (one.done) li.append(h('p', { class: 'note' }, doneBy(one.done)));
  else if (one.kind === 'measure') li.append(measurementForm(one, id));
  return li;
}

function tick(one, id) {
  const onchange = async (e) => {
    const r = await send({ do: one.done ? 'not-done' : 'done', follow_up: one.id });
    // The tick follows the server, not the finger.
    if (!r.ok) e.target.checked = !!one.done;
  };
  return h('input', { type: 'checkbox', id, 'data-keep': id, '.checked': !!one.done, onchange });
}

const doneBy = (done) => `✓ ${clip(done.who, 40)}, ${when(done.at)}${done.note ? ': ' + clip(done.note, 80) : ''}`;

/** What was measured, and the line that it is for. */
function measurementForm(one, id) {
  const [m, l] = [id + '-m', id + '-l'];
  const typed = { type: 'text', id: m, 'data-typed': m, 'data-field': 'measurement', autocomplete: 'off' };
  const input = h('input', { ...typed, placeholder: '38\' 6"' }),
    error = h('p', { class: 'error', role: 'alert' });
  const options = fitting(one).map((x) => h('option', { value: x }, sayLine(state.lines.get(x))));
  const which = h(
    'select',
    { id: l, 'data-typed': l, 'data-field': 'line' },
    options,
    h('option', { value: '' }, 'no line, just note it'),
  );
  const onsubmit = async (e) => {
    e.preventDefault();
    if (!input.value.trim()) {
      error.textContent = 'Type the measurement.';
      input.focus();
      return;
    }
    const measurement = input.value;
    input.removeAttribute('data-typed');
    const r = await send({ do: 'enter-measurement', follow_up: one.id, line: which.value || null, measurement });
    if (r.ok) return;
    input.dataset.typed = m;
    if (r.error) error.textContent = r.error;
  };
  return h(
    'form',
    { class: 'measurement', onsubmit },
    h('div', {}, h('label', { for: m }, 'Measured'), input),
    h('div', { class: 'grow' }, h('label', { for: l }, 'for the line'), which),
    h('button', { type: 'submit', class: 'main-button', 'data-do': 'enter-measurement' }, 'Save'),
    error,
  );
}

/** The lines that a measurement may be for, the likeliest first. */
function fitting(one) {
  const likely = one.lines.filter((x) => state.lines.has(x));
  const here = (l) => l.line.side === one.side && l.line.structure === one.structure;
  const rest = [...state.lines.values()].filter((l) => l.state !== 'dropped' && !likely.includes(l.id) && here(l));
  return [...likely, ...rest.map((l) => l.id).slice(0, 60)];
}
