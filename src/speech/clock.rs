//! A moment of the recording as captions write it: `00:01:02.345`.

use crate::model::span::Moment;

/// Between a cue's start and its end.
pub const ARROW: &str = "-->";

/// The moment as WebVTT writes it, always with hours: `00:01:02.345`.
pub fn stamp(moment: Moment) -> String {
    let (ms, s) = (moment.0 % 1000, moment.0 / 1000);
    format!("{:02}:{:02}:{:02}.{ms:03}", s / 3600, s / 60 % 60, s % 60)
}

/// Reads `mm:ss.mmm` or `hh:mm:ss.mmm` as WebVTT has it, and the comma that SRT puts for the point.
///
/// Hours may have more digits; minutes and seconds have two and stay below 60, thousandths have three.
/// Source: <https://www.w3.org/TR/webvtt1/#webvtt-timestamp>.
pub fn parse(text: &str) -> Option<Moment> {
    let (clock, thousandths) = text.split_once(['.', ','])?;
    let parts: Vec<&str> = clock.split(':').collect();
    let (hours, minutes, seconds) = match parts[..] {
        [m, s] => ("00", m, s),
        [h, m, s] => (h, m, s),
        _ => return None,
    };
    let hours = digits(hours, 2..=6)?;
    let minutes = digits(minutes, 2..=2).filter(|m| *m < 60)?;
    let seconds = digits(seconds, 2..=2).filter(|s| *s < 60)?;
    let thousandths = digits(thousandths, 3..=3)?;
    Some(Moment(((hours * 60 + minutes) * 60 + seconds) * 1000 + thousandths))
}

/// The whole of `text` as a number, where it is that many digits and nothing else.
fn digits(text: &str, length: std::ops::RangeInclusive<usize>) -> Option<u64> {
    let all_digits = text.bytes().all(|b| b.is_ascii_digit());
    if all_digits && length.contains(&text.len()) { text.parse().ok() } else { None }
}

/// Reads a cue's time line, `START --> END` and whatever settings follow.
pub fn cue_times(line: &str) -> Option<(Moment, Moment)> {
    let (start, rest) = line.split_once(ARROW)?;
    let end = rest.split_whitespace().next()?;
    Some((parse(start.trim())?, parse(end)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_moment_survives_writing_and_reading() {
        for ms in [0, 1, 999, 60_000, 3_599_999, 3_600_000, 400_000_123] {
            assert_eq!(parse(&stamp(Moment(ms))), Some(Moment(ms)), "{}", stamp(Moment(ms)));
        }
    }

    #[test]
    fn hours_may_be_left_out_and_srt_writes_a_comma() {
        assert_eq!(parse("01:02.345"), Some(Moment(62_345)));
        assert_eq!(parse("00:01:02,345"), Some(Moment(62_345)));
    }

    #[test]
    fn what_webvtt_doesnt_allow_is_no_time() {
        for bad in
            ["", "1:02.345", "00:60.000", "60:00:00", "00:01:02.3", "00:01:02.3456", "-0:01:02.345", "a"]
        {
            assert_eq!(parse(bad), None, "{bad}");
        }
    }

    #[test]
    fn settings_after_the_times_are_left_alone() {
        let times = cue_times("00:01.000 --> 00:02.500 align:start position:0%");
        assert_eq!(times, Some((Moment(1000), Moment(2500))));
        assert_eq!(cue_times("00:01.000 -> 00:02.500"), None);
    }
}
