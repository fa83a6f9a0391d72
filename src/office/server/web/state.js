// What the page knows. Only answers of the server change it: a change shows once the server has taken it.
import { clock } from './dom.js';

/**
 * @typedef {{item:string,quantity:string,unit:string,amount:string|null,work:string,
 *   side:string,place:string,size:string|null}} Shown
 * @typedef {{structure:string,side:string,area:string,item:string|null,said:string,work:string|null,
 *   quantity:number|null,low:number|null,high:number|null,unit:string,rough:boolean,size:string|null,
 *   detail:string|null,only_if:boolean,confidence:number,flags:string[],quote:string,start:number|null,
 *   end:number|null,why:{field:string,rule:string,words:string}[]}} Draft
 * @typedef {{label:string,hint:string,command:any}} Choice
 * @typedef {{id:string,version:number,state:'flagged'|'unflagged'|'reviewed'|'dropped',reason:string|null,
 *   by:string|null,line:Draft,words:[number,number]|null,shown:Shown,drafted:Shown|null,reasons:string[],
 *   choices:Choice[]}} Line
 * @typedef {{id:string,version:number,kind:'photo'|'measure'|'check',structure:string,side:string,
 *   item:string|null,place:string,quote:string,start:number|null,end:number|null,words:[number,number]|null,
 *   lines:string[],done:null|{who:string,at:string,note:string}}} FollowUp
 * @typedef {{id:string,kind:string,structure:string,side:string,place:string,asks:string,rule:string,
 *   source:string,lines:string[],answers:Choice[],missing:{item:string,name:string,answers:Choice[]}[]}} Question
 * @typedef {[string,number|null,number|null,number|null]} Word
 */

export const state = {
  who: localStorage.getItem('eavesdraft.who') || '',
  /** @type {string|null} */ id: null,
  /** @type {any} the recording as the server gave it, without its lines */ rec: null,
  /** @type {Map<string, Line>} in the draft's order */ lines: new Map(),
  /** @type {Word[]} */ words: [],
  /** @type {number[]} */ utterances: [],
  /** @type {{items:any[],works:[string,string][],units:[string,string][],sides:string[]}} */
  catalogue: { items: [], works: [], units: [], sides: [] },
  /** @type {string|null} */ chosen: null,
  /** @type {Set<string>} */ marks: new Set(),
  filter: { /** @type {string|null} */ place: null, text: '' },
  order: localStorage.getItem('eavesdraft.order') === 'place' ? 'place' : 'review',
  offline: false,
  many: false,
};

const bus = new EventTarget();
export const emit = (name, detail) => bus.dispatchEvent(new CustomEvent(name, { detail }));
export const on = (name, fn) => bus.addEventListener(name, (e) => fn(e.detail));

/** The clip that a moment falls in, counted from 0; -1 where the visit is one recording. */
const clipOf = (sec) =>
  sec == null || (state.rec?.clips ?? []).length < 2
    ? -1
    : (state.rec?.clips ?? []).findLastIndex((c) => c.start <= sec);

/** A moment as it is shown; of several clips within its own: "#2 1:13". */
export function shownTime(sec) {
  const n = clipOf(sec);
  return n < 0 ? clock(sec) : `#${n + 1} ${clock(sec - state.rec.clips[n].start)}`;
}

/** The same to be read out: "clip 2, 1:13". */
export const toldTime = (sec) => shownTime(sec).replace(/^#(\d+) /, 'clip $1, ');

/** Where a line belongs on the plan. */
export function placeOf(l) {
  if (l.structure && l.structure !== 'house') return 'structure:' + l.structure;
  if (l.area === 'roof' || l.area === 'grounds') return l.area;
  return l.side || 'none';
}

export function placeName(place) {
  if (place.startsWith('structure:')) return place.slice(10);
  return place === 'none' ? 'side not said' : place;
}

export const lineList = () => [...state.lines.values()];
export const countOf = (...states) => lineList().filter((l) => states.includes(l.state)).length;
export const flaggedCount = () => countOf('flagged');
export const itemName = (id) => state.catalogue.items.find((i) => i.id === id)?.name ?? id;

/** Takes a whole recording; returns the ids of the lines that are new, changed or gone. */
export function takeRecording(data) {
  const { lines, ...rec } = data;
  const before = state.lines,
    touched = [];
  state.rec = rec;
  state.lines = new Map();
  for (const l of lines) {
    state.lines.set(l.id, l);
    const old = before.get(l.id);
    // The choices and reasons may change without the line's version (other lines count in them).
    if (!old || old.version !== l.version || JSON.stringify(old) !== JSON.stringify(l)) touched.push(l.id);
  }
  for (const id of before.keys())
    if (!state.lines.has(id)) {
      touched.push(id);
      state.marks.delete(id);
    }
  return touched;
}

/** Takes the answer to a command; returns the ids it touched. */
export function takeAnswer(a) {
  const touched = [];
  for (const l of a.lines || []) {
    putLine(l);
    touched.push(l.id);
  }
  for (const id of a.gone || []) {
    state.lines.delete(id);
    state.marks.delete(id);
    touched.push(id);
  }
  for (const one of a.follow_ups || []) {
    const all = state.rec.follow_ups,
      i = all.findIndex((x) => x.id === one.id);
    if (i < 0) all.push(one);
    else all[i] = one;
  }
  const { questions, signed_off, undo, redo } = a;
  Object.assign(state.rec, { version: a.event, questions, signed_off, undo, redo });
  return touched;
}

export function putLine(l) {
  if (state.lines.has(l.id) || !l.words) {
    state.lines.set(l.id, l);
    return;
  }
  // A new line goes where its words were said; lines without words stand last.
  const all = lineList(),
    at = all.findIndex((x) => !x.words || x.words[0] > l.words[0]);
  if (at < 0) state.lines.set(l.id, l);
  else {
    all.splice(at, 0, l);
    state.lines = new Map(all.map((x) => [x.id, x]));
  }
}

/** The words of a quote that came without word numbers. @returns {[number,number]|null} */
export function wordsBetween(start, end) {
  if (start == null || end == null) return null;
  let first = -1,
    last = -1;
  state.words.forEach((w, i) => {
    if (w[1] == null || w[1] < start - 0.05 || w[1] >= end) return;
    if (first < 0) first = i;
    last = i;
  });
  return first < 0 ? null : [first, last];
}

export const wordText = (w) =>
  w
    ? state.words
        .slice(w[0], Math.min(w[1] + 1, w[0] + 80))
        .map((x) => x[0])
        .join(' ')
    : '';
