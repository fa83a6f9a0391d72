//! Logistic regression held down by the squares of its weights (L2), for sparse features.
//!
//! Fitted by a truncated Newton method: each step is Newton's, solved by conjugate gradients as far as is worth while,
//! and halved until the loss falls enough (as in Lin, Weng and Keerthi, "Trust Region Newton Method for Large-Scale
//! Logistic Regression", 2008, with that search along the line in place of their region; from memory). Nothing is left
//! to chance: the same rows give the same weights.

/// What is to be judged.
#[derive(Debug, Clone)]
pub struct Row {
    /// Its features by number, and their values. Feature 0 is the base: its weight isn't held down.
    pub features: Vec<(u32, f32)>,
    /// Whether it is so.
    pub is: bool,
}

/// The loss is at its least where its slope has become so much smaller than at the start.
const FLAT: f64 = 1e-6;

const MOST_STEPS: usize = 100;

/// The weights, by feature, that make the rows likeliest. `penalty`: half of it times the sum of the squared weights is
/// added to the loss.
pub fn fit(rows: &[&Row], features: usize, penalty: f64) -> Vec<f64> {
    let problem = Problem { rows, penalty };
    let mut weights = vec![0.0; features];
    let mut here = problem.at(&weights);
    let flat = FLAT * dot(&here.slope, &here.slope).sqrt();
    for _ in 0..MOST_STEPS {
        if dot(&here.slope, &here.slope).sqrt() <= flat {
            break;
        }
        let step = problem.step(&here);
        let falls = dot(&here.slope, &step);
        let halvings = (0..40).map(|n| 0.5_f64.powi(n));
        let better = halvings.map(|part| (part, along(&weights, part, &step))).find_map(|(part, weights)| {
            let there = problem.at(&weights);
            (there.loss <= here.loss + 1e-4 * part * falls).then_some((weights, there))
        });
        let Some((moved, there)) = better else { break };
        (weights, here) = (moved, there);
    }
    weights
}

struct Problem<'a> {
    rows: &'a [&'a Row],
    penalty: f64,
}

/// The loss and what it is like around.
struct Point {
    loss: f64,
    slope: Vec<f64>,
    /// How much each row bends it.
    bend: Vec<f64>,
}

impl Problem<'_> {
    fn at(&self, weights: &[f64]) -> Point {
        let held = |n: usize| if n == 0 { 0.0 } else { self.penalty };
        let mut slope: Vec<f64> = weights.iter().enumerate().map(|(n, w)| held(n) * w).collect();
        let mut loss = dot(weights, &slope) / 2.0;
        let mut bend = Vec::with_capacity(self.rows.len());
        for row in self.rows {
            let odds = row.times(weights);
            let chance = 1.0 / (1.0 + (-odds).exp());
            let wrong = if row.is { -odds } else { odds };
            loss += wrong.max(0.0) + (-wrong.abs()).exp().ln_1p();
            row.add(chance - f64::from(u8::from(row.is)), &mut slope);
            bend.push(chance * (1.0 - chance));
        }
        Point { loss, slope, bend }
    }

    /// How the slope changes along a direction.
    fn bent(&self, along: &[f64], bend: &[f64]) -> Vec<f64> {
        let mut all: Vec<f64> = along.iter().map(|a| self.penalty * a).collect();
        all[0] = 0.0;
        for (row, bend) in self.rows.iter().zip(bend) {
            row.add(bend * row.times(along), &mut all);
        }
        all
    }

    /// Newton's step from a point, near enough.
    fn step(&self, point: &Point) -> Vec<f64> {
        let mut step = vec![0.0; point.slope.len()];
        let mut left: Vec<f64> = point.slope.iter().map(|s| -s).collect();
        let mut direction = left.clone();
        let mut size = dot(&left, &left);
        let enough = size * 0.01;
        for _ in 0..200 {
            let bent = self.bent(&direction, &point.bend);
            let curved = dot(&direction, &bent);
            if size <= enough || curved <= 0.0 {
                break;
            }
            let by = size / curved;
            step = along(&step, by, &direction);
            left = along(&left, -by, &bent);
            let now = dot(&left, &left);
            direction = along(&left, now / size, &direction);
            size = now;
        }
        step
    }
}

impl Row {
    fn times(&self, weights: &[f64]) -> f64 {
        self.features.iter().map(|(n, value)| weights[*n as usize] * f64::from(*value)).sum()
    }

    fn add(&self, much: f64, to: &mut [f64]) {
        self.features.iter().for_each(|(n, value)| to[*n as usize] += much * f64::from(*value));
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

fn along(from: &[f64], much: f64, direction: &[f64]) -> Vec<f64> {
    from.iter().zip(direction).map(|(f, d)| f + much * d).collect()
}
