// Acts: sent one after the other, shown when the server took them, asked about when somebody was quicker.
import { h, button, clip, cap, count, tell } from './dom.js';
import { state, emit, takeAct, takeRecording, putLine, openCount, lineList, placeName, itemName } from './state.js';
import { post, get, recPath, Refused, Gone } from './api.js';
import { choose, nextOpen, visibleIds, refreshLines, sayLine, clearMarks } from './lines.js';
import { dialog, closeDialog, formDialog, askName } from './dialogs.js';
import { offerWords } from './teach.js';

/** @type {Promise<any>} */ let last = Promise.resolve();
let waiting = 0;
export const acting = () => waiting > 0;

/**
 * @param {any} deed posted as it is
 * @param {{seen?:Record<string,number>, stay?:boolean, quiet?:boolean}} [how] `stay`: the next look is not chosen by itself
 * @returns {Promise<{ok:boolean,error?:string,field?:string,lines?:any[]}>}
 */
export function act(deed, how = {}) {
  // A second press of a key while the first is on its way would act on a line that is about to leave.
  if (waiting) return Promise.resolve({ ok: false });
  waiting++;
  last = last.then(() => send(deed, how)).finally(() => { waiting--; emit('act-over'); });
  return last;
}

async function send(deed, how) {
  if (state.offline) return fail('Not connected: nothing was kept.');
  if (!state.who && !(await askName())) return fail('Nothing was kept: the acts need a name.');
  if (state.rec.settled && !['reopen', 'undo', 'redo'].includes(deed.do)) return fail('The scope is settled. Reopen it to change a line.');
  const ids = deed.lines || (deed.line ? [deed.line] : []);
  const seen = {};
  for (const id of ids) seen[id] = state.lines.get(id)?.version ?? 0;
  if (deed.todo) seen[deed.todo] = state.rec.todos.find((t) => t.id === deed.todo)?.version ?? 0;
  Object.assign(seen, how.seen);
  const before = new Map(ids.map((id) => [id, state.lines.get(id)]));
  const order = visibleIds(), recording = state.id;
  let answer;
  try {
    answer = await post(recPath(recording, '/acts'), { who: state.who, seen, deed });
  } catch (e) {
    if (e instanceof Gone) return fail('Not connected: it is not known whether this was kept. The page looks again once the program is back.');
    if (!(e instanceof Refused)) throw e;
    if (e.status === 409 && ['undo', 'redo', 'measure'].includes(deed.do)) { emit('reload'); return fail(e.message); }
    if (e.status === 409) return conflict(deed, how, e.data, before);
    if (e.status === 423 || e.status === 404) emit('reload');
    return fail(e.message, e.data.field);
  }
  if (recording !== state.id) return { ok: true };
  const touched = takeAct(answer);
  refreshLines(touched, true);
  emit('acted', touched);
  tell(`${told(deed, answer, before)} ${left()}`);
  if (['merge', 'move'].includes(deed.do) || ids.length > 1) clearMarks();
  offerWords(deed, before, answer);
  follow(deed, how, answer, before, order);
  return { ok: true, lines: answer.lines };
}

/** Where the eye goes next: to the next look after a look was settled, else it stays at the line. */
function follow(deed, how, answer, before, order) {
  if (how.stay) return;
  if (['undo', 'redo'].includes(deed.do)) {
    const id = (answer.lines || []).find((l) => state.lines.has(l.id))?.id;
    if (id) choose(id);
    return;
  }
  const from = deed.line || deed.lines?.[0];
  const wasOpen = from && before.get(from)?.state === 'open';
  if (deed.do === 'add') { const n = answer.lines?.[0]; if (n) choose(n.id); return; }
  if (deed.do === 'measure' || deed.do === 'tape' || deed.do === 'done' || deed.do === 'not-done') return;
  if (wasOpen && state.lines.get(from)?.state !== 'open') {
    // A look settled by the way, from another row, leaves the chosen line alone.
    if (state.chosen && state.chosen !== from && state.lines.has(state.chosen) && !deed.lines?.includes(state.chosen)) return;
    const id = nextOpen(order, from);
    if (id) return choose(id);
  }
  if (from && state.lines.has(from) && state.lines.get(from).state !== 'dropped') choose(from);
  else if (from) { const i = order.indexOf(from), id = order.slice(i + 1).find((x) => state.lines.get(x)?.state !== 'dropped'); choose(id || null); }
}

function fail(error, field) { tell(error, 'bad'); return { ok: false, error, field }; }

const left = () => { const n = openCount(); return n ? `${n} left.` : 'Nothing is left to settle.'; };

function told(deed, answer, before) {
  const id = deed.line || deed.lines?.[0], l = state.lines.get(id) || before.get(id) || answer.lines?.[0];
  const name = deed.lines?.length > 1 ? count(deed.lines.length, 'line') : l ? cap(clip(l.shown.item, 60)) : 'Line';
  switch (deed.do) {
    case 'accept': return before.get(id)?.state === 'dropped' ? `${name} taken back in.` : `${name} accepted.`;
    case 'change': case 'read-as': return `${cap(sayLine(l))}: kept.`;
    case 'drop': return `${name} dropped.`;
    case 'split': return `${name} split in ${deed.parts.length}.`;
    case 'merge': return `${name} merged.`;
    case 'add': return `${cap(sayLine(answer.lines[0]))}: added.`;
    case 'move': return `${name} moved to ${placeName(deed.side)}.`;
    case 'confirm': return `${name} is wanted.`;
    case 'refuse': return `${name} is not wanted.`;
    case 'tape': return `Measure kept: ${clip(deed.measure, 30)}.`;
    case 'done': return 'Ticked off.';
    case 'not-done': return 'Back on the list.';
    case 'measure': return `${cap(clip(answer.undo || 'measured', 160))}.`;
    case 'answer': return `${cap(clip(answer.undo || 'answered', 160))}.`;
    case 'settle': return 'The scope is settled.';
    case 'reopen': return 'The scope is open again.';
    case 'undo': return 'Undone.';
    case 'redo': return 'Done again.';
    default: return 'Kept.';
  }
}

/** Words for a deed that was not taken, for the conflict box. */
function mineText(deed, mine, before) {
  if (mine?.shown) return sayLine(mine);
  const was = before.get(deed.line || deed.lines?.[0]), f = { ...(deed.fields || {}), ...(deed.measure ? { quantity: deed.measure } : {}) };
  if (Object.keys(f).length) return Object.values(f).map((v) => clip(v, 60)).join(', ');
  const verb = { accept: 'accepted as', drop: 'dropped', move: 'moved to ' + deed.side + ':', merge: 'merged', split: 'split', confirm: 'wanted:', refuse: 'not wanted:', answer: 'your answer' }[deed.do] || deed.do;
  return was ? `${verb} ${sayLine(was)}` : verb;
}

async function conflict(deed, how, data, before) {
  let theirs = data.theirs;
  if (theirs?.line) { putLine(theirs); refreshLines([theirs.id]); } else {
    try { refreshLines(takeRecording(await get(recPath(state.id) + '?who=' + encodeURIComponent(state.who)))); } catch (e) { return fail(e.message); }
    emit('acted');
    theirs = state.rec.todos.find((t) => t.id === data.line);
  }
  const name = clip(theirs?.shown?.item || (theirs?.item && itemName(theirs.item)) || 'This line', 60), by = clip(theirs?.by || theirs?.done?.who || 'somebody', 40);
  const now = theirs?.line ? (theirs.state === 'dropped' ? `dropped${theirs.reason ? ' (' + clip(theirs.reason, 60) + ')' : ''}` : sayLine(theirs)) : theirs?.done ? clip(theirs.done.note || 'done', 60) : theirs ? 'not done' : 'gone';
  tell(`${cap(name)} was changed meanwhile by ${by}. Choose which holds.`, 'bad');
  const choice = await dialog({
    title: `${cap(name)} was changed meanwhile`, alert: true, data: { 'data-conflict': data.line || true },
    body: [h('dl', { class: 'versus' },
      h('dt', {}, 'You:'), h('dd', { 'data-mine': true }, mineText(deed, data.mine, before)),
      h('dt', {}, 'Now:'), h('dd', { 'data-theirs': true }, `${now} by ${by}`))],
    buttons: [['Keep theirs', 'keep-theirs', 'theirs'], ['Apply mine again', 'apply-mine', 'mine']],
  });
  if (choice !== 'mine') { tell(`Kept as ${by} has it.`); return { ok: false, theirs: true, error: '' }; }
  const fresh = theirs?.version != null && data.line ? { [data.line]: theirs.version } : {};
  return send(deed, { ...how, seen: { ...(how.seen || {}), ...fresh } });
}

export function acceptLine(id) {
  if (!id) return;
  // What stands is not asked again, nor said again.
  if (state.lines.get(id)?.state === 'stands') { tell('This line stands already. n goes to the next to settle.'); return; }
  return act({ do: 'accept', lines: [id] });
}
export function acceptMarked() {
  const ids = [...state.marks].filter((id) => state.lines.get(id)?.state === 'open');
  if (ids.length) return act({ do: 'accept', lines: ids });
  tell('The marked lines stand already.');
}

const REASONS = ['not there', 'counted twice', 'not storm damage', 'covered by another line', 'only talk'];

export async function dropDialog(ids) {
  ids = ids.filter((id) => state.lines.get(id)?.state !== 'dropped');
  if (!ids.length || locked()) return;
  const own = h('input', { type: 'text', id: 'own-reason', class: 'grow', autocomplete: 'off', maxlength: '200' });
  const reason = await dialog({
    title: ids.length > 1 ? `Drop ${ids.length} lines: why?` : `Drop “${clip(state.lines.get(ids[0]).shown.item, 60)}”: why?`,
    digits: true,
    body: [h('div', { class: 'stack' }, REASONS.map((r, i) => button([h('kbd', { 'aria-hidden': 'true' }, String(i + 1)), cap(r)], 'reason', () => closeDialog(r), { class: 'wide', 'data-choice': String(i + 1) }))),
      h('label', { for: 'own-reason' }, 'In your own words'), own],
    buttons: [['Drop with these words', 'drop-own', () => own.value.trim() || false]],
  });
  if (reason) return act({ do: 'drop', lines: ids, reason });
}

const locked = () => {
  if (state.offline) tell('Not connected: nothing you do now is kept.', 'bad');
  else if (state.rec?.settled) tell('The scope is settled. Reopen it to change a line.', 'bad');
  else return false;
  return true;
};
export { locked };

const sideSelect = (value, attrs = {}) => h('select', attrs, state.catalogue.sides.map((x) => h('option', { value: x, '.selected': x === value }, x === 'none' ? 'not said' : x)));
export const structures = () => [...new Set(['house', ...lineList().map((l) => l.line.structure)])].slice(0, 40);

export async function moveDialog(ids) {
  ids = ids.filter((id) => state.lines.get(id)?.state !== 'dropped');
  if (!ids.length || locked()) return;
  const first = state.lines.get(ids[0]);
  const where = h('select', { id: 'move-structure', 'data-field': 'structure' }, structures().map((x) => h('option', { value: x, '.selected': x === first.line.structure }, clip(x, 40))));
  const side = await dialog({
    title: ids.length > 1 ? `Move ${ids.length} lines to` : `Move “${clip(first.shown.item, 60)}” to`, digits: true,
    body: [h('label', { for: 'move-structure' }, 'Building'), where,
      h('div', { class: 'stack' }, state.catalogue.sides.map((x, i) => button([h('kbd', { 'aria-hidden': 'true' }, String(i + 1)), cap(x === 'none' ? 'no side' : x)], 'side', () => closeDialog(x), { class: 'wide', 'data-choice': String(i + 1) })))],
  });
  if (side) return act({ do: 'move', lines: ids, side, structure: where.value });
}

export async function splitDialog(id) {
  const l = state.lines.get(id);
  if (!l || l.state === 'dropped' || locked()) return;
  const parts = h('div', { class: 'parts' });
  let n = 0;
  const addPart = (q) => {
    n++;
    parts.append(h('div', { class: 'part-row', role: 'group', 'aria-label': `Part ${n}` },
      h('label', { for: 'part-q' + n }, `Part ${n}`), h('input', { type: 'text', id: 'part-q' + n, 'data-field': 'quantity', '.value': q, autocomplete: 'off', size: '8' }),
      h('label', { for: 'part-s' + n, class: 'unit' }, clip(l.shown.unit, 20) + ' at'), sideSelect(l.line.side, { id: 'part-s' + n, 'data-field': 'side' })));
  };
  const q = l.line.quantity;
  const half = q != null && l.line.low === l.line.high ? Math.ceil(q / 2) : null;
  addPart(half != null ? String(half) : ''); addPart(half != null ? String(Math.round((q - half) * 100) / 100) : '');
  await formDialog({
    title: `Split “${clip(l.shown.item, 60)}” (${l.shown.amount || 'no number'})`,
    body: [parts, button('Add a part', 'add-part', () => addPart(''), {})], go: 'Split', act: 'split-save',
    run: () => act({ do: 'split', line: id, parts: [...parts.children].map((r) => ({ quantity: r.querySelector('input').value, side: r.querySelector('select').value })) }),
  });
}

export async function mergeDialog() {
  const ids = visibleIds().filter((id) => state.marks.has(id)).concat([...state.marks].filter((id) => !visibleIds().includes(id)));
  if (locked()) return;
  if (ids.length < 2) { tell('Mark two lines or more first (x), then merge them.'); return; }
  let stays = state.marks.has(state.chosen) ? state.chosen : ids[0];
  const pickOne = h('fieldset', {}, h('legend', {}, 'Which one stays?'), ids.map((id) => h('label', { class: 'radio' },
    h('input', { type: 'radio', name: 'stays', value: id, '.checked': id === stays, onchange: () => { stays = id; } }), h('span', {}, `${sayLine(state.lines.get(id))} (${clip(state.lines.get(id).shown.place, 40)})`))));
  await formDialog({ title: `Merge ${ids.length} lines into one`, body: [pickOne], go: 'Merge', act: 'merge-save', run: () => act({ do: 'merge', lines: [stays, ...ids.filter((x) => x !== stays)] }) });
}

export async function settleScope() {
  const n = openCount(), todo = state.rec.todos.filter((t) => !t.done).length, asked = state.rec.questions.length;
  if (state.offline) return locked();
  if (n) return tell(`${count(n, 'line')} still to settle.`, 'bad');
  if (todo || asked) {
    const yes = await dialog({
      title: 'Settle the scope as it is?',
      body: [todo > 0 && h('p', {}, count(todo, 'thing') + ' still to do: photos, tapes and checks stay listed.'),
        asked > 0 && h('p', {}, count(asked, 'question') + ' about the house left open: what nobody could answer stays listed.'),
        h('p', {}, 'It can be reopened later.')],
      buttons: [['Settle it', 'settle-anyway', 'yes']],
    });
    if (yes !== 'yes') return;
  }
  return act({ do: 'settle' }, { stay: true });
}
export const reopenScope = () => act({ do: 'reopen' }, { stay: true });
export const undo = () => (state.rec?.undo ? act({ do: 'undo' }) : tell('Nothing to undo.'));
export const redo = () => (state.rec?.redo ? act({ do: 'redo' }) : tell('Nothing to do again.'));

/** Asks how a typed quantity reads. @returns {Promise<{shown?:string,unit?:string|null,error?:string}>} */
export async function readQuantity(text, item) {
  try { return await post('/api/read', { text, item: item || null }); } catch (e) { return { error: e instanceof Gone ? 'Not connected' : e.message }; }
}
