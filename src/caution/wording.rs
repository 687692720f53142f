//! What the words of a caution must hold and must not claim.
//!
//! Rules L-05, L-14, L-15, L-18 of `procedures/cautions/README.md`: a direction of feed says
//! from where the rotation is seen, where the fence is, and from which side to which; the signal
//! word follows the injury; a number has its unit; only what was read is called required; a
//! training line says who, and what holds for the young. Words are found as words, not meaning:
//! a text can pass here and still be bad.

use super::rule::Rule;
use super::{CautionKind, SignalWord, Status};
use crate::diag::{Code, Fault, Faults};

/// Most words of hazard, harm and avoidance together; longer ones do not fit a sheet.
const MOST_WORDS: usize = 45;

/// Words of an injury: they cannot stand in a notice.
const INJURY: [&str; 17] = [
    "injur", "wound", "bleed", "hurt", "finger", "thumb", "hand", "arm", "foot", "eye", "hearing",
    "lung", "asthma", "skin", "burn", "bone", "hits you",
];

/// Words of a serious injury: they need a warning at least.
const SERIOUS: [&str; 9] = [
    "amputat",
    "to the bone",
    "kill",
    "death",
    "blind",
    "cancer",
    "tendon",
    "cut off",
    "loses",
];

/// Kinds whose neglect puts the hand or the work into a turning tool: only they may be a danger.
const DANGER: [CautionKind; 3] = [
    CautionKind::NoTrap,
    CautionKind::FeedDirection,
    CautionKind::HandDistance,
];

/// Words that say where the fence is.
const FENCES: [&str; 5] = [
    "fence behind",
    "fence in front",
    "fence on the",
    "fence on either",
    "no fence",
];

/// Machines whose blade or disc comes down on the table: work, or the saw itself, goes from front
/// to back.
const DOWNWARD: [&str; 4] = ["table-saw", "band-saw", "mitre-saw", "sander"];

/// Words that claim the force of law.
const LAW: [&str; 6] = [
    "required",
    "requires",
    "by law",
    "legally",
    "mandatory",
    "compulsory",
];

/// Units that may follow a number.
const UNITS: [&str; 16] = [
    "mm", "cm", "m", "in", "ft", "thou", "m/s", "ft/min", "rpm", "deg", "°", "s", "h", "%", "dB",
    "mg/m3",
];

/// All that breaks a rule in the words of one caution.
pub(super) fn faults(rule: &Rule) -> Faults {
    let mut found = Faults::new();
    let mut note = |message: String, hint: &str| {
        let message = format!("caution `{}`: {message}", rule.id);
        let fault = Fault::error(Code::CAUTION_WORDING, message).at(rule.place());
        found.push(fault.hint(hint));
    };
    for (part, text) in [
        ("hazard", &rule.hazard),
        ("harm", &rule.harm),
        ("avoid", &rule.avoid),
    ] {
        if text.trim().is_empty() {
            note(
                format!("`{part}` is empty"),
                "say the hazard, the harm, and how to avoid it",
            );
        }
    }
    if rule.sources.is_empty() {
        note(
            "no source".to_owned(),
            "add `sources:`; own practice is one, with status `practice`",
        );
    }
    for basis in &rule.sources {
        if basis.cite.trim().is_empty() || !is_fact(&basis.fact) {
            note(
                format!("source `{}` with fact `{}`", basis.cite, basis.fact),
                "name the source, and the fact by letters and number: `RT-05`",
            );
        }
    }
    let words = rule.words();
    for (message, hint) in [direction(rule), training(rule), signal(rule), law(rule)]
        .into_iter()
        .flatten()
    {
        note(message, hint);
    }
    for number in bare_numbers(&words) {
        note(
            format!("`{number}` has no unit"),
            "write the unit after it: `150 mm`",
        );
    }
    let count = words.split_whitespace().count();
    if count > MOST_WORDS {
        let message = format!("caution `{}` has {count} words", rule.id);
        let fault = Fault::warning(Code::STYLE, message).at(rule.place());
        found.push(fault.hint(format!("say it in {MOST_WORDS}")));
    }
    found
}

type Broken = Option<(String, &'static str)>;

/// L-05.
fn direction(rule: &Rule) -> Broken {
    if rule.kind != CautionKind::FeedDirection {
        return None;
    }
    let brief = rule.brief.iter().map(|brief| ("brief", brief));
    let mut texts = std::iter::once(("avoid", &rule.avoid)).chain(brief);
    let is_down = DOWNWARD.contains(&rule.machine.as_str());
    texts.find_map(|(part, text)| direction_of(part, &text.to_lowercase(), is_down))
}

fn direction_of(part: &str, text: &str, is_down: bool) -> Broken {
    let any = |words: &[&str]| words.iter().any(|word| text.contains(word));
    let turns = any(&["clockwise"]) || (is_down && any(&["runs down"]));
    let goes = any(&["right to left", "left to right"]) || (is_down && any(&["front to back"]));
    let lacks = if !(turns && any(&["seen from"])) {
        "how the cutter turns, and seen from where"
    } else if !any(&FENCES) {
        "where the fence is"
    } else if !goes {
        "from which side to which the work is fed"
    } else {
        return None;
    };
    let hint = "write `Seen from above the cutter turns anticlockwise; with the fence behind the \
                cutter feed from right to left.`";
    Some((format!("`{part}` does not say {lacks}"), hint))
}

/// L-18.
fn training(rule: &Rule) -> Broken {
    let avoid = rule.avoid.to_lowercase();
    let says_who = ["operator", "trained", "learner"]
        .iter()
        .any(|role| avoid.contains(role));
    let says_young = avoid.contains("under-18") && avoid.contains("local");
    (rule.kind == CautionKind::Training && !(says_who && says_young)).then(|| {
        let message = "`avoid` does not say who may do it, and the local rule for under-18s";
        (
            message.to_owned(),
            "name the role, and write `under-18s only as the local rule allows`",
        )
    })
}

/// L-14.
fn signal(rule: &Rule) -> Broken {
    let told = format!("{} {}", rule.hazard, rule.harm).to_lowercase();
    let has = |words: &[&str]| words.iter().any(|word| told.contains(word));
    let word = rule.signal.printed();
    let hint = match rule.signal {
        SignalWord::Danger if !DANGER.contains(&rule.kind) => {
            "keep it for a trap cut, a climb cut, a hand past a turning cutter; write `warning`"
        }
        SignalWord::Notice if has(&INJURY) || has(&SERIOUS) => {
            "a notice is for damage to work, tool or machine only"
        }
        SignalWord::Notice if rule.words().contains('⚠') => "a notice never has the triangle",
        SignalWord::Caution if has(&SERIOUS) => "a serious injury is a `warning`",
        _ => return None,
    };
    Some((format!("the signal word {word} does not fit"), hint))
}

/// L-15: only what was read in the rule itself is called required.
fn law(rule: &Rule) -> Broken {
    let words = rule.words().to_lowercase();
    let claim = LAW.iter().find(|claim| words.contains(*claim))?;
    let was_read = rule
        .sources
        .iter()
        .any(|basis| basis.status == Status::Read);
    (!was_read).then(|| {
        let message = format!("`{claim}` without a source that was read");
        (message, "practice and memory are never called required")
    })
}

/// Numbers in a text that no unit follows; numbers inside a word (`under-18s`) are none.
fn bare_numbers(text: &str) -> Vec<&str> {
    let trimmed = |word: &'_ str| word.trim_matches([',', '.', ';', ':', '(', ')']).len();
    let words: Vec<&str> = text.split_whitespace().collect();
    let mut bare = Vec::new();
    for (index, word) in words.iter().enumerate() {
        let start = word.trim_start_matches('(');
        let after = start.trim_start_matches(|c: char| c.is_ascii_digit() || ".,/-–".contains(c));
        if !start.starts_with(|c: char| c.is_ascii_digit()) {
            continue;
        }
        let unit = if after.is_empty() {
            words.get(index + 1).copied().unwrap_or("")
        } else {
            after
        };
        let unit = unit.trim_matches([',', '.', ';', ':', '(', ')']);
        if !UNITS.contains(&unit) {
            bare.push(&start[..trimmed(start)]);
        }
    }
    bare
}

/// Whether a fact has the form of a number in the list of facts: `RT-05`.
fn is_fact(fact: &str) -> bool {
    fact.split_once('-').is_some_and(|(letters, digits)| {
        let is_name = !letters.is_empty() && letters.bytes().all(|b| b.is_ascii_uppercase());
        is_name && digits.len() == 2 && digits.bytes().all(|b| b.is_ascii_digit())
    })
}

#[cfg(test)]
mod tests {
    use crate::caution::Book;
    use crate::diag::{Code, Faults, Source};

    /// A rule whose words are in order.
    const GOOD: &str = "machine: router-table
pairs: [{machine: router-table, operation: rebate}]
cautions:
  - caution: own
    kind: feed-direction
    operations: [rebate]
    stands: cut
    signal: warning
    hazard: Fed with the rotation, the cutter seizes the piece.
    harm: It pulls the hand in.
    avoid: Seen from above the cutter turns anticlockwise; fence behind the cutter, feed from right to left.
    sources: [{cite: workshop practice, fact: RT-06, status: practice}]
";

    /// Faults in the words of [`GOOD`] with some of its lines changed.
    fn told(changes: &[(&str, &str)]) -> Faults {
        let mut text = GOOD.to_owned();
        for (key, value) in changes {
            let line = text
                .lines()
                .find(|line| line.trim_start().starts_with(key))
                .unwrap();
            text = text.replace(line, &format!("    {key}: {value}"));
        }
        let (book, faults) = Book::read(&[Source::new("own.yaml", text)]);
        assert!(faults.is_empty(), "{faults:#?}");
        let mut wording = Faults::new();
        let others = book.check().into_iter();
        wording.extend(others.filter(|one| one.code != Code::CAUTION_MISSING));
        wording
    }

    #[track_caller]
    fn refused(changes: &[(&str, &str)], words: &str) {
        let faults = told(changes);
        assert_eq!(faults.len(), 1, "{changes:?}: {faults:#?}");
        let fault = faults.iter().next().unwrap();
        assert_eq!(fault.code, Code::CAUTION_WORDING);
        assert!(fault.message.contains(words), "{}", fault.message);
        assert!(fault.span.is_some() && !fault.hints.is_empty());
    }

    #[track_caller]
    fn accepted(changes: &[(&str, &str)]) {
        let faults = told(changes);
        assert!(faults.is_empty(), "{changes:?}: {faults:#?}");
    }

    // L-05 of the project's safety reference, section 8.1: bare "right to left" fails.
    #[test]
    fn a_direction_names_rotation_fence_and_sides() {
        accepted(&[]);
        refused(
            &[("avoid", "Feed from right to left.")],
            "how the cutter turns",
        );
        let unseen = "The cutter turns anticlockwise; fence behind the cutter, feed right to left.";
        refused(&[("avoid", unseen)], "seen from where");
        let no_fence = "Seen from above the cutter turns anticlockwise; feed from right to left.";
        refused(&[("avoid", no_fence)], "where the fence is");
        let no_side =
            "Seen from above the cutter turns clockwise; fence behind the cutter, feed on.";
        refused(&[("avoid", no_side)], "from which side");
        let saw = "Seen from the left the blade turns clockwise; fence on the right, feed from \
                   front to back.";
        refused(&[("avoid", saw)], "from which side");
        let down = "Seen from the front the blade runs down; no fence, feed from right to left.";
        refused(&[("avoid", down)], "how the cutter turns");
    }

    // The same rule where the blade comes down on the table (TS-25, BS-01 of the same).
    #[test]
    fn at_a_saw_the_direction_is_from_front_to_back() {
        let at = |machine: &str, avoid: &str| {
            let text = GOOD.replace("router-table", machine);
            let line = text.lines().find(|line| line.contains("avoid")).unwrap();
            let text = text.replace(line, &format!("    avoid: {avoid}"));
            let (book, _) = Book::read(&[Source::new("own.yaml", text)]);
            (book.check().iter()).any(|one| one.code == Code::CAUTION_WORDING)
        };
        let table = "Seen from the left the blade turns clockwise; fence on either side, feed from front to back.";
        assert!(!at("table-saw", table));
        assert!(at(
            "table-saw",
            &table.replace("Seen from the left the", "The")
        ));
        assert!(at(
            "table-saw",
            &table.replace("fence on either side", "so")
        ));
        let band = "Seen from the front the blade runs down. No fence; feed from front to back.";
        assert!(!at("band-saw", band));
        assert!(at("band-saw", &band.replace("from front to back", "on")));
    }

    // L-14 and section 6.1 (ANSI Z535.4-2007 4.14 as quoted): NOTICE never for injury; DANGER only
    // from the listed cases; an amputation is a serious injury, hence WARNING.
    #[test]
    fn the_signal_word_follows_the_injury() {
        let notice = ("signal", "notice");
        refused(&[notice], "NOTICE");
        let tear_out = ("hazard", "The grain tears out at the exit.");
        accepted(&[notice, tear_out, ("harm", "The edge is ragged.")]);
        refused(
            &[notice, tear_out, ("harm", "⚠ The edge is ragged.")],
            "NOTICE",
        );
        accepted(&[("signal", "danger")]);
        for kind in ["no-trap", "hand-distance"] {
            accepted(&[("signal", "danger"), ("kind", kind)]);
        }
        for kind in ["isolate", "dust", "stopped-cut", "kickback"] {
            refused(&[("signal", "danger"), ("kind", kind)], "DANGER");
        }
        accepted(&[("signal", "caution")]);
        refused(
            &[("signal", "caution"), ("harm", "It cuts to the bone.")],
            "CAUTION",
        );
    }

    // L-15 of the same: unit, source and status; practice never printed as required.
    #[test]
    fn a_number_has_its_unit_and_a_claim_its_source() {
        let hands = |avoid| [("kind", "hand-distance"), ("avoid", avoid)];
        accepted(&hands("No hand within 150 mm of the cutter."));
        accepted(&hands(
            "No hand within 75-150 mm (or 3 in) of the cutter, under-18s too.",
        ));
        refused(&hands("No hand within 150 of the cutter."), "`150`");
        refused(&hands("Stay clear by 150."), "`150`");
        let claim = "A push-block is required.";
        refused(&hands(claim), "`required`");
        for status in ["memory", "read-2nd", "derived"] {
            let sources = format!("[{{cite: a rule, fact: RT-05, status: {status}}}]");
            let [kind, avoid] = hands(claim);
            refused(&[kind, avoid, ("sources", &sources)], "`required`");
        }
        let [kind, avoid] = hands(claim);
        let read = ("sources", "[{cite: a rule, fact: RT-02, status: read}]");
        accepted(&[kind, avoid, read]);
        refused(&[("sources", "[]")], "no source");
        refused(
            &[("sources", "[{cite: custom, fact: none, status: practice}]")],
            "fact `none`",
        );
        refused(
            &[("sources", "[{cite: '', fact: RT-05, status: practice}]")],
            "source ``",
        );
    }

    // L-18 of the same.
    #[test]
    fn a_training_line_says_who_and_what_holds_for_the_young() {
        let training = |avoid| [("kind", "training"), ("avoid", avoid)];
        accepted(&training(
            "Trained operators; under-18s only as the local rule allows.",
        ));
        refused(&training("Trained operators only."), "under-18s");
        refused(
            &training("Under-18s only as the local rule allows."),
            "who may do it",
        );
    }

    #[test]
    fn words_are_neither_missing_nor_too_many() {
        refused(&[("hazard", "' '")], "`hazard` is empty");
        refused(&[("harm", "''")], "`harm` is empty");
        let long = "the piece ".repeat(20);
        let faults = told(&[("hazard", &long)]);
        assert_eq!(
            faults.iter().map(|one| one.code).collect::<Vec<_>>(),
            [Code::STYLE]
        );
    }
}
