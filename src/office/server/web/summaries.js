// What was done, in a sentence, for the foot of the page and for the box that asks about a conflict.
import { clip, count } from './dom.js';
import { state, flaggedCount, placeName } from './state.js';
import { sayLine } from './words.js';

export const left = () => {
  const n = flaggedCount();
  return n ? `${n} to review.` : 'Nothing left to review.';
};

/**
 * What a command did.
 * @param {any} command @param {any} answer the server's @param {Map<string,any>} before the lines it was about
 */
export function done(command, answer, before) {
  const id = command.line || command.lines?.[0];
  const l = state.lines.get(id) || before.get(id) || answer.lines?.[0];
  const one = l ? clip(l.shown.item, 60) : 'line';
  const name = command.lines?.length > 1 ? count(command.lines.length, 'line') : one;
  const what = () => clip(answer.undo || 'done', 160);
  switch (command.do) {
    case 'accept':
      return `${before.get(id)?.state === 'dropped' ? 'Put back' : 'Reviewed'}: ${name}.`;
    case 'change':
    case 'read-as':
      return `Saved: ${sayLine(l)}.`;
    case 'drop':
      return `Dropped: ${name}.`;
    case 'split':
      return `Split into ${command.parts.length}: ${name}.`;
    case 'merge':
      return `Merged: ${name}.`;
    case 'add':
      return `Added: ${sayLine(answer.lines[0])}.`;
    case 'move':
      return `Moved to ${placeName(command.side)}: ${name}.`;
    case 'include':
      return `Included: ${name}.`;
    case 'leave-out':
      return `Left out: ${name}.`;
    case 'enter-measurement':
      return `Saved: ${clip(command.measurement, 30)}.`;
    case 'done':
      return 'Marked as done.';
    case 'not-done':
      return 'Marked as not done.';
    case 'set-dimension':
    case 'answer':
      return `Saved: ${what()}.`;
    case 'sign-off':
      return 'Signed off.';
    case 'reopen':
      return 'Reopened.';
    case 'undo':
      return 'Undone.';
    case 'redo':
      return 'Redone.';
    default:
      return 'Saved.';
  }
}

const VERBS = {
  accept: 'accepted as',
  drop: 'dropped',
  merge: 'merged',
  split: 'split',
  include: 'included:',
  'leave-out': 'left out:',
  answer: 'your answer',
};

/** What a command that was not taken would have done. */
export function wanted(command, mine, before) {
  if (mine?.shown) return sayLine(mine);
  const was = before.get(command.line || command.lines?.[0]);
  const typed = command.measurement ? { quantity: command.measurement } : command.fields || {};
  if (Object.keys(typed).length)
    return Object.values(typed)
      .map((v) => clip(v, 60))
      .join(', ');
  const verb = command.do === 'move' ? `moved to ${command.side}:` : VERBS[command.do] || command.do;
  return was ? `${verb} ${sayLine(was)}` : verb;
}
