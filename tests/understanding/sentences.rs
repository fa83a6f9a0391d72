//! A few sentences each, and every line they come to: how reps tie work, numbers and places to things.
//!
//! Common practice, no source: what an estimator would write from the same words.

use eavesdraft::language::rules::Grammar;
use eavesdraft::model::Quantity;
use eavesdraft::scope::drafting;
use eavesdraft::speech::Transcript;
use serde_json::Value;

/// Every line, written as side, item, work, quantity, unit and flags; things left alone as "leave" and their item.
fn told(grammar: &Grammar, words: &str) -> Vec<String> {
    let draft = serde_json::to_value(drafting::by_rules(&Transcript::from_plain(words), grammar)).unwrap();
    let text = |v: &Value| v.as_str().unwrap_or("-").to_owned();
    let lines = draft["lines"].as_array().unwrap().iter().map(|line| {
        let flags: Vec<String> = line["flags"].as_array().unwrap().iter().map(text).collect();
        let quantity = line["quantity"].as_f64().map_or("-".into(), |q| q.to_string());
        let fields = [&line["side"], &line["item"], &line["work"]].map(text).join(" ");
        format!("{fields} {quantity} {} {}", text(&line["unit"]), flags.join(" ")).trim_end().to_owned()
    });
    let left = draft["no_work"].as_array().unwrap().iter().map(|n| format!("leave {}", text(&n["item"])));
    lines.chain(left).collect()
}

#[track_caller]
fn becomes(cases: &[(&str, &[&str])]) {
    let grammar = Grammar::built_in().unwrap();
    for (words, lines) in cases {
        assert_eq!(told(&grammar, words), *lines, "{words}");
    }
}

#[test]
fn work_announced_before_a_list_holds_for_all_of_it() {
    becomes(&[
        (
            "Front of the house. Next group, detach and reset. Two coach lights, a doorbell and the mailbox.",
            &[
                "front light-fixture detach-reset 2 each",
                "front doorbell detach-reset 1 each",
                "front mailbox detach-reset 1 each",
            ],
        ),
        (
            "Front of the house. Stuff that has to come off and go back is the two lights and one outlet.",
            &["front light-fixture detach-reset 2 each", "front outlet detach-reset 1 each"],
        ),
        (
            "Roof. Everything I call out up here is getting replaced. Three pipe jacks. Two box vents.",
            &["none pipe-jack remove-replace 3 each", "none box-vent remove-replace 2 each"],
        ),
        ("Front. Take down and put back up two lights.", &["front light-fixture detach-reset 2 each"]),
    ]);
}

#[test]
fn work_said_once_more_reaches_back_as_far_as_it_says() {
    becomes(&[
        (
            "Front. Two lights, an outlet. Those three come down and go back up.",
            &["front light-fixture detach-reset 2 each", "front outlet detach-reset 1 each"],
        ),
        (
            "Rear of the house. Gutter, ninety foot. Replace forty foot of it and paint the other fifty foot.",
            &["rear gutter remove-replace 40 foot", "rear gutter paint 50 foot"],
        ),
        (
            "Right side. Leave the gas meter alone. Electric meter, same. Spigot, off and back on.",
            &["right hose-bib detach-reset 1 each", "leave gas-meter", "leave electric-meter"],
        ),
        ("Rear. 30 feet of gutter off and on.", &["rear gutter detach-reset 30 foot"]),
    ]);
}

#[test]
fn numbers_that_cannot_be_are_asked_about() {
    becomes(&[
        ("Left. Three squares of gutter, replace.", &["left gutter remove-replace 3 square odd-unit"]),
        ("Front. Two hundred shutters, replace.", &["front shutter remove-replace 200 each odd-size"]),
        ("Left side. Three pair of shutters, detach and reset.", &["left shutter detach-reset 3 pair"]),
    ]);
}

#[test]
fn a_place_is_gone_to_or_only_told_by_the_words_around_it() {
    becomes(&[
        (
            "We'll do the front, then the left, then the back. Front. Two lights, detach and reset.",
            &["front light-fixture detach-reset 2 each"],
        ),
        (
            "Front. Two lights, replace. Left side. The outlet on the front, replace that. A spigot, replace it.",
            &[
                "front light-fixture remove-replace 2 each",
                "front outlet remove-replace 1 each",
                "left hose-bib remove-replace 1 each",
            ],
        ),
        (
            "right side 1 meter box detach and reset siding over here is clean on the back of the house 3 window \
             wraps and 4 screens replace all of those patio set needs covered up and the disconnect comes off and \
             goes back on",
            &[
                "right electric-meter detach-reset 1 each",
                "rear window-wrap remove-replace 3 each",
                "rear window-screen remove-replace 4 each",
                "rear patio-furniture protect 1 each",
                "rear ac-disconnect detach-reset 1 each",
                "leave siding",
            ],
        ),
    ]);
}

#[test]
fn one_of_several_is_one() {
    becomes(&[
        (
            "Left. Two outlets, and one of them's cracked so just the one gets replaced.",
            &["left outlet remove-replace 1 each"],
        ),
        (
            "Left. Two outlets. One of them is cracked, so replace that one.",
            &["left outlet remove-replace 1 each"],
        ),
        (
            "Front. Three coach lights, replace the one by the door.",
            &["front light-fixture remove-replace 1 each"],
        ),
        (
            "Front. Two single garage doors, and the one on the left is off track, so that one gets replaced.",
            &["front garage-door remove-replace 1 each"],
        ),
        (
            "Left. Two outlets, one of them's by the door, detach and reset both.",
            &["left outlet detach-reset 2 each"],
        ),
        (
            "Rear. One light by the slider, off and on, and one flood light at the top and it's broke, so new one.",
            &["rear light-fixture detach-reset 1 each", "rear light-fixture remove-replace 1 each"],
        ),
    ]);
}

#[test]
fn a_word_of_its_own_holds_against_the_work_announced() {
    becomes(&[(
        "Front. Now everything I name right here needs to come off and go back. Porch light, doorbell. The screen \
         door is torn, so we'll put a new screen door on. Front door's good, ain't nothing wrong with it. Porch \
         posts, four, paint those. An outlet.",
        &[
            "front light-fixture detach-reset 1 each",
            "front doorbell detach-reset 1 each",
            "front storm-door remove-replace 1 each",
            "front porch-column paint 4 each",
            "front outlet detach-reset 1 each",
            "leave entry-door",
        ],
    )]);
}

#[test]
fn a_thing_without_its_full_name_is_asked_about_not_lost() {
    becomes(&[
        ("Left. There's a vent up there, replace it.", &["left - remove-replace 1 each not-in-catalogue"]),
        ("Left. We got three vents. Replace them.", &["left - remove-replace 3 each not-in-catalogue"]),
    ]);
}

#[test]
fn lists_share_their_work_and_parts_are_no_whole() {
    becomes(&[
        (
            "Front. Both the mailbox and the doorbell come off and go back on.",
            &["front mailbox detach-reset 1 each", "front doorbell detach-reset 1 each"],
        ),
        (
            "Front. The mailbox comes off, and so does the doorbell.",
            &["front mailbox detach-reset 1 each", "front doorbell detach-reset 1 each"],
        ),
        (
            "Right. Six windows. Wrap on all six is dented, replace.",
            &["right window-wrap remove-replace 6 each"],
        ),
        (
            "Rear. There's a dish on the roof nobody uses, take it down and throw it away.",
            &["rear satellite-dish remove 1 each"],
        ),
        (
            "Roof. Twenty four square of shingles, tear off and replace, with felt.",
            &[
                "none shingles remove-replace 24 square",
                "none underlayment remove-replace - square no-number",
            ],
        ),
        (
            "Front. Take the four shutters off so we can get at the siding. Siding is three square, replace.",
            &["front shutter detach-reset 4 each", "front siding remove-replace 3 square"],
        ),
        (
            "Front. The intercom needs to come off and go back on.",
            &["front - detach-reset 1 each not-in-catalogue"],
        ),
    ]);
}

#[test]
fn work_and_lengths_without_a_thing_are_told_and_not_lost() {
    let grammar = Grammar::built_in().unwrap();
    let unused = |words: &str| -> Vec<String> {
        let draft = drafting::by_rules(&Transcript::from_plain(words), &grammar);
        draft.unused.into_iter().map(|u| u.quote).collect()
    };
    let lost = unused("Front. If the wood behind the fascia is rotten, replace twenty foot of it.");
    assert_eq!(lost, ["replace twenty foot of it."]);
    let placed =
        ["Front. Gutter, thirty foot, replace.", "Left. My neighbor replaced forty foot of fence last year."];
    for words in placed {
        assert_eq!(unused(words), Vec::<String>::new(), "{words}");
    }
}

#[test]
fn a_side_and_a_count_in_one_breath_say_where() {
    becomes(&[
        ("Front two lights, replace.", &["front light-fixture remove-replace 2 each"]),
        ("Right two lights, replace.", &["right light-fixture remove-replace 2 each"]),
        (
            "Garage out back. Front of it. The siding is one square, replace.",
            &["front siding remove-replace 1 square"],
        ),
    ]);
}

#[test]
fn what_a_picture_is_asked_of_may_be_spoken_of_next() {
    becomes(&[
        (
            "Front. Get a picture of the gable vent, it's cracked, replace it.",
            &["front gable-vent remove-replace 1 each"],
        ),
        (
            "Front. Get a picture of the gable vent. Two lights, replace.",
            &["front light-fixture remove-replace 2 each"],
        ),
        (
            "Front. If the fascia's rotten behind the gutter we'll replace ten foot of it, otherwise leave it alone.",
            &["front fascia remove-replace 10 foot only-if"],
        ),
    ]);
}

#[test]
fn a_name_before_a_name_only_tells_its_kind() {
    becomes(&[
        ("Front. Two house number plaques, detach and reset.", &["front sign detach-reset 2 each"]),
        ("Rear. Patio door screen, torn, replace.", &["rear window-screen remove-replace 1 each"]),
    ]);
}

#[test]
fn questions_and_denials_are_no_orders() {
    becomes(&[
        ("Right. No damage at all on the siding or the windows.", &["leave siding", "leave window"]),
        ("Right. Should we replace the dryer vent? No, it's fine.", &["leave dryer-vent"]),
        ("Right. Do we need a new dryer vent? Nope.", &["leave dryer-vent"]),
        (
            "Right. Should we replace the dryer vent? Yeah, replace it.",
            &["right dryer-vent remove-replace 1 each"],
        ),
        ("Right. Should we replace the dryer vent?", &["right dryer-vent remove-replace 1 each only-if"]),
        ("Right. I thought about replacing the dryer vent but it's fine.", &["leave dryer-vent"]),
        ("Right. No need to replace the dryer vent.", &["leave dryer-vent"]),
        ("Right. The gas meter we don't touch.", &["leave gas-meter"]),
    ]);
}

#[test]
fn each_part_of_a_number_has_its_own_work() {
    becomes(&[
        (
            "Front. Three lights. Two get detached and reset, one gets replaced.",
            &["front light-fixture detach-reset 2 each", "front light-fixture remove-replace 1 each"],
        ),
        (
            "Front. Replace one light, detach and reset the other one.",
            &["front light-fixture remove-replace 1 each", "front light-fixture detach-reset 1 each"],
        ),
        ("Front. Replace two of the four screens.", &["front window-screen remove-replace 2 each"]),
        (
            "Right. Two satellite dishes. Remove one, detach and reset the other.",
            &["right satellite-dish remove 1 each", "right satellite-dish detach-reset 1 each"],
        ),
        (
            "Right. Fence is ninety foot. Replace thirty foot of it, stain all ninety.",
            &["right fence remove-replace 30 foot", "right fence stain 90 foot"],
        ),
        (
            "Right. Fence is ninety foot, thirty foot of it is down. Replace the thirty.",
            &["right fence remove-replace 30 foot"],
        ),
        (
            "Right. Gutter, forty foot. First twenty foot is dented, replace that.",
            &["right gutter remove-replace 20 foot"],
        ),
        (
            "Roof. Five box vents, three on the front slope and two on the back slope, replace all five.",
            &["front box-vent remove-replace 3 each", "rear box-vent remove-replace 2 each"],
        ),
        (
            "Roof. Four pipe jacks, two three inch and two two inch, replace all.",
            &["none pipe-jack remove-replace 2 each", "none pipe-jack remove-replace 2 each"],
        ),
    ]);
}

#[test]
fn pieces_of_what_is_measured_are_no_measure() {
    becomes(&[
        ("Front. Two gutters, replace.", &["front gutter remove-replace - foot no-number"]),
        (
            "Rear. A dozen shingles blew off, that's about a third of a square, replace.",
            &["rear shingles remove-replace 0.333 square rough-number"],
        ),
        (
            "Rear. Soffit, two foot wide by thirty foot, that's sixty square feet, replace.",
            &["rear soffit remove-replace 60 square-foot"],
        ),
        ("Front. Two ten foot downspouts, replace.", &["front downspout remove-replace 2 each"]),
    ]);
}

#[test]
fn counts_said_aloud_are_summed_once() {
    becomes(&[
        (
            "Front. Downspouts, well, there's one, two, three of em and they come down and go back up.",
            &["front downspout detach-reset 3 each"],
        ),
        (
            "Front. Leaf guard on top of that, all forty of it, we'll replace that too.",
            &["front gutter-guard remove-replace 40 foot"],
        ),
        (
            "Front. Meter box and the weatherhead over top of it, detach and reset on the both of them.",
            &["front electric-meter detach-reset 1 each", "front service-mast detach-reset 1 each"],
        ),
        (
            "Rear. Fence along here is sixty foot, it's a six footer, replace.",
            &["rear fence remove-replace 60 foot"],
        ),
    ]);
}

#[test]
fn a_side_named_in_full_is_gone_to_though_talk_leads_to_it() {
    becomes(&[
        (
            "Two story colonial, we're at the front elevation, got the owner with me. Two lights, detach and reset.",
            &["front light-fixture detach-reset 2 each"],
        ),
        (
            "Front. Two lights, replace. The shed. One square of shingles, replace. Oh, and on the front again, I \
             skipped the mailbox, detach and reset.",
            &[
                "front light-fixture remove-replace 2 each",
                "none shingles remove-replace 1 square",
                "front mailbox detach-reset 1 each",
            ],
        ),
        (
            "Rear. Take the swamp cooler off and don't put it back.",
            &["rear - remove 1 each changed-mind not-in-catalogue"],
        ),
        (
            "Front. The glass in that picture window, not a scratch. Wrap around it's creased, so new wrap there.",
            &["front window-wrap remove-replace 1 each"],
        ),
    ]);
}

#[test]
fn work_before_its_list_and_places_beside_things() {
    becomes(&[
        (
            "Front. Detach and reset: light, doorbell, mailbox. Gutter, thirty foot, replace.",
            &[
                "front light-fixture detach-reset 1 each",
                "front doorbell detach-reset 1 each",
                "front mailbox detach-reset 1 each",
                "front gutter remove-replace 30 foot",
            ],
        ),
        (
            "Front. Got a light to the left of the garage, another to the right. Those are both detach and reset.",
            &["front light-fixture detach-reset 1 each", "front light-fixture detach-reset 1 each"],
        ),
        (
            "Front. You'd have to take the mailbox down to do the siding and then reinstall it.",
            &["front mailbox detach-reset 1 each"],
        ),
        ("Front. Replace both downspouts, ten feet each.", &["front downspout remove-replace 2 each"]),
        ("Front. Replace three out of the five screens.", &["front window-screen remove-replace 3 each"]),
        (
            "Front. Gutter total for the front is sixty foot, forty up top and twenty down low. Replace.",
            &["front gutter remove-replace 60 foot"],
        ),
        (
            "Front. Gutter's forty. No, forty four. Replace.",
            &["front gutter remove-replace 44 foot changed-mind"],
        ),
    ]);
}

#[test]
fn sides_are_told_by_the_compass_and_left_open_where_two_are_named() {
    becomes(&[
        (
            "East elevation, this is the front. Two lights, replace. South elevation. One outlet, replace.",
            &["front light-fixture remove-replace 2 each", "left outlet remove-replace 1 each"],
        ),
        (
            "This is the front. Two lights, replace. Next side, left. One outlet, replace. Next side, back. One \
             spigot, replace.",
            &[
                "front light-fixture remove-replace 2 each",
                "left outlet remove-replace 1 each",
                "rear hose-bib remove-replace 1 each",
            ],
        ),
        (
            "Front and back gutters, forty foot each, replace.",
            &["none gutter remove-replace 40 foot no-side"],
        ),
        (
            "On the roof. Two box vents on the front, three on the back, replace all.",
            &["front box-vent remove-replace 2 each", "rear box-vent remove-replace 3 each"],
        ),
        (
            "Front. Two lights, replace. Rear. One more light on the front I missed, replace. Spigot, replace.",
            &[
                "front light-fixture remove-replace 2 each",
                "front light-fixture remove-replace 1 each",
                "rear hose-bib remove-replace 1 each",
            ],
        ),
    ]);
}

#[test]
fn roofs_and_pieces_of_what_is_measured() {
    becomes(&[
        (
            "Roof. Full replacement, thirty two square, architectural shingles.",
            &["none shingles remove-replace 32 square"],
        ),
        (
            "Roof. Valley metal, two valleys, eighteen foot each, replace.",
            &["none valley remove-replace 36 foot"],
        ),
        (
            "Rear. Deck boards, twelve of them, cracked, replace.",
            &["rear deck remove-replace - square-foot no-number"],
        ),
        ("Right. Bay window, wrap is dented, replace wrap.", &["right window-wrap remove-replace 1 each"]),
        ("Rear. Trampoline has to be moved.", &["rear - detach-reset 1 each not-in-catalogue"]),
        (
            "Rear. Three bushes, cover. One tree limb, haul it off.",
            &["rear planting protect 3 each changed-mind", "rear planting remove 3 each changed-mind"],
        ),
    ]);
}

#[test]
fn squares_of_a_slope_are_of_its_covering_and_asked_about() {
    becomes(&[
        (
            "Roof. Back slope, it's full, fourteen square, replace.",
            &["rear shingles remove-replace 14 square sounds-like"],
        ),
        (
            "Roof. The whole roof's thirty four square, tear it off, new shingles.",
            &["none shingles remove-replace 34 square"],
        ),
        (
            "Front. Four shutters, I mean four pair, detach and reset.",
            &["front shutter detach-reset 4 pair changed-mind"],
        ),
        (
            "Right. Gas meter and electric meter. Electric, detach and reset.",
            &["right electric-meter detach-reset 1 each"],
        ),
        (
            "Rear. Light, light, and an outlet. Detach and reset all of that.",
            &["rear light-fixture detach-reset 1 each maybe-repeat", "rear outlet detach-reset 1 each"],
        ),
    ]);
}

#[test]
fn work_that_cannot_hold_is_told_rather_than_dropped() {
    let grammar = Grammar::built_in().unwrap();
    let words = "Front. Two lights, detach and reset. If the wood behind the fascia is rotten, replace twenty foot of it.";
    let draft = drafting::by_rules(&Transcript::from_plain(words), &grammar);
    assert_eq!(draft.unused.len(), 1, "{:#?}", draft.unused);
    assert_eq!(draft.unused[0].quote, "replace twenty foot of it.");
}

#[test]
fn lists_without_marks_are_no_compounds() {
    becomes(&[
        (
            "right side hose bib hose reel outlet detach and reset all three of those",
            &[
                "right hose-bib detach-reset 1 each",
                "right hose-reel detach-reset 1 each",
                "right outlet detach-reset 1 each",
            ],
        ),
        (
            "Right. The porch ceiling's good, the posts need painted, there's four of them.",
            &["right - paint 4 each not-in-catalogue", "leave porch-ceiling"],
        ),
        (
            "Right. The screen's got a hole in it, so one screen, and the wrap on this one's good.",
            &["right window-screen - 1 each no-work"],
        ),
    ]);
}

#[test]
fn corners_tell_where_and_the_same_number_has_the_same_unit() {
    becomes(&[
        (
            "Rear. Downspout on the left corner, ten foot, smashed, replace.",
            &["rear downspout remove-replace 10 foot"],
        ),
        ("Front. Two front corner posts, replace.", &["front outside-corner remove-replace 2 each"]),
        (
            "Front. Siding, three and a half square, replace. House wrap under it, same, three and a half.",
            &["front siding remove-replace 3.5 square", "front house-wrap remove-replace 3.5 square"],
        ),
        ("Roof. Valleys, two, twenty foot each, replace.", &["none valley remove-replace 40 foot"]),
        ("Right. No windows. Siding's pretty good.", &["leave siding"]),
        (
            "Front. Window wrap, two windows, replace both wraps.",
            &["front window-wrap remove-replace 2 each"],
        ),
    ]);
}

#[test]
fn what_a_recogniser_makes_of_numbers_and_sides_is_read_as_it_was_meant() {
    becomes(&[
        (
            "Rear. Siding, 3-square, no 4, 4-square, replace.",
            &["rear siding remove-replace 4 square changed-mind"],
        ),
        ("Front. Siding, two, and a quarter square, replace.", &["front siding remove-replace 2.25 square"]),
        (
            "Right. Siding, two square, replace. Going brown to the back now. It's a patio. Mailbox, replace.",
            &["right siding remove-replace 2 square", "rear mailbox remove-replace 1 each"],
        ),
        (
            "Front. Lights on the wall, too of those, detach and reset.",
            &["front light-fixture detach-reset 2 each"],
        ),
    ]);
}

#[test]
fn right_that_asks_for_assent_or_stresses_is_no_side() {
    becomes(&[
        (
            "Rear. Siding, two square, replace. It all has to come off. Right. So you're going to want two lights, \
             detach and reset.",
            &["rear siding remove-replace 2 square", "rear light-fixture detach-reset 2 each"],
        ),
        (
            "Left. Dryer vent, this right behind the bush, replace.",
            &["left dryer-vent remove-replace 1 each"],
        ),
        ("Left. Mailbox, right past the door, replace.", &["left mailbox remove-replace 1 each"]),
    ]);
}

#[test]
fn an_unknown_thing_with_a_measure_is_not_the_one_before() {
    becomes(&[
        (
            "Left. Siding, two square, replace. Fimbos about 9 feet crushed, replace.",
            &[
                "left siding remove-replace 2 square",
                "left - remove-replace 9 foot rough-number not-in-catalogue",
            ],
        ),
        (
            "Right. Siding's good. Fimbo, 6 or 8 foot of it's loose. Renail that.",
            &["right - repair 7 foot rough-number not-in-catalogue", "leave siding"],
        ),
        // Words of measure alone name nothing.
        ("Front. Gutter, replace. Altogether 40 foot.", &["front gutter remove-replace 40 foot"]),
        ("Front. Gutter along here. Total 40 foot, replace.", &["front gutter remove-replace 40 foot"]),
    ]);
}

/// Half a splash block is likelier one that is broken in half.
#[test]
fn parts_of_what_comes_in_pieces_are_asked_about() {
    let grammar = Grammar::built_in().unwrap();
    let drafted = |words: &str| drafting::by_rules(&Transcript::from_plain(words), &grammar).lines.remove(0);
    assert!(
        drafted("Front elevation. Splash block broken, half, replace.")
            .flags
            .contains(&eavesdraft::model::Flag::OddSize)
    );
    assert!(drafted("Front elevation. Two and a half squares of siding, replace.").flags.is_empty());
    assert!(drafted("Front elevation. Two shutters, replace.").flags.is_empty());
}

#[test]
fn the_number_before_a_correction_is_kept_for_the_reviewer() {
    let grammar = Grammar::built_in().unwrap();
    let corrected = drafting::by_rules(
        &Transcript::from_plain("Front elevation. Gutter, eleven foot, no wait, seven foot, replace."),
        &grammar,
    );
    let [line] = corrected.lines.as_slice() else { panic!("{:?}", corrected.lines) };
    let before: Vec<_> = line.readings.iter().map(|reading| line.read_as(reading).quantity).collect();
    assert_eq!((line.quantity, before), (Some(Quantity::of(7)), vec![Some(Quantity::of(11))]));
}

#[test]
fn a_roof_that_only_tells_where_a_thing_is_leaves_it_its_work() {
    let shingles = &["none shingles remove-replace - square no-number"];
    for words in [
        "Shingles on the whole roof, remove and replace.",
        "Shingles over the entire roof, replace.",
        "Shingles, whole roof, remove and replace.",
        "Shingles on both slopes get replaced.",
        "The whole roof's getting replaced, shingles.",
    ] {
        becomes(&[(words, shingles)]);
    }
    becomes(&[(
        "The satellite dish is fine. The whole roof's getting replaced, and that's eighteen square of shingles.",
        &["none shingles remove-replace 18 square", "leave satellite-dish"],
    )]);
}
