//! SRT: a count, a time line, and text, over and over. There is no standard; this is what players agree on.

use super::caption_line::pieces;
use super::cue::Cue;
use super::error::{Fault, Flaw, shown};
use crate::speech::clock::{ARROW, cue_times};

/// The cues of an SRT text. Text goes on to the next time line, so that an empty line within a cue loses nothing.
pub(super) fn cues(text: &str) -> Result<Vec<Cue>, Flaw> {
    let lines: Vec<&str> = text.lines().collect();
    let mut cues: Vec<Cue> = Vec::new();
    for (n, line) in lines.iter().enumerate() {
        if is_time_line(line) {
            cues.push(cue(line).map_err(|fault| Flaw::at(n + 1, fault))?);
        } else if !is_count(&lines, n) && !line.trim().is_empty() {
            let cue = cues.last_mut().ok_or_else(|| Flaw::at(n + 1, Fault::Stray(shown(line))))?;
            cue.lines.push(pieces(&without_position(line)));
        }
    }
    Ok(cues)
}

/// Times begin with a digit; an arrow in any other line is text. A line that begins with a time and has no arrow
/// is one too, cut off in the middle.
fn is_time_line(line: &str) -> bool {
    let line = line.trim_start();
    line.starts_with(|c: char| c.is_ascii_digit()) && (line.contains(ARROW) || begins_with_time(line))
}

/// `00:00:04,`: nobody's speech is written so.
fn begins_with_time(line: &str) -> bool {
    let shape = |(c, form): (u8, u8)| if form == b'0' { c.is_ascii_digit() } else { c == form };
    line.len() > 8 && line.bytes().zip(*b"00:00:00,").all(shape)
}

fn cue(line: &str) -> Result<Cue, Fault> {
    let (start, end) = cue_times(line).ok_or_else(|| Fault::TimeLine(shown(line)))?;
    if end < start { Err(Fault::Backward) } else { Ok(Cue { start, end, lines: Vec::new() }) }
}

/// A number alone between an empty line and a time line counts the cues; anywhere else it was said.
fn is_count(lines: &[&str], n: usize) -> bool {
    let number = !lines[n].trim().is_empty() && lines[n].trim().bytes().all(|b| b.is_ascii_digit());
    let below = lines.get(n + 1).is_some_and(|next| is_time_line(next));
    let above = n == 0 || lines[n - 1].trim().is_empty();
    number && below && above
}

/// The line without the `{\an8}` that some tools put to place it on the screen.
fn without_position(line: &str) -> String {
    let mut rest = line;
    let mut kept = String::new();
    while let Some((before, inside)) = rest.split_once("{\\") {
        let Some((_, after)) = inside.split_once('}') else { break };
        kept.push_str(before);
        rest = after;
    }
    kept + rest
}
