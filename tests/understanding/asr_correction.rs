//! What a recogniser misheard, and what only sounds like an item: as many near-misses as hits.
//!
//! The hits are what Whisper base wrote for the words beside them when synthetic voices spoke invented narrations; the
//! near-misses are real words with a real meaning (common practice, no source).

use eavesdraft::language::rules::Grammar;
use eavesdraft::model::Draft;
use eavesdraft::scope::drafting;
use eavesdraft::speech::{Transcript, Utterance, Word};

/// Words as a recogniser gives them: it was unsure of those that begin with `~`.
fn heard(text: &str) -> Transcript {
    let word = |w: &str| Word {
        text: w.trim_start_matches('~').to_owned(),
        probability: Some(if w.starts_with('~') { 0.3 } else { 0.95 }),
        ..Word::default()
    };
    let utterance = |line: &str| Utterance { words: line.split_whitespace().map(word).collect() };
    Transcript { utterances: text.lines().map(utterance).collect(), ..Transcript::default() }
}

fn drafted(text: &str) -> Draft {
    drafting::by_rules(&heard(text), &Grammar::built_in().unwrap())
}

fn items(draft: &Draft) -> Vec<&str> {
    draft.lines.iter().filter_map(|line| line.item.as_deref()).collect()
}

#[test]
fn a_misheard_name_is_recovered_and_always_flagged_with_what_was_heard() {
    for (text, item, said) in [
        ("Right elevation. ~Spig ~it, detach and reset.", "hose-bib", "Spig it,"),
        ("Front elevation. ~Dripp edge, forty foot, replace.", "drip-edge", "Dripp edge,"),
        ("Roof. ~Underlement, eighteen square, replace.", "underlayment", "Underlement,"),
        ("Roof. The chimney ~splashing, replace.", "chimney-flashing", "chimney splashing,"),
        ("Front elevation. The mounting ~black, replace.", "mount-block", "mounting black,"),
        ("Left elevation. ~Condu ~it, ten foot, replace.", "wiring", "Condu it,"),
        ("Front elevation. The ~ports ~ceilings peeling, paint it.", "porch-ceiling", "ports ceilings"),
    ] {
        let draft = drafted(text);
        let line = draft.lines.iter().find(|line| line.item.as_deref() == Some(item));
        let line = line.unwrap_or_else(|| panic!("{text}: {:?}", items(&draft)));
        assert!(line.flags.contains(&eavesdraft::model::Flag::SoundsLike), "{text}: {:?}", line.flags);
        assert!(line.quote.contains(said.trim_end_matches(',')), "{text}: {}", line.quote);
    }
}

#[test]
fn an_office_says_how_much_must_speak_for_a_name() {
    let folder = tempfile::tempdir().unwrap();
    let built_in = include_str!("../../models/asr_correction.toml");
    let stricter = built_in.replace("base = -15.3", "base = -25");
    assert_ne!(built_in, stricter);
    std::fs::write(folder.path().join("office.toml"), stricter).unwrap();
    let grammar = Grammar::with_folder(folder.path()).unwrap();
    let draft = drafting::by_rules(&heard("Right elevation. ~Spig ~it, detach and reset."), &grammar);
    assert!(!items(&draft).contains(&"hose-bib"), "{:?}", items(&draft));
}

#[test]
fn a_misheard_side_is_recovered_and_its_first_line_flagged() {
    for (heard, side) in [
        ("~Rare elevation.", "rear"),
        ("~Brear elevation.", "rear"),
        ("~Ride elevation.", "right"),
        ("~Bright elevation,", "right"),
    ] {
        let text =
            format!("Left elevation. Mailbox, replace. {heard} Hose bib, replace. Dryer vent, replace.");
        let lines = drafted(&text).lines;
        let sides = serde_json::to_value(lines.iter().map(|line| line.side).collect::<Vec<_>>()).unwrap();
        assert_eq!(sides, serde_json::json!(["left", side, side]), "{text}");
        let sounds: Vec<bool> =
            lines.iter().map(|line| line.flags.contains(&eavesdraft::model::Flag::SoundsLike)).collect();
        assert_eq!(sounds, [false, true, false], "{text}");
    }
}

#[test]
fn a_side_heard_plainly_after_a_misheard_one_leaves_no_doubt() {
    let lines = drafted("~Rare elevation. Left elevation. Mailbox, replace.").lines;
    assert_eq!((lines[0].side, lines[0].flags.as_slice()), (eavesdraft::model::Side::Left, [].as_slice()));
}

#[test]
fn what_only_sounds_like_a_side_is_none() {
    for text in [
        "Left elevation. This elevation, hose bib, replace.",
        "Left elevation. Wide siding, two square, replace.",
        "Left elevation. On the outside, hose bib, replace.",
        "Left elevation. ~First elevation done. Hose bib, replace.",
        "Left elevation. On the sunny side, hose bib, replace.",
    ] {
        let lines = drafted(text).lines;
        assert!(lines.iter().all(|line| line.side == eavesdraft::model::Side::Left), "{text}: {lines:?}");
        assert!(
            !lines.is_empty()
                && lines.iter().all(|l| !l.flags.contains(&eavesdraft::model::Flag::SoundsLike)),
            "{text}"
        );
    }
}

#[test]
fn what_only_sounds_like_an_item_is_left_alone() {
    let grammar = Grammar::built_in().unwrap();
    for (text, item) in [
        ("Front elevation. The cable box, detach and reset.", "gable-vent"),
        ("Front elevation. There's a boat on a trailer, replace the gutter.", "pipe-jack"),
        ("Rear elevation. He wrote it up, replace the gutter.", "drip-edge"),
        ("Front elevation. I paced that, forty foot of gutter, replace.", "mailbox"),
        ("Right elevation. See the dings in the gutter, forty foot, replace.", "siding"),
        ("Front elevation. The shadows, see them? Replace the gutter.", "shutter"),
        ("Rear elevation. The deck, ten foot six by eight, stain it.", "light-fixture"),
    ] {
        let draft = drafted(text);
        assert!(grammar.items.iter().any(|known| known.id == item), "{item} is no item");
        assert!(!items(&draft).contains(&item), "{text}: {:?}", items(&draft));
        let sounds =
            draft.lines.iter().filter(|line| line.flags.contains(&eavesdraft::model::Flag::SoundsLike));
        assert_eq!(sounds.count(), 0, "{text}");
    }
}

#[test]
fn words_that_were_written_as_one_are_known() {
    for (text, side, item) in [
        ("Backslope, two box vents, replace.", "rear", "box-vent"),
        ("On the frontslope three pipe jacks, replace.", "front", "pipe-jack"),
    ] {
        let draft = serde_json::to_value(drafted(text)).unwrap();
        assert_eq!(
            (&draft["lines"][0]["side"], &draft["lines"][0]["item"]),
            (&side.into(), &item.into()),
            "{text}"
        );
    }
}

/// A recogniser takes the pauses of a slow speaker for ends of sentences.
#[test]
fn full_stops_in_mid_sentence_cut_nothing_off() {
    let draft = drafted(
        "Okay so we're on the front of the house and the.\nGutter up here is dented so that's forty foot.\n\
         Of gutter and that's.\nGetting replaced and then I got the.\nTwo coach lights by the.\n\
         Door and those come off and go.\nBack on when the siding gets done and the.\nMailbox comes off and goes back on.",
    );
    let lines: Vec<String> = draft
        .lines
        .iter()
        .map(|line| serde_json::to_value(line).unwrap())
        .map(|line| {
            format!("{} {} {} {}", line["side"], line["item"], line["work"], line["quantity"])
                .replace('"', "")
        })
        .collect();
    assert_eq!(
        lines,
        [
            "front gutter remove-replace 40.0",
            "front light-fixture detach-reset 2.0",
            "front mailbox detach-reset 1.0"
        ]
    );
}

#[test]
fn a_name_in_the_plural_of_which_one_is_told_counts_one() {
    for (text, quantity) in [
        ("Rear elevation. The dryer vents broke, that needs to be swapped out.", Some(1.0)),
        ("Rear elevation. If this awnings got a hole in it we'd swap it out.", Some(1.0)),
        ("Rear elevation. The splash blocks that are cracked, replace those.", None),
        ("Rear elevation. The window screens are torn, replace them.", None),
    ] {
        let draft = serde_json::to_value(drafted(text)).unwrap();
        assert_eq!(draft["lines"][0]["quantity"].as_f64(), quantity, "{text}");
    }
}
