// Adding a line: from words of the transcript, from something that wasn't used, or from nothing.
import { h, clip } from './dom.js';
import { state, wordsBetween, wordText } from './state.js';
import { send, locked } from './commands.js';
import { LineFields } from './fields.js';
import { formDialog } from './dialogs.js';

/**
 * @param {[number,number]|null} words
 * @param {{quote?:string,item?:string,side?:string,structure?:string,start?:number|null,end?:number|null}} [from]
 */
export function addDialog(words, from = {}) {
  if (locked()) return;
  const w = words || wordsBetween(from.start ?? null, from.end ?? null);
  const fields = new LineFields(values(w, from)),
    quote = from.quote || wordText(w);
  const about = quote
    ? h('q', { class: 'quote block' }, clip(quote, 300))
    : h('p', { class: 'soft' }, 'Not from the recording: this line is added in your name.');
  return formDialog({
    title: 'Add a line',
    wide: true,
    go: 'Add line',
    name: 'add-save',
    body: [about, fields.el],
    run: async () => {
      const r = await send({ do: 'add', words: w, fields: typed(fields) });
      return !r.ok && r.error && fields.fail(r) ? { ok: false } : r;
    },
  });
}

/** What the form opens with: the place of the line before. */
function values(w, from) {
  const near = w && [...state.lines.values()].filter((l) => l.words && l.words[0] <= w[0]).pop();
  const side = from.side || near?.line.side || 'none',
    structure = from.structure || near?.line.structure || 'house';
  return { item: from.item || '', side, structure, unit: 'each', quantity: '', work: '' };
}

function typed(fields) {
  const said = Object.entries(fields.inputs).filter(
    ([f, input]) => input.value.trim() && (f !== 'unit' || fields.unitTouched),
  );
  return Object.fromEntries(said.map(([f, input]) => [f, input.value]));
}
