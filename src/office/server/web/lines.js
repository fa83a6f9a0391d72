// The list of lines: rows, groups, which is chosen, what is filtered out. A row is redrawn only when its line changed.
import { h, button, clip, cap, key, tell } from './dom.js';
import { state, emit, placeOf, placeName, shownTime, toldTime } from './state.js';
import { act, acceptLine, dropDialog, splitDialog, moveDialog, mergeDialog } from './settle.js';
import { openEdit } from './edit.js';
import { playRange } from './player.js';

/** @type {HTMLElement|null} */ let root = null;
/** @type {Map<string, HTMLElement>} the row of each line */ const rows = new Map();
/** @type {Map<string, {box:HTMLElement,list:HTMLElement,head:HTMLElement,name:string}>} */ const groups = new Map();
let ranks = new Map();

export function mountLines(el) {
  root = el;
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

export const rowOf = (id) => rows.get(id);

function groupKey(l) {
  if (l.state === 'dropped') return 'dropped';
  if (state.order === 'settle') return l.state === 'open' ? 'open' : 'stands';
  return 'place ' + placeOf(l.line);
}
const GROUP_NAMES = { open: 'To settle', stands: 'Settled', dropped: 'Dropped' };
const PLACE_ORDER = ['place front', 'place right', 'place rear', 'place left', 'place roof', 'place grounds', 'place none'];

/** Draws the whole list anew: another recording or another order. */
export function drawLines() {
  const had = root.contains(document.activeElement);
  rows.clear(); groups.clear();
  ranks = new Map([...state.lines.keys()].map((id, i) => [id, i]));
  const list = document.createDocumentFragment();
  const keys = new Set([...state.lines.values()].map(groupKey));
  const first = state.order === 'settle' ? ['open', 'stands'] : PLACE_ORDER;
  for (const k of [...first.filter((k) => keys.has(k)), ...[...keys].filter((k) => !first.includes(k) && k !== 'dropped'), ...(keys.has('dropped') ? ['dropped'] : [])]) list.append(makeGroup(k).box);
  for (const l of state.lines.values()) groups.get(groupKey(l)).list.append(drawRow(l));
  root.replaceChildren(list);
  sums();
  applyFilter();
  if (state.chosen && rows.has(state.chosen)) mark(state.chosen, had);
}

function makeGroup(k) {
  const name = GROUP_NAMES[k] || cap(clip(placeName(k.slice(6)), 60));
  const head = h('span', { class: 'sum' });
  const list = h('ul', { class: 'rows', role: 'list', 'aria-label': name });
  const title = [h('span', { class: 'group-name' }, name), head];
  const box = k === 'dropped'
    ? h('details', { class: 'group fold', 'data-group': k }, h('summary', {}, title), list)
    : h('section', { class: 'group', 'data-group': k }, h('h2', { class: 'group-head' }, title), list);
  const g = { box, list, head, name };
  groups.set(k, g);
  return g;
}

/** Redraws the rows of these lines only, and puts them where they now belong. */
export function refreshLines(ids, own = false) {
  const at = document.activeElement, inRow = at?.closest?.('.line')?.dataset.line;
  const near = own ? null : rowInView(ids);
  ranks = new Map([...state.lines.keys()].map((id, i) => [id, i]));
  for (const id of ids) {
    const l = state.lines.get(id), old = rows.get(id);
    if (!l) { old?.remove(); rows.delete(id); if (state.chosen === id) state.chosen = null; continue; }
    if (!old) { place(drawRow(l), l); continue; }
    const typing = old.querySelector('form');
    fillRow(old, l);
    if (!typing) place(old, l);
  }
  sums();
  applyFilter();
  if (state.chosen && rows.has(state.chosen)) extras(state.chosen);
  if (inRow && rows.has(inRow) && !rows.get(inRow).contains(document.activeElement) && inRow === state.chosen) rows.get(inRow).focus({ preventScroll: true });
  hold(near);
}

function place(li, l) {
  const k = groupKey(l);
  if (!groups.has(k)) {
    const g = makeGroup(k);
    const next = k === 'open' ? root.firstElementChild : k === 'dropped' ? null : root.querySelector('[data-group="dropped"]');
    root.insertBefore(g.box, next);
  }
  const list = groups.get(k).list, rank = ranks.get(l.id);
  let next = list.lastElementChild, after = null;
  while (next && (next === li || ranks.get(next.dataset.line) > rank)) { if (next !== li) after = next; next = next.previousElementSibling; }
  if (li.parentElement !== list || li.nextElementSibling !== after) list.insertBefore(li, after);
}

// Rows that others' acts move above the reader must not push what she reads: one row in view is held where it was.
function rowInView(ids) {
  const r = root.getBoundingClientRect(), seen = rows.get(state.chosen);
  const fits = (li) => li && !li.hidden && !ids.includes(li.dataset.line) && li.getBoundingClientRect().bottom > 60 && li.getBoundingClientRect().top < innerHeight;
  const mid = document.elementFromPoint(r.left + 30, Math.max(r.top, 0) + innerHeight * 0.3)?.closest('.line');
  const li = fits(seen) ? seen : fits(mid) ? mid : null;
  return li && { li, y: li.getBoundingClientRect().top };
}
function hold(near) {
  if (!near?.li.isConnected || near.li.hidden) return;
  const moved = near.li.getBoundingClientRect().top - near.y;
  if (Math.abs(moved) > 1 && Math.abs(moved) < 2000) (getComputedStyle(root.parentElement).overflowY === 'auto' ? root.parentElement : document.scrollingElement).scrollTop += moved;
}

function sums() {
  for (const [k, g] of groups) {
    let n = 0, open = 0;
    for (let li = g.list.firstElementChild; li; li = li.nextElementSibling) { n++; if (state.lines.get(li.dataset.line)?.state === 'open') open++; }
    g.head.textContent = k === 'open' || !open ? ` ${n}` : ` ${n}, ${open} to settle`;
  }
}

export function applyFilter() {
  const text = state.filter.text.trim().toLowerCase(), turn = [];
  let shown = 0;
  for (const [k, g] of groups) {
    let n = 0;
    for (let li = g.list.firstElementChild; li; li = li.nextElementSibling) {
      const l = state.lines.get(li.dataset.line);
      const hit = (!state.filter.place || placeOf(l.line) === state.filter.place) && (!text || hay(l).includes(text));
      if (li.hidden === hit) turn.push(li);
      if (hit) n++;
    }
    g.box.hidden = n === 0;
    if (k !== 'dropped') shown += n;
  }
  // Taking hundreds of rows out one by one costs a second; out of a list that is not laid out it costs nothing.
  const big = turn.length > 100, at = big ? root.parentElement.scrollTop : 0;
  if (big) { root.style.display = 'none'; void getComputedStyle(root).display; }
  for (const li of turn) li.hidden = !li.hidden;
  if (big) { root.style.display = ''; root.parentElement.scrollTop = at; }
  root.classList.toggle('none-shown', shown === 0);
  return shown;
}
const hay = (l) => `${l.shown.item} ${l.shown.work} ${l.shown.place} ${l.line.detail || ''} ${l.line.size || ''} ${l.line.quote}`.slice(0, 2000).toLowerCase();

function drawRow(l) {
  const li = h('li', { class: 'line', 'data-line': l.id, tabindex: '-1' });
  rows.set(l.id, li);
  fillRow(li, l);
  return li;
}

const wasText = (l) => {
  const d = l.drafted, n = l.shown, parts = [];
  if (!d) return '';
  if (d.amount !== n.amount || d.unit !== n.unit) parts.push(d.amount || 'no number');
  if (d.item !== n.item) parts.push(clip(d.item, 60));
  if (d.work !== n.work) parts.push(d.work || 'no work');
  if (d.place !== n.place) parts.push(clip(d.place, 60));
  return parts.join(', ');
};

export const sayLine = (l) => `${clip(l.shown.item, 60)}, ${l.shown.amount || 'no number'}${l.shown.work ? ', ' + l.shown.work : ''}`;

function fillRow(li, l) {
  const chosen = l.id === state.chosen, open = l.state === 'open', b = [];
  li.className = `line is-${l.state}${chosen ? ' chosen' : ''}${state.marks.has(l.id) ? ' marked' : ''}${li.querySelector('form') ? ' editing' : ''}`;
  li.setAttribute('aria-label', `${sayLine(l)}, ${clip(l.shown.place, 60)}${open ? ', to settle' : l.state === 'dropped' ? ', dropped' : ''}`);
  const tab = chosen ? null : '-1';
  const box = h('input', { type: 'checkbox', class: 'mark', tabindex: tab, '.checked': state.marks.has(l.id), 'aria-label': 'Mark ' + clip(l.shown.item, 60), title: 'Mark  x', onchange: () => toggleMark(l.id) });
  const settled = l.state !== 'open' && l.by ? `${l.state === 'dropped' ? 'dropped ' : l.drafted ? 'changed ' : ''}by ${clip(l.by, 40)}` : '';
  const was = wasText(l);
  b.push(
    l.state === 'dropped' ? h('span') : h('label', { class: 'markbox' }, box),
    h('span', { class: 'qty' + (l.shown.quantity ? '' : ' none') }, h('b', {}, clip(l.shown.quantity, 20) || '?'), ' ', h('span', { class: 'unit' }, clip(l.shown.unit, 20))),
    h('span', { class: 'what' },
      h('b', { class: 'item' }, clip(l.shown.item, 120)),
      l.shown.size && h('span', { class: 'size' }, clip(l.shown.size, 60)), l.line.detail && h('span', { class: 'detail' }, clip(l.line.detail, 80)),
      l.line.only_if && h('span', { class: 'badge-if' }, 'only if')),
    h('span', { class: 'job' + (l.shown.work ? '' : ' none') }, clip(l.shown.work, 60) || 'no work said'),
    h('span', { class: 'place' }, clip(l.shown.place, 60)),
    l.line.start == null ? h('span', { class: 'time' }) : h('button', { type: 'button', class: 'time', tabindex: tab, 'data-act': 'play', title: 'Play this line  p', 'aria-label': `Play from ${toldTime(l.line.start)}`, onclick: () => playRange(l.line.start, l.line.end) }, shownTime(l.line.start)),
    h('q', { class: 'quote' }, clip(l.line.quote, 260)));
  if (l.state === 'dropped' && l.reason) b.push(h('p', { class: 'note' }, 'Dropped: ' + clip(l.reason, 120)));
  if (settled || was) b.push(h('p', { class: 'note' }, settled && h('span', { class: 'by' }, (l.state === 'dropped' ? '' : '✓ ') + settled), was && h('span', { class: 'was' }, (settled ? ', ' : '') + 'drafted as ', h('s', {}, was))));
  if (open) {
    b.push(h('div', { class: 'look' },
      h('ul', { class: 'reasons', role: 'list' }, l.looks.map((t) => h('li', {}, clip(t, 300)))),
      h('div', { class: 'choices', role: 'group', 'aria-label': 'Choices' },
        l.choices.slice(0, 9).map((c, i, all) => button([key(String(i + 1)), h('span', {}, cap(clip(c.label, 80))), also(c), c.hint && c.hint !== all[i - 1]?.hint && h('small', {}, clip(c.hint, 80))], c.deed.do, () => act(c.deed), { class: 'choice', 'data-choice': String(i + 1), tabindex: tab, 'aria-keyshortcuts': String(i + 1) })),
        l.line.only_if
          ? WANTED.filter(([, deed]) => !l.choices.some((c) => c.deed.do === deed)).map(([name, deed, k]) => button([name, key(k)], deed, () => act({ do: deed, line: l.id }), { class: 'choice', tabindex: tab }))
          : button(['Accept as it is', key('a')], 'accept', () => acceptLine(l.id), { class: 'choice accept', tabindex: tab }))));
  }
  const body = h('div', { class: 'body' }, b);
  const old = li.querySelector(':scope > .body');
  if (old) old.replaceWith(body); else li.prepend(body);
}

const WANTED = [['It is wanted', 'confirm', 'y'], ['Not wanted', 'refuse', 'N']];
/** The other key of a choice that has one. */
const also = (c) => { const w = WANTED.find(([, deed]) => deed === c.deed.do); return w && key(w[2]); };

/** The buttons that only the chosen row has. */
function extras(id) {
  document.querySelectorAll('.line > .acts').forEach((el) => el.remove());
  const l = state.lines.get(id), li = rows.get(id);
  if (!l || !li) return;
  const bar = h('div', { class: 'acts', role: 'group', 'aria-label': 'Acts on this line' });
  const add = (label, a, k, fn) => bar.append(button([label, key(k)], a, fn, { class: 'act', 'aria-keyshortcuts': k }));
  if (l.state === 'dropped') {
    add('Take it back in', 'accept', 'a', () => acceptLine(id));
    add('Play', 'play', 'p', () => playRange(l.line.start, l.line.end));
  } else {
    add('Edit', 'edit', 'e', () => openEdit(id));
    add('Drop', 'drop', 'd', () => dropDialog([id]));
    add('Split', 'split', 's', () => splitDialog(id));
    add('Move', 'move', 'g', () => moveDialog([id]));
    if (state.marks.size > 1) add('Merge marked', 'merge', 'm', () => mergeDialog());
    if (l.line.only_if && l.state !== 'open') for (const [name, deed, k] of WANTED) add(name, deed, k, () => act({ do: deed, line: id }));
  }
  if (l.line.why?.length) {
    bar.append(h('details', { class: 'why' }, h('summary', {}, 'Why so'), h('dl', {}, l.line.why.slice(0, 12).map((w) => [
      h('dt', {}, clip(w.field, 30)), h('dd', {}, clip(w.rule, 160), w.words && [' — ', h('q', {}, clip(w.words, 120))])]))));
  }
  li.append(bar);
}

function mark(id, focus) {
  const li = rows.get(id);
  li.classList.add('chosen');
  li.setAttribute('aria-current', 'true');
  li.tabIndex = 0;
  li.querySelectorAll('.body [tabindex="-1"]').forEach((el) => el.removeAttribute('tabindex'));
  extras(id);
  if (focus) li.focus({ preventScroll: true });
}

/** @param {string|null} id @param {{focus?:boolean,scroll?:boolean}} [how] */
export function choose(id, { focus = true, scroll = true } = {}) {
  if (id === state.chosen && id != null) { if (focus) rows.get(id)?.focus({ preventScroll: true }); if (scroll) bring(id); return; }
  const old = rows.get(state.chosen);
  if (old) {
    old.classList.remove('chosen');
    old.removeAttribute('aria-current');
    old.tabIndex = -1;
    old.querySelectorAll('.body button, .body input').forEach((el) => { el.tabIndex = -1; });
  }
  state.chosen = id && rows.has(id) ? id : null;
  if (state.chosen) {
    const fold = rows.get(id).closest('details');
    if (fold) fold.open = true;
    mark(id, focus);
    if (scroll) bring(id);
  } else document.querySelectorAll('.line > .acts').forEach((el) => el.remove());
  emit('chosen');
}

function bring(id) {
  const li = rows.get(id);
  li.scrollIntoView({ block: 'nearest' });
  // Rows out of view have a guessed height; once drawn, the place may be a little off.
  requestAnimationFrame(() => li.isConnected && li.scrollIntoView({ block: 'nearest' }));
}

/** The ids as they stand on the page, without what is filtered or folded away. */
export function visibleIds() {
  const out = [];
  for (const box of root.children) {
    if (box.hidden || (box.tagName === 'DETAILS' && !box.open)) continue;
    for (const li of box.querySelector('ul').children) if (!li.hidden) out.push(li.dataset.line);
  }
  return out;
}

export function step(by) {
  const ids = visibleIds(), i = ids.indexOf(state.chosen);
  const to = ids[i < 0 ? 0 : Math.max(0, Math.min(ids.length - 1, i + by))];
  if (to) choose(to);
}

/** The next that needs a look, after the chosen one, or from the top. @param {string[]} [ids] the order before an act moved rows */
export function nextOpen(ids = visibleIds(), from = state.chosen) {
  const i = ids.indexOf(from);
  for (let k = 1; k <= ids.length; k++) {
    const id = ids[(i + k + ids.length) % ids.length];
    if (id !== from && state.lines.get(id)?.state === 'open' && rows.get(id)?.hidden === false) return id;
  }
  return null;
}

export function goNext() {
  const id = nextOpen() || (state.lines.get(state.chosen)?.state === 'open' ? state.chosen : null);
  if (id) choose(id); else tell(state.filter.place || state.filter.text ? 'Nothing is left to settle in what is shown.' : 'Nothing is left to settle.');
}

export function toggleMark(id) {
  if (!id || state.lines.get(id)?.state === 'dropped') return;
  if (state.marks.has(id)) state.marks.delete(id); else state.marks.add(id);
  showMarks([id]);
}
export function clearMarks() { const ids = [...state.marks]; state.marks.clear(); showMarks(ids); }
function showMarks(ids) {
  for (const id of ids) {
    const li = rows.get(id);
    if (!li) continue;
    li.classList.toggle('marked', state.marks.has(id));
    const box = li.querySelector('.mark');
    if (box) box.checked = state.marks.has(id);
  }
  if (state.chosen) extras(state.chosen);
  emit('marks');
}
