//! WebVTT, as <https://www.w3.org/TR/webvtt1/> has it.
//!
//! Where the standard lets a player skip what it can't read, this refuses: a skipped cue is a lost line.

use super::caption_line::pieces;
use super::cue::Cue;
use super::error::{Fault, Flaw, shown};
use crate::speech::clock::{ARROW, cue_times};

/// A numbered line of the file.
type Line<'a> = (usize, &'a str);

/// The cues of a WebVTT text; its header, notes, styles and regions are left out.
pub(super) fn cues(text: &str) -> Result<Vec<Cue>, Flaw> {
    let lines: Vec<Line> = text.lines().enumerate().map(|(n, line)| (n + 1, line)).collect();
    let body = lines.iter().position(|(_, line)| line.is_empty() || line.contains(ARROW));
    let mut cues = Vec::new();
    for block in blocks(&lines[body.unwrap_or(lines.len())..]) {
        cues.extend(cue(&block)?);
    }
    Ok(cues)
}

/// The lines between empty lines. A second time line in a block begins a block of its own, as the standard says.
fn blocks<'a>(lines: &[Line<'a>]) -> Vec<Vec<Line<'a>>> {
    let mut blocks: Vec<Vec<Line>> = vec![Vec::new()];
    for &(n, line) in lines {
        let times = |block: &Vec<Line>| block.iter().any(|(_, l)| l.contains(ARROW));
        if line.is_empty() || line.contains(ARROW) && blocks.last().is_some_and(times) {
            blocks.push(Vec::new());
        }
        if let (Some(block), false) = (blocks.last_mut(), line.is_empty()) {
            block.push((n, line));
        }
    }
    blocks.retain(|block| !block.is_empty());
    blocks
}

/// The cue a block holds; none for a note, a style or a region.
fn cue(block: &[Line]) -> Result<Option<Cue>, Flaw> {
    let (n, first) = block[0];
    let timed = block.iter().position(|(_, line)| line.contains(ARROW));
    match timed {
        None if is_aside(first) => Ok(None),
        // The line above the time line is the cue's name.
        Some(at @ (0 | 1)) => cue_at(block[at], &block[at + 1..]).map(Some),
        _ => Err(Flaw::at(n, Fault::Stray(shown(first)))),
    }
}

fn is_aside(first: &str) -> bool {
    let note =
        first.strip_prefix("NOTE").is_some_and(|rest| rest.is_empty() || rest.starts_with([' ', '\t']));
    note || matches!(first.trim_end(), "STYLE" | "REGION")
}

fn cue_at((n, line): Line, text: &[Line]) -> Result<Cue, Flaw> {
    let (start, end) = cue_times(line).ok_or_else(|| Flaw::at(n, Fault::TimeLine(shown(line))))?;
    if end < start {
        return Err(Flaw::at(n, Fault::Backward));
    }
    Ok(Cue { start, end, lines: text.iter().map(|(_, line)| pieces(line)).collect() })
}
