//! Cells for the place that are left blank below a filled one. In many lists a place is written once, and what stands below
//! is there, too; in others a blank cell means that no side is named. Only where the whole column is plainly of the first
//! kind are blanks read so, and it is told.

use super::place::Place;
use super::rows::Listed;
use super::words::rows;

/// So many rows are told one by one.
const TOLD: usize = 8;

/// A place that is written once, and the lines right below it that name none, by where they stand.
struct Block {
    head: usize,
    blanks: Vec<usize>,
}

/// Notes with each line whose blank cell is read as the one above which row that is; gives what there is to tell of it.
pub(super) fn fill(lines: &mut [Listed]) -> Option<String> {
    let blocks = blocks(lines).filter(|blocks| are_plain(lines, blocks))?;
    let mut filled = Vec::new();
    for Block { head, blanks } in blocks {
        let (row, place) = (lines[head].row, lines[head].own_place.clone().unwrap_or(Place::UNTOLD));
        for blank in blanks {
            lines[blank].above = Some((row, place.clone()));
            filled.push(lines[blank].row);
        }
    }
    let which = if filled.len() > TOLD { format!("{} rows", filled.len()) } else { rows(&filled) };
    Some(format!(
        "{which} name no place below one that does, and are read as being there, too: that is an assumption, told with \
         each line that rests on it"
    ))
}

/// The blocks; none where a line stands before the first, where headings tell places, or where a place is written twice.
fn blocks(lines: &[Listed]) -> Option<Vec<Block>> {
    let mut blocks: Vec<Block> = Vec::new();
    for (at, line) in lines.iter().enumerate() {
        if line.under != Place::UNTOLD {
            return None;
        }
        let again = |block: &Block| lines[block.head].place_cell == line.place_cell;
        match line.own_place {
            Some(_) if blocks.iter().any(again) => return None,
            Some(_) => blocks.push(Block { head: at, blanks: Vec::new() }),
            None => {
                let block = blocks.last_mut()?;
                let last = block.blanks.last().copied().unwrap_or(block.head);
                // A blank row, a sum or a heading ends a block.
                if lines[last].row + 1 == line.row && last + 1 == at {
                    block.blanks.push(at);
                }
            }
        }
    }
    Some(blocks)
}

/// Whether blanks are the rule in it: below two sides at least, and as many as there are places.
fn are_plain(lines: &[Listed], blocks: &[Block]) -> bool {
    let names_a_side = |block: &&Block| lines[block.head].own_place.as_ref().is_some_and(Place::names_a_side);
    let with_blanks = blocks.iter().filter(|block| !block.blanks.is_empty()).filter(names_a_side).count();
    let blanks: usize = blocks.iter().map(|block| block.blanks.len()).sum();
    with_blanks > 1 && blanks >= blocks.len()
}
