//! How wide the columns of a table are. The drawers that break lines themselves share it; a browser does the same.

/// How wide a column would be, and how narrow it may get, in whatever the drawer measures by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Want {
    /// Where none of its lines is broken.
    pub whole: f32,
    /// Where every line is broken as often as it may be.
    pub least: f32,
}

/// The widths of columns in so much room: each as wide as it would be where all fit, else the widest give way until they
/// do. None where they don't fit however narrow they get.
pub fn fit(wants: &[Want], room: f32) -> Option<Vec<f32>> {
    let at = |cap: f32| wants.iter().map(move |want| want.whole.min(cap).max(want.least));
    let widest = wants.iter().map(|want| want.whole).fold(0.0, f32::max);
    if at(widest).sum::<f32>() <= room {
        return Some(at(widest).collect());
    }
    if at(0.0).sum::<f32>() > room {
        return None;
    }
    // Halving finds the greatest width that none may be above, as near as anyone sees.
    let (mut low, mut high) = (0.0, widest);
    for _ in 0..24 {
        let middle = (low + high) / 2.0;
        if at(middle).sum::<f32>() <= room { low = middle } else { high = middle }
    }
    Some(at(low).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn widths(wants: &[[f32; 2]], room: f32) -> Option<Vec<f32>> {
        let wants: Vec<Want> =
            wants.iter().map(|[whole, least]| Want { whole: *whole, least: *least }).collect();
        Some(fit(&wants, room)?.into_iter().map(f32::round).collect())
    }

    #[test]
    fn columns_that_fit_are_as_wide_as_they_would_be() {
        assert_eq!(widths(&[[4.0, 4.0], [20.0, 6.0]], 30.0), Some(vec![4.0, 20.0]));
    }

    #[test]
    fn the_widest_give_way_first_and_none_below_its_least() {
        assert_eq!(widths(&[[4.0, 4.0], [18.0, 7.0], [60.0, 8.0]], 50.0), Some(vec![4.0, 18.0, 28.0]));
        assert_eq!(widths(&[[30.0, 30.0], [40.0, 5.0], [60.0, 8.0]], 60.0), Some(vec![30.0, 15.0, 15.0]));
        assert_eq!(widths(&[[30.0, 30.0], [40.0, 31.0]], 60.0), None);
    }
}
