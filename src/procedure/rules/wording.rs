//! How a step is worded: one act, the verb first, the condition before it, nothing left to memory.

use super::super::model::Step;
use super::super::text::{Piece, Text};
use super::verbs::{is_vague, is_verb};
use crate::diag::{Code, Fault, Faults};

/// Most words that are read at a glance (a house value; AC 20-71B as read asks for few).
const MOST_WORDS: usize = 20;

/// Words that send the reader to his memory.
const MEMORY: &[&str] = &[
    "as before",
    "as usual",
    "see above",
    "as above",
    "set to suit",
];

/// Words that begin a condition.
const CONDITION: &[&str] = &["if", "when", "unless", "whenever"];

/// Words that join a second act.
const JOINTS: &[&str] = &["and", "then", "or"];

/// Verbs by which a machine is set.
const SETTING: &[&str] = &["set", "move", "raise", "lower", "cramp", "turn", "lock"];

/// Units of a figure that a machine is set by.
const UNITS: &[&str] = &["mm", "in", "cm", "rpm", "deg"];

/// Units of time.
const TIMES: &[&str] = &[
    "s", "min", "h", "second", "seconds", "minute", "minutes", "hour", "hours", "day", "days",
];

/// The act itself.
pub(super) fn act(step: &Step, faults: &mut Faults) {
    let text = step.act.unfilled();
    let words: Vec<&str> = text.split_whitespace().collect();
    let Some(first) = words.first() else { return };
    let mut tell = |fault: Fault| faults.push(fault.at(step.place.clone()));
    let lower = text.to_lowercase();
    let bare = first.trim_matches(|c: char| !c.is_alphanumeric());
    if is_negative(&lower) {
        let fault = Fault::warning(Code::STEP_NEGATIVE, "a step says what is not done");
        tell(fault.hint("say what is done instead; what must not be done is a caution"));
    } else if CONDITION.contains(&bare.to_lowercase().as_str()) {
        let fault = Fault::error(Code::CONDITION_FIRST, "the condition stands in the act");
        tell(fault.hint("write it under `if`, and what is done under `do`"));
    } else if !is_verb(first) {
        let message = format!("a step begins with what is done, not with `{bare}`");
        let fault = Fault::warning(Code::VERB_FIRST, message);
        tell(fault.hint("put the verb first: `Set the fence ...`"));
    }
    if words.len() > MOST_WORDS {
        let fault = Fault::warning(Code::STEP_LONG, format!("a step of {} words", words.len()));
        tell(fault.hint(format!(
            "at most {MOST_WORDS} are read at a glance; put the rest under `key`"
        )));
    }
    if let Some(second) = second_act(&words) {
        let fault = Fault::warning(
            Code::ONE_ACT,
            format!("a second act begins with `{second}`"),
        );
        tell(fault.hint("make it a step of its own, or a key point"));
    }
    if let Some(phrase) = MEMORY.iter().find(|phrase| lower.contains(**phrase)) {
        let message = format!("`{phrase}` leaves the step to memory");
        let fault = Fault::error(Code::MEMORY_PHRASE, message);
        tell(fault.hint("write out what is done, or name the value in a slot"));
    }
    let has_slot = step.act.slots().next().is_some();
    if is_vague(first) && !has_slot && step.check.is_none() && step.keys.is_empty() {
        let message = format!("`{bare}` does not say what is right");
        let fault = Fault::warning(Code::VERB_VAGUE, message);
        tell(fault.hint("give a value, a `check`, or what is seen when it is right under `key`"));
    }
    let sets = SETTING.contains(&bare.to_lowercase().as_str());
    if let Some(figure) = typed(&step.act).filter(|_| sets) {
        let message = format!("`{figure}` is typed into a step that sets the machine");
        let fault = Fault::warning(Code::NUMBER_TYPED, message);
        tell(fault.hint("make it a setting and name it: `{set.fence}`; a typed figure goes stale"));
    }
}

fn is_negative(text: &str) -> bool {
    ["do not ", "don't ", "never "]
        .iter()
        .any(|no| text.starts_with(no))
}

/// The verb of a second act: `..., then lock it`, `... and feed the piece`.
fn second_act<'w>(words: &[&'w str]) -> Option<&'w str> {
    let pairs = words.windows(2);
    let joined = pairs.skip(1).find(|pair| {
        let joint = JOINTS.contains(&pair[0]);
        joint && pair[1].chars().all(char::is_lowercase) && is_plain_verb(pair[1])
    });
    joined.map(|pair| pair[1])
}

/// A verb that is hardly ever a noun, so that `glue and brush` is not taken for two acts.
fn is_plain_verb(word: &str) -> bool {
    const PLAIN: &[&str] = &[
        "adjust", "bring", "carry", "change", "choose", "connect", "feed", "hold", "insert",
        "keep", "lay", "lift", "loosen", "lower", "make", "move", "pull", "push", "put", "raise",
        "remove", "repeat", "slide", "switch", "take", "tighten", "unplug", "wait", "wipe",
        "write",
    ];
    PLAIN.contains(&word)
}

/// A figure with its unit that was typed: `12 mm`.
fn typed(text: &Text) -> Option<String> {
    text.pieces.iter().find_map(|piece| {
        let Piece::Words(words) = piece else {
            return None;
        };
        let words: Vec<&str> = words.split_whitespace().collect();
        let figure = words.windows(2).find(|pair| {
            let unit = pair[1].trim_end_matches([',', '.', ';', ':', ')']);
            let number = pair[0].trim_start_matches('(');
            UNITS.contains(&unit) && number.starts_with(|c: char| c.is_ascii_digit())
        });
        figure.map(|pair| pair.join(" ").trim_end_matches(['.', ',', ';']).to_owned())
    })
}

/// What stands beside the act.
pub(super) fn parts(step: &Step, faults: &mut Faults) {
    let mut tell = |fault: Fault| faults.push(fault.at(step.place.clone()));
    if step.otherwise.is_some() && step.only_if.is_none() {
        let fault = Fault::error(Code::OTHERWISE_ALONE, "`otherwise` stands without `if`");
        tell(fault.hint("write under `if` what must be so for the act"));
    }
    if step.one_of.len() == 1 {
        let fault = Fault::error(Code::ONE_WAY, "`one_of` holds a single way");
        tell(fault.hint("name another way, or put this one into the act"));
    }
    if let Some(timed) = step
        .timed
        .as_ref()
        .filter(|timed| !has_time(&timed.unfilled()))
    {
        let message = format!("`{}` names no time", timed.unfilled());
        let fault = Fault::error(Code::TIME_UNIT, message);
        tell(fault.hint("write a number and its unit: `60 min in the cramps`"));
    }
}

fn has_time(text: &str) -> bool {
    let words: Vec<&str> = text.split_whitespace().collect();
    words.windows(2).any(|pair| {
        let unit = pair[1].trim_end_matches([',', '.', ';', ':']);
        pair[0].starts_with(|c: char| c.is_ascii_digit()) && TIMES.contains(&unit)
    })
}
