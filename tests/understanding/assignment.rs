//! The assignment problem: each row gets a column of its own so that the summed weight is greatest.

/// The column of each row of a square of weights.
///
/// Row by row along the shortest augmenting path, with a potential for each row and column (after Jonker and Volgenant,
/// "A Shortest Augmenting Path Algorithm for Dense and Sparse Linear Assignment Problems", 1987; from memory).
pub fn assign(size: usize, weight: impl Fn(usize, usize) -> i64) -> Vec<usize> {
    let (mut of_row, mut of_column) = (vec![0; size], vec![0; size]);
    let mut owner: Vec<Option<usize>> = vec![None; size];
    for row in 0..size {
        // How far each column is from this row, and by way of which column; `None`: from the row itself.
        let mut far = vec![i64::MAX; size];
        let mut by: Vec<Option<usize>> = vec![None; size];
        let mut reached = vec![false; size];
        let (mut here, mut last, mut done) = (row, None, 0);
        let end = loop {
            for column in (0..size).filter(|column| !reached[*column]) {
                let through = done - weight(here, column) - of_row[here] - of_column[column];
                if through < far[column] {
                    (far[column], by[column]) = (through, last);
                }
            }
            let nearest = (0..size).filter(|column| !reached[*column]).min_by_key(|column| far[*column]);
            let Some(nearest) = nearest else { return Vec::new() };
            done = far[nearest];
            match owner[nearest] {
                None => break nearest,
                Some(next) => (here, last) = (next, Some(nearest)),
            }
            reached[nearest] = true;
        };
        for column in (0..size).filter(|column| reached[*column]) {
            of_column[column] += far[column] - done;
            if let Some(owner) = owner[column] {
                of_row[owner] += done - far[column];
            }
        }
        of_row[row] += done;
        give(row, end, &by, &mut owner);
    }
    let mut columns = vec![0; size];
    for (column, row) in owner.iter().enumerate() {
        if let Some(row) = row {
            columns[*row] = column;
        }
    }
    columns
}

/// Hands the columns of a path on: each goes to the row before, and the first to the new row.
fn give(row: usize, end: usize, by: &[Option<usize>], owner: &mut [Option<usize>]) {
    let mut column = end;
    while let Some(before) = by[column] {
        owner[column] = owner[before];
        column = before;
    }
    owner[column] = Some(row);
}

#[test]
fn the_greatest_sum_is_found() {
    let sum = |weights: &[Vec<i64>]| -> i64 {
        let columns = assign(weights.len(), |row, column| weights[row][column]);
        assert!((0..weights.len()).all(|column| columns.contains(&column)), "{columns:?}");
        columns.iter().zip(weights).map(|(column, row)| row[*column]).sum()
    };
    let mut state = 7_u64;
    let mut next = || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) as i64 % 7
    };
    for _ in 0..200 {
        let weights: Vec<Vec<i64>> = (0..5).map(|_| (0..5).map(|_| next()).collect()).collect();
        assert_eq!(sum(&weights), greatest(&weights, 0, &mut vec![false; 5]), "{weights:?}");
    }
}

/// By trying all.
fn greatest(weights: &[Vec<i64>], row: usize, taken: &mut Vec<bool>) -> i64 {
    let Some(here) = weights.get(row) else { return 0 };
    let mut most = i64::MIN;
    for column in 0..here.len() {
        if !taken[column] {
            taken[column] = true;
            most = most.max(here[column] + greatest(weights, row + 1, taken));
            taken[column] = false;
        }
    }
    most
}
