//! Phones of American English in ARPAbet's letters, and how far apart two of them are.
//!
//! Features, their weights and the scores are those of ALINE: G. Kondrak, "Algorithms for Language Reconstruction"
//! (2002), tables on pages 54 to 60, with the changes of its implementation in NLTK (`nltk.metrics.aline`). A
//! diphthong is two phones here, as ALINE has it.

/// A phone, by its place in the table of all phones.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Phone(pub(super) u8);

/// The score of two phones that are the same, without what vowels lose.
const SAME: i32 = 35;

/// What a vowel loses: consonants tell more.
const VOWEL: i32 = 5;

/// One phone that answers to two: its score before the differences.
const ONE_FOR_TWO: i32 = 45;

/// A phone: its letters and its features, in hundredths.
struct Features {
    letters: &'static str,
    vowel: bool,
    /// Where in the mouth, from the glottis (10) to the lips (100).
    place: i32,
    /// How open, from open vowels (0) to stops (100).
    manner: i32,
    voice: bool,
    nasal: bool,
    retroflex: bool,
    lateral: bool,
    /// How far back: 100 at the front.
    front: i32,
    round: bool,
}

const fn consonant(letters: &'static str, place: i32, manner: i32, voice: bool) -> Features {
    Features {
        letters,
        vowel: false,
        place,
        manner,
        voice,
        nasal: false,
        retroflex: false,
        lateral: false,
        front: 0,
        round: false,
    }
}

const fn vowel(letters: &'static str, manner: i32, front: i32, round: bool) -> Features {
    let plain = consonant(letters, -100, manner, true);
    Features { vowel: true, front, round, ..plain }
}

const STOP: i32 = 100;
const AFFRICATE: i32 = 90;
const FRICATIVE: i32 = 85;
const APPROXIMANT: i32 = 60;

const PHONES: [Features; 36] = [
    consonant("P", 100, STOP, false),
    consonant("B", 100, STOP, true),
    consonant("T", 85, STOP, false),
    consonant("D", 85, STOP, true),
    consonant("K", 60, STOP, false),
    consonant("G", 60, STOP, true),
    consonant("CH", 75, AFFRICATE, false),
    consonant("JH", 75, AFFRICATE, true),
    consonant("F", 95, FRICATIVE, false),
    consonant("V", 95, FRICATIVE, true),
    consonant("TH", 90, FRICATIVE, false),
    consonant("DH", 90, FRICATIVE, true),
    consonant("S", 85, FRICATIVE, false),
    consonant("Z", 85, FRICATIVE, true),
    consonant("SH", 75, FRICATIVE, false),
    consonant("ZH", 75, FRICATIVE, true),
    consonant("HH", 10, FRICATIVE, false),
    Features { nasal: true, ..consonant("M", 100, STOP, true) },
    Features { nasal: true, ..consonant("N", 85, STOP, true) },
    Features { nasal: true, ..consonant("NG", 60, STOP, true) },
    Features { lateral: true, ..consonant("L", 85, APPROXIMANT, true) },
    Features { retroflex: true, ..consonant("R", 85, APPROXIMANT, true) },
    consonant("W", 100, APPROXIMANT, true),
    consonant("Y", 70, APPROXIMANT, true),
    vowel("IY", 40, 100, false),
    vowel("IH", 40, 100, false),
    vowel("EY", 20, 100, false),
    vowel("EH", 20, 100, false),
    vowel("AE", 0, 100, false),
    vowel("AA", 0, 0, false),
    vowel("AO", 20, 0, true),
    vowel("OW", 20, 0, true),
    vowel("UH", 40, 0, true),
    vowel("UW", 40, 0, true),
    vowel("AH", 20, 50, false),
    Features { retroflex: true, ..vowel("ER", 20, 50, false) },
];

/// What ARPAbet writes as one phone, and is two.
const TWO: [(&str, [&str; 2]); 3] = [("AY", ["AA", "IH"]), ("AW", ["AA", "UH"]), ("OY", ["AO", "IH"])];

impl Phone {
    /// How many phones there are.
    pub(super) const COUNT: u8 = PHONES.len() as u8;

    /// The phones of one of ARPAbet's signs, without a mark of stress; none where it is no sign.
    pub(super) fn read(sign: &str) -> Option<impl Iterator<Item = Phone> + use<>> {
        let one = |letters: &str| PHONES.iter().position(|p| p.letters == letters).map(|n| Phone(n as u8));
        let two = TWO.iter().find(|(letters, _)| *letters == sign);
        let (first, second) = match two {
            Some((_, [first, second])) => (one(first)?, one(second)),
            None => (one(sign)?, None),
        };
        Some([Some(first), second].into_iter().flatten())
    }

    /// Phones of one sort are easily taken for each other; there are fewer than 16 sorts.
    pub fn sort(self) -> usize {
        let features = self.features();
        match (features.vowel, features.nasal, features.manner) {
            (true, ..) => 0,
            (_, true, _) => 1,
            (_, _, APPROXIMANT) => 2 + usize::from(features.lateral) + 2 * usize::from(features.retroflex),
            (_, _, manner) if manner >= AFFRICATE => {
                5 + usize::from(features.place < 80) + 2 * usize::from(features.place > 90)
            }
            _ => 9 + usize::from(features.place < 80) + 2 * usize::from(features.place > 90),
        }
    }

    fn features(self) -> &'static Features {
        &PHONES[usize::from(self.0)]
    }

    /// What a vowel loses of each score.
    fn loss(self) -> i32 {
        if self.features().vowel { VOWEL } else { 0 }
    }

    /// The weighted differences of two phones, in hundredths.
    pub(super) fn apart(self, other: Phone) -> i32 {
        let (a, b) = (self.features(), other.features());
        let graded = |a: i32, b: i32, weight: i32| (a - b).abs() * weight;
        let either = |a: bool, b: bool, weight: i32| if a == b { 0 } else { 100 * weight };
        let both = graded(a.place, b.place, 40)
            + graded(a.manner, b.manner, 50)
            + either(a.vowel, b.vowel, 5)
            + either(a.voice, b.voice, 5)
            + either(a.nasal, b.nasal, 20)
            + either(a.retroflex, b.retroflex, 10)
            + either(a.lateral, b.lateral, 10);
        if a.vowel && b.vowel {
            both + graded(a.front, b.front, 2) + either(a.round, b.round, 2)
        } else {
            both
        }
    }

    /// The score of hearing one for the other, in hundredths.
    pub(super) fn score(self, other: Phone) -> i32 {
        100 * (SAME - self.loss() - other.loss()) - self.apart(other)
    }

    /// The score of hearing one for two before their differences, in hundredths.
    pub(super) fn most_for_two(self, two: [Phone; 2]) -> i32 {
        100 * (ONE_FOR_TWO - self.loss() - two[0].loss().max(two[1].loss()))
    }
}

#[cfg(test)]
mod tests {
    use super::Phone;

    fn phone(sign: &str) -> Phone {
        Phone::read(sign).unwrap().next().unwrap()
    }

    /// Expected: `sigma_sub` and `sigma_exp` of `nltk.metrics.aline` (NLTK 3.10.4) for the same phones in IPA.
    #[test]
    fn scores_are_those_of_the_reference_implementation() {
        for (a, b, score) in [
            ("P", "P", 3500),
            ("P", "B", 3000),
            ("T", "D", 3000),
            ("V", "B", 2550),
            ("F", "S", 3100),
            ("M", "N", 2900),
            ("S", "SH", 3100),
            ("K", "T", 2500),
            ("IY", "UW", 2100),
        ] {
            assert_eq!(phone(a).score(phone(b)), score, "{a} {b}");
        }
    }

    #[test]
    fn signs_are_read() {
        assert_eq!(Phone::read("AY").unwrap().count(), 2);
        assert!(Phone::read("QQ").is_none());
    }
}
