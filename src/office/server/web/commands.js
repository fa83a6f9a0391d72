// Commands: sent one after the other, shown when the server has taken them, asked about when somebody was quicker.
import { tell } from './dom.js';
import { state, on, emit, takeAnswer } from './state.js';
import { post, recPath, Refused, Gone } from './api.js';
import { refreshLines, visibleIds } from './list.js';
import { choose, nextIn, clearMarks } from './selection.js';
import { askName } from './dialogs.js';
import { askAboutConflict } from './conflict.js';
import { done, left } from './summaries.js';
import { offerWords } from './teach.js';

/** @type {Promise<any>} */ let last = Promise.resolve();
let waiting = 0;
export const sending = () => waiting > 0;

/**
 * @param {any} command posted as it is
 * @param {{seen?:Record<string,number>, stay?:boolean}} [how] `stay`: the next line is not chosen by itself
 * @returns {Promise<{ok:boolean,error?:string,field?:string,lines?:any[]}>}
 */
export function send(command, how = {}) {
  // A second press of a key while the first is on its way would change a line that is about to leave.
  if (waiting) return Promise.resolve({ ok: false });
  waiting++;
  last = last
    .then(() => take(command, how))
    .finally(() => {
      waiting--;
      emit('sent');
    });
  return last;
}
on('send', (command) => send(command));

const SIGNED_OFF = 'This scope is signed off. Reopen it to make changes.';

/** Why nothing can be changed just now, which is then said. */
export function locked() {
  if (state.offline) tell('Connection lost. Changes are not being saved.', 'bad');
  else if (state.rec?.signed_off) tell(SIGNED_OFF, 'bad');
  else return false;
  return true;
}

async function take(command, how) {
  if (state.offline) return fail('Connection lost. This was not saved.');
  if (!state.who && !(await askName())) return fail('This was not saved: changes need a name.');
  if (state.rec.signed_off && !['reopen', 'undo', 'redo'].includes(command.do)) return fail(SIGNED_OFF);
  const ids = command.lines || (command.line ? [command.line] : []);
  const before = new Map(ids.map((id) => [id, state.lines.get(id)]));
  const order = visibleIds(),
    recording = state.id;
  let answer;
  try {
    answer = await post(recPath(recording, '/events'), { who: state.who, seen: seen(command, ids, how), command });
  } catch (e) {
    return refused(e, command, how, before);
  }
  if (recording !== state.id) return { ok: true };
  const touched = takeAnswer(answer);
  refreshLines(touched, true);
  emit('changed', touched);
  tell(`${done(command, answer, before)} ${left()}`);
  if (['merge', 'move'].includes(command.do) || ids.length > 1) clearMarks();
  offerWords(command, before, answer);
  if (!how.stay) goOn(command, answer, before, order);
  return { ok: true, lines: answer.lines };
}

/** The versions that the reviewer sees of what the command is about. */
function seen(command, ids, how) {
  const all = Object.fromEntries(ids.map((id) => [id, state.lines.get(id)?.version ?? 0]));
  const one = command.follow_up && state.rec.follow_ups.find((x) => x.id === command.follow_up);
  if (command.follow_up) all[command.follow_up] = one?.version ?? 0;
  return { ...all, ...how.seen };
}

async function refused(e, command, how, before) {
  if (e instanceof Gone) return fail('Connection lost. The page will check whether this was saved once it is back.');
  if (!(e instanceof Refused)) throw e;
  if (e.status === 409 && ['undo', 'redo', 'set-dimension'].includes(command.do)) {
    emit('reload');
    return fail(e.message);
  }
  if (e.status === 409) {
    const { again, error } = await askAboutConflict(command, e.data, before);
    if (error) return fail(error);
    return again ? take(command, { ...how, seen: { ...how.seen, ...again } }) : { ok: false, theirs: true, error: '' };
  }
  if (e.status === 423 || e.status === 404) emit('reload');
  return fail(e.message, e.data.field);
}

function fail(error, field) {
  tell(error, 'bad');
  return { ok: false, error, field };
}

const STAYS = ['set-dimension', 'enter-measurement', 'done', 'not-done'];

/** Where the eye goes next: to the next line to review after one was reviewed, else it stays at the line. */
function goOn(command, answer, before, order) {
  if (['undo', 'redo'].includes(command.do)) {
    const id = (answer.lines || []).find((l) => state.lines.has(l.id))?.id;
    if (id) choose(id);
    return;
  }
  if (command.do === 'add') {
    if (answer.lines?.[0]) choose(answer.lines[0].id);
    return;
  }
  const from = command.line || command.lines?.[0];
  if (!from || STAYS.includes(command.do)) return;
  const was = before.get(from)?.state,
    now = state.lines.get(from)?.state;
  const read = was === 'unflagged' && command.do === 'accept';
  if (was !== now && (was === 'flagged' || read)) {
    if (choseOther(command, from)) return;
    const id = nextIn(was, order, from);
    if (id) return choose(id);
  }
  if (now && now !== 'dropped') return choose(from);
  const after = order.slice(order.indexOf(from) + 1);
  choose(after.find((id) => state.lines.get(id)?.state !== 'dropped') || null);
}

/** A line reviewed by the way, from another row, leaves the chosen line alone. */
function choseOther(command, from) {
  const { chosen } = state;
  return chosen && chosen !== from && state.lines.has(chosen) && !command.lines?.includes(chosen);
}
