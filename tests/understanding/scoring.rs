//! How well a draft agrees with what a careful person wrote from the same words.
//!
//! A line is right when structure, side, item, work, quantity and unit all agree; a label's field may list
//! several values, any of which will do. Labels and lines are paired so that their summed agreement is greatest.

use super::assignment::assign;
use serde_json::Value;

/// The fields that make a line right.
const FIELDS: [&str; 6] = ["structure", "side", "item", "work", "quantity", "unit"];

/// A list beside the lines.
pub struct Beside {
    pub key: &'static str,
    /// The fields that must agree.
    fields: &'static [&'static str],
    counts: fn(&mut Score) -> &mut Counts,
}

pub const BESIDE: [Beside; 3] = [
    Beside { key: "no_work", fields: &["structure", "side", "item"], counts: |s| &mut s.no_work },
    Beside { key: "follow_ups", fields: &["kind", "side", "item"], counts: |s| &mut s.follow_ups },
    Beside {
        key: "dimensions",
        fields: &["structure", "side", "shape", "width_ft", "height_ft"],
        counts: |s| &mut s.dimensions,
    },
];

/// How much each field counts when labels and lines are paired; the item must agree for any pair.
const WEIGHTS: [(&str, f64); 5] =
    [("structure", 0.3), ("side", 0.7), ("work", 0.6), ("quantity", 0.8), ("unit", 0.3)];

/// Counts of what was right, what was drafted wrongly or too much, and what was missed.
#[derive(Debug, Default, Clone, Copy)]
pub struct Counts {
    pub right: usize,
    pub extra: usize,
    pub missed: usize,
}

impl Counts {
    /// The harmonic mean of precision and recall; one where there is nothing to find and nothing was found.
    pub fn f1(self) -> f64 {
        let of = |part: usize, whole: usize| if whole == 0 { 1.0 } else { part as f64 / whole as f64 };
        let (precision, recall) =
            (of(self.right, self.right + self.extra), of(self.right, self.right + self.missed));
        if precision + recall == 0.0 { 0.0 } else { 2.0 * precision * recall / (precision + recall) }
    }
}

/// The score of any number of drafts.
#[derive(Debug, Default)]
pub struct Score {
    pub lines: Counts,
    pub sizes: Counts,
    pub only_if: Counts,
    pub no_work: Counts,
    pub follow_ups: Counts,
    pub dimensions: Counts,
    /// Lines that ask for no look, and those of them that are wrong.
    pub quiet: (usize, usize),
    /// Right lines that needn't be looked at, and those of them that ask for a look.
    pub plain: (usize, usize),
    /// Lines that must be looked at, and those of them that say so.
    pub doubtful: (usize, usize),
    /// The confidence of every line, and whether it is right.
    pub confidence: Vec<(f64, bool)>,
    /// What went wrong, for a person.
    pub misses: Vec<String>,
}

impl Score {
    /// The share of lines that ask for no look and are wrong.
    pub fn silent_error_rate(&self) -> f64 {
        share(self.quiet)
    }

    /// The share of right lines that ask for a look all the same.
    pub fn look_rate(&self) -> f64 {
        share(self.plain)
    }

    /// The share of doubtful lines that ask for a look.
    pub fn look_recall(&self) -> f64 {
        share(self.doubtful)
    }

    /// Adds a draft and its label.
    pub fn add(&mut self, name: &str, label: &Value, draft: &Value) {
        let (labels, drafted) = (list(label, "lines"), list(draft, "lines"));
        let pairs = pair_lines(labels, drafted);
        let mut right = vec![false; drafted.len()];
        for &(l, d) in &pairs {
            right[d] = is_right(&labels[l], &drafted[d]);
            self.add_line(name, &labels[l], &drafted[d], right[d]);
        }
        self.add_unpaired(name, labels, drafted, &pairs);
        let sure = drafted.iter().map(|line| line["confidence"].as_f64().unwrap_or_default());
        self.confidence.extend(sure.zip(right.iter().copied()));
        for (line, right) in drafted.iter().zip(&right).filter(|(line, _)| !needs_look(line)) {
            self.quiet.0 += 1;
            self.quiet.1 += usize::from(!right);
            if !right {
                self.misses.push(format!("{name}: silent error: {}", line["quote"]));
            }
        }
        for beside in BESIDE {
            self.add_beside(list(label, beside.key), list(draft, beside.key), &beside);
        }
    }

    fn add_line(&mut self, name: &str, label: &Value, line: &Value, right: bool) {
        if right {
            self.lines.right += 1;
        } else {
            self.lines.extra += 1;
            self.lines.missed += usize::from(!optional(label));
            self.misses.push(format!("{name}: wrong: {} drafted as {}", label["quote"], line["quote"]));
        }
        self.add_size(label, line);
        let (wanted, got) = (label["only_if"] == true, line["only_if"] == true);
        self.only_if.right += usize::from(wanted && got);
        self.only_if.extra += usize::from(got && !wanted);
        self.only_if.missed += usize::from(wanted && !got);
        if label["look"] == true {
            self.doubtful.0 += 1;
            self.doubtful.1 += usize::from(needs_look(line));
        } else if right {
            self.plain.0 += 1;
            self.plain.1 += usize::from(needs_look(line));
        }
    }

    fn add_size(&mut self, label: &Value, line: &Value) {
        let none_will_do = allowed(&label["size"]).contains(&&Value::Null);
        let asked = allowed(&label["size"]).iter().any(|w| !w.is_null());
        if !asked && line["size"].is_null() {
            return;
        }
        if same(label, line, "size") {
            self.sizes.right += 1;
        } else {
            self.sizes.extra += usize::from(!line["size"].is_null());
            self.sizes.missed += usize::from(!none_will_do);
        }
    }

    fn add_unpaired(&mut self, name: &str, labels: &[Value], drafted: &[Value], pairs: &[(usize, usize)]) {
        for (n, label) in labels.iter().enumerate() {
            if !optional(label) && !pairs.iter().any(|p| p.0 == n) {
                self.lines.missed += 1;
                self.doubtful.0 += usize::from(label["look"] == true);
                self.misses.push(format!("{name}: missed: {}", label["quote"]));
            }
        }
        for (n, line) in drafted.iter().enumerate() {
            if !pairs.iter().any(|p| p.1 == n) {
                self.lines.extra += 1;
                self.misses.push(format!("{name}: too much: {}", line["quote"]));
            }
        }
    }

    fn add_beside(&mut self, labels: &[Value], drafted: &[Value], beside: &Beside) {
        let pairs = beside.pair(labels, drafted);
        let missed = labels
            .iter()
            .enumerate()
            .filter(|(n, l)| !optional(l) && !pairs.iter().any(|p| p.0 == *n))
            .count();
        let counts = (beside.counts)(self);
        counts.right += pairs.len();
        counts.extra += drafted.len() - pairs.len();
        counts.missed += missed;
    }
}

impl Beside {
    /// Labels and entries of which all fields agree.
    pub fn pair(&self, labels: &[Value], drafted: &[Value]) -> Vec<(usize, usize)> {
        let agree = |l: &Value, d: &Value| f64::from(u8::from(self.fields.iter().all(|f| same(l, d, f))));
        pair(labels, drafted, &agree)
    }
}

/// Labels and lines that are about the same thing.
pub fn pair_lines(labels: &[Value], drafted: &[Value]) -> Vec<(usize, usize)> {
    pair(labels, drafted, &line_weight)
}

/// Whether all agrees that makes a line right.
pub fn is_right(label: &Value, line: &Value) -> bool {
    FIELDS.iter().all(|f| same(label, line, f))
}

fn share((whole, part): (usize, usize)) -> f64 {
    if whole == 0 { 0.0 } else { part as f64 / whole as f64 }
}

pub fn list<'a>(of: &'a Value, key: &str) -> &'a [Value] {
    of[key].as_array().map_or(&[], Vec::as_slice)
}

pub fn optional(label: &Value) -> bool {
    label["optional"] == true
}

pub fn needs_look(line: &Value) -> bool {
    list(line, "flags").iter().any(|f| f != "rough-number")
}

/// The values a label accepts.
fn allowed(value: &Value) -> Vec<&Value> {
    value.as_array().map_or_else(|| vec![value], |list| list.iter().collect())
}

/// Whether a field agrees; numbers to one per cent.
pub fn same(label: &Value, draft: &Value, field: &str) -> bool {
    let default = match field {
        "structure" => Value::from("house"),
        "side" => Value::from("none"),
        _ => Value::Null,
    };
    let got = draft.get(field).unwrap_or(&default);
    let wanted = label.get(field).unwrap_or(&default);
    allowed(wanted).into_iter().any(|want| match (want.as_f64(), got.as_f64()) {
        (Some(want), Some(got)) => (want - got).abs() <= 0.01 * want.abs().max(1e-9),
        _ => want == got,
    })
}

fn line_weight(label: &Value, line: &Value) -> f64 {
    if !same(label, line, "item") {
        return 0.0;
    }
    let fields: f64 = WEIGHTS.iter().filter(|(f, _)| same(label, line, f)).map(|(_, w)| w).sum();
    let words = |v: &Value| -> std::collections::BTreeSet<String> {
        v["quote"].as_str().unwrap_or_default().to_lowercase().split_whitespace().map(str::to_owned).collect()
    };
    let (a, b) = (words(label), words(line));
    let alike = a.intersection(&b).count() as f64 / a.union(&b).count().max(1) as f64;
    1.0 + fields + 0.4 * alike + if optional(label) { 0.0 } else { 0.001 }
}

/// Pairs labels with drafts so that the summed weight is greatest; pairs without any weight fall away.
fn pair(labels: &[Value], drafted: &[Value], weight: &dyn Fn(&Value, &Value) -> f64) -> Vec<(usize, usize)> {
    let size = labels.len().max(drafted.len());
    if labels.is_empty() || drafted.is_empty() {
        return Vec::new();
    }
    let scaled = |l: usize, d: usize| match (labels.get(l), drafted.get(d)) {
        (Some(label), Some(line)) => (weight(label, line) * 1e6) as i64,
        _ => 0,
    };
    assign(size, scaled).into_iter().enumerate().filter(|&(l, d)| scaled(l, d) > 0).collect()
}
