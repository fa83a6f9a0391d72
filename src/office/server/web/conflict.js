// Somebody else was quicker: both values are shown, and the reviewer says which one counts.
import { h, clip, cap, tell } from './dom.js';
import { state, emit, takeRecording, putLine, itemName } from './state.js';
import { getRecording } from './api.js';
import { refreshLines } from './list.js';
import { dialog } from './dialogs.js';
import { sayLine } from './words.js';
import { wanted } from './summaries.js';

/**
 * Asks which one counts.
 * @returns {Promise<{again?:Record<string,number>, error?:string}>} `again`: what was seen now, to send it once more
 */
export async function askAboutConflict(command, data, before) {
  let theirs;
  try {
    theirs = await newest(data);
  } catch (e) {
    return { error: e.message };
  }
  const item = theirs?.shown?.item || (theirs?.item && itemName(theirs.item)) || 'This line';
  const name = cap(clip(item, 60)),
    by = clip(theirs?.by || theirs?.done?.who || 'somebody', 40);
  tell(
    `${by === 'somebody' ? 'Somebody' : by} changed ${clip(item, 60)} in the meantime. Choose which one to keep.`,
    'bad',
  );
  const choice = await dialog({
    title: `${name} was changed in the meantime`,
    alert: true,
    data: { 'data-conflict': data.line || true },
    body: [
      h(
        'dl',
        { class: 'versus' },
        h('dt', {}, 'You:'),
        h('dd', { 'data-mine': true }, wanted(command, data.mine, before)),
        h('dt', {}, 'Now:'),
        h('dd', { 'data-theirs': true }, `${asItIs(theirs)} by ${by}`),
      ),
    ],
    buttons: [
      ['Keep theirs', 'keep-theirs', 'theirs'],
      ['Use mine', 'apply-mine', 'mine'],
    ],
  });
  if (choice !== 'mine') {
    tell(`Kept as ${by} has it.`);
    return {};
  }
  return { again: theirs?.version != null && data.line ? { [data.line]: theirs.version } : {} };
}

/** The line or follow-up as it is now, which the page then shows too. */
async function newest(data) {
  if (data.theirs?.line) {
    putLine(data.theirs);
    refreshLines([data.theirs.id]);
    return data.theirs;
  }
  refreshLines(takeRecording(await getRecording(state.id)));
  emit('changed');
  return state.rec.follow_ups.find((one) => one.id === data.line);
}

function asItIs(theirs) {
  if (!theirs) return 'gone';
  if (!theirs.line) return theirs.done ? clip(theirs.done.note || 'done', 60) : 'not done';
  if (theirs.state !== 'dropped') return sayLine(theirs);
  return theirs.reason ? `dropped (${clip(theirs.reason, 60)})` : 'dropped';
}
