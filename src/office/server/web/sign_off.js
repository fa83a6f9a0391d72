// Signing a scope off, opening it again, and undoing what was done.
import { h, count, tell } from './dom.js';
import { state, flaggedCount } from './state.js';
import { send, locked } from './commands.js';
import { dialog } from './dialogs.js';

export async function signOff() {
  const needed = state.rec.follow_ups.filter((one) => !one.done).length,
    asked = state.rec.questions.length;
  const flagged = flaggedCount();
  if (state.offline) return locked();
  if (flagged) return tell(`${count(flagged, 'line')} still ${flagged === 1 ? 'needs' : 'need'} review.`, 'bad');
  if (needed || asked) {
    const yes = await dialog({
      title: 'Sign off as it is?',
      body: [
        needed > 0
          && h(
            'p',
            {},
            `${count(needed, 'photo, measurement or check', 'photos, measurements or checks')} `
              + 'still needed: they stay listed.',
          ),
        asked > 0 && h('p', {}, `${count(asked, 'question')} about the house still open: they stay listed.`),
        h('p', {}, 'You can reopen it later.'),
      ],
      buttons: [['Sign off', 'sign-off-anyway', 'yes']],
    });
    if (yes !== 'yes') return;
  }
  return send({ do: 'sign-off' }, { stay: true });
}
export const reopen = () => send({ do: 'reopen' }, { stay: true });
export const undo = () => (state.rec?.undo ? send({ do: 'undo' }) : tell('Nothing to undo.'));
export const redo = () => (state.rec?.redo ? send({ do: 'redo' }) : tell('Nothing to redo.'));
