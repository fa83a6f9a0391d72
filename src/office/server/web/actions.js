// What a reviewer does to lines: accept, drop, move, split, merge. Some of it asks something first.
import { h, button, clip, cap, tell } from './dom.js';
import { state, on } from './state.js';
import { send, locked } from './commands.js';
import { visibleIds } from './list.js';
import { dialog, closeDialog, formDialog } from './dialogs.js';
import { sayLine, sideOptions, structures } from './words.js';

export function acceptLine(id) {
  if (!id) return;
  // What was reviewed is not asked again, nor said again.
  if (state.lines.get(id)?.state === 'reviewed') {
    tell('This line has been reviewed. Press n for the next one.');
    return;
  }
  return send({ do: 'accept', lines: [id] });
}
export function acceptMarked() {
  const ids = [...state.marks].filter((id) => ['flagged', 'unflagged'].includes(state.lines.get(id)?.state));
  if (ids.length) return send({ do: 'accept', lines: ids });
  tell('The selected lines have been reviewed.');
}

const REASONS = ['not there', 'counted twice', 'not storm damage', 'covered by another line', 'just conversation'];

const live = (ids) => ids.filter((id) => state.lines.get(id) && state.lines.get(id).state !== 'dropped');
const named = ([first, ...more]) =>
  more.length ? `${more.length + 1} lines` : `“${clip(state.lines.get(first).shown.item, 60)}”`;

/** A list of answers, each with its number. */
const numbered = (name, options) =>
  h(
    'div',
    { class: 'stack' },
    options.map(([value, label], i) =>
      button([h('kbd', { 'aria-hidden': 'true' }, String(i + 1)), cap(label)], name, () => closeDialog(value), {
        class: 'wide',
        'data-choice': String(i + 1),
      }),
    ),
  );

export async function dropDialog(some) {
  const ids = live(some);
  if (!ids.length || locked()) return;
  const own = h('input', { type: 'text', id: 'own-reason', class: 'grow', autocomplete: 'off', maxlength: '200' });
  const reason = await dialog({
    title: `Why drop ${named(ids)}?`,
    digits: true,
    body: [
      numbered(
        'reason',
        REASONS.map((r) => [r, r]),
      ),
      h('label', { for: 'own-reason' }, 'Another reason'),
      own,
    ],
    buttons: [['Drop for this reason', 'drop-own', () => own.value.trim() || false]],
  });
  if (reason) return send({ do: 'drop', lines: ids, reason });
}

export async function moveDialog(some) {
  const ids = live(some);
  if (!ids.length || locked()) return;
  const now = state.lines.get(ids[0]).line.structure;
  const where = h(
    'select',
    { id: 'move-structure', 'data-field': 'structure' },
    structures().map((x) => h('option', { value: x, '.selected': x === now }, clip(x, 40))),
  );
  const side = await dialog({
    title: `Move ${named(ids)} to`,
    digits: true,
    body: [h('label', { for: 'move-structure' }, 'Building'), where, numbered('side', sideOptions('no side'))],
  });
  if (side) return send({ do: 'move', lines: ids, side, structure: where.value });
}

export async function splitDialog(id) {
  const l = state.lines.get(id);
  if (!l || l.state === 'dropped' || locked()) return;
  const parts = h('div', { class: 'parts' });
  const addPart = (q) => parts.append(partRow(l, parts.children.length + 1, q));
  halves(l.line).forEach(addPart);
  const values = (row) => ({ quantity: row.querySelector('input').value, side: row.querySelector('select').value });
  await formDialog({
    title: `Split “${clip(l.shown.item, 60)}” (${l.shown.amount || 'no number'})`,
    body: [parts, button('Add a part', 'add-part', () => addPart(''), {})],
    go: 'Split',
    name: 'split-save',
    run: () => send({ do: 'split', line: id, parts: [...parts.children].map(values) }),
  });
}

/** Half of the line's number for each of two parts; nothing where there is none, or a range. */
function halves(line) {
  const q = line.quantity;
  if (q == null || line.low !== line.high) return ['', ''];
  const half = Math.ceil(q / 2);
  return [String(half), String(Math.round((q - half) * 100) / 100)];
}

function partRow(l, n, q) {
  const text = {
    type: 'text',
    id: 'part-q' + n,
    'data-field': 'quantity',
    '.value': q,
    autocomplete: 'off',
    size: '8',
  };
  const sides = sideOptions().map(([x, name]) => h('option', { value: x, '.selected': x === l.line.side }, name));
  return h(
    'div',
    { class: 'part-row', role: 'group', 'aria-label': `Part ${n}` },
    h('label', { for: 'part-q' + n }, `Part ${n}`),
    h('input', text),
    h('label', { for: 'part-s' + n, class: 'unit' }, clip(l.shown.unit, 20) + ' on'),
    h('select', { id: 'part-s' + n, 'data-field': 'side' }, sides),
  );
}

export async function mergeDialog() {
  const shown = visibleIds(),
    ids = shown.filter((id) => state.marks.has(id));
  ids.push(...[...state.marks].filter((id) => !shown.includes(id)));
  if (locked()) return;
  if (ids.length < 2) {
    tell('Select two or more lines first (x), then merge them.');
    return;
  }
  let stays = state.marks.has(state.chosen) ? state.chosen : ids[0];
  const option = (id) => {
    const l = state.lines.get(id),
      pick = () => {
        stays = id;
      };
    return h(
      'label',
      { class: 'radio' },
      h('input', { type: 'radio', name: 'stays', value: id, '.checked': id === stays, onchange: pick }),
      h('span', {}, `${sayLine(l)} (${clip(l.shown.place, 40)})`),
    );
  };
  await formDialog({
    title: `Merge ${ids.length} lines into one`,
    body: [h('fieldset', {}, h('legend', {}, 'Which one stays?'), ids.map(option))],
    go: 'Merge',
    name: 'merge-save',
    run: () => send({ do: 'merge', lines: [stays, ...ids.filter((x) => x !== stays)] }),
  });
}

on('accept', acceptLine);
on('drop', dropDialog);
on('move', moveDialog);
on('split', splitDialog);
on('merge', mergeDialog);
