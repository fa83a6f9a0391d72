//! The workbook: the scope as sheets, with the formulas that its figures come from, so that the office can go on from
//! it. It carries a fixed date, never the clock's: the same scope gives the same bytes.

mod about;
mod grid;
mod lines;
mod lists;
mod prices;
mod sums;
mod takeoff;

use super::job::Job;
use super::prices::Priced;
use grid::Grid;
use rust_xlsxwriter::{DocProperties, ExcelDateTime, Workbook, XlsxError};

/// Who made a workbook, in its properties: by it one is known again.
pub const AUTHOR: &str = "Eavesdraft";

/// A workbook that couldn't be made.
#[derive(Debug, thiserror::Error)]
#[error("the workbook couldn't be written ({0}): write the table or the JSON instead")]
pub struct WorkbookError(#[from] XlsxError);

/// The scope as a workbook, with its prices where there are any.
///
/// # Errors
/// More rows than a sheet holds: more than a million.
pub fn bytes(job: &Job, priced: Option<&Priced>) -> Result<Vec<u8>, WorkbookError> {
    let sums = super::sums::sums(job);
    let rows = super::rows::rows(job);
    let standing = rows.iter().filter(|row| !row.only_if);
    let conditional = rows.iter().filter(|row| row.only_if);
    let mut grids = vec![
        about::grid(job),
        lines::grid("Lines", standing, Some(&sums)),
        lines::grid("Only if", conditional, None),
        takeoff::grid(job),
        sums::grid(&sums),
    ];
    grids.extend(priced.map(prices::grid));
    grids.extend([lists::follow_ups(job), lists::history(job)]);
    Ok(written(job, &grids)?)
}

fn written(job: &Job, grids: &[Grid]) -> Result<Vec<u8>, XlsxError> {
    let title = format!("{}: {}", job.kind(), job.property());
    let mut workbook = Workbook::new();
    let never = ExcelDateTime::from_ymd(2000, 1, 1)?;
    workbook.set_properties(
        &DocProperties::new().set_title(&title).set_author(AUTHOR).set_creation_datetime(&never),
    );
    for grid in grids {
        grid.write(workbook.add_worksheet(), &title)?;
    }
    workbook.save_to_buffer()
}
