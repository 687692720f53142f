//! Two things about dovetails on which the trade disagrees: the slope, and the base line.
//!
//! Slope (joinery 2.9): every source has its own, and by wood they contradict each other; so it is
//! given as it is, or the wood together with the rule that is followed, and the answer names the
//! source. Base line: over the mate's thickness, so that the ends stand proud and are dressed off
//! (Noyes p. 165), or under it, so that the side is planed down to the ends, as for drawers (Fairham
//! p. 136); the rule is asked for, since it moves a line that is sawn to.

use super::answer::needed;
use super::figure::about;
use super::{Given, Refusal};
use crate::units::{Angle, Length};

/// Slopes that a source gives: what it rises, in what length, and who says so.
const SLOPES: &[(i64, i64, &str)] = &[
    (1, 8, "1 in 8, the correct slope of Fairham (p. 134)"),
    (1, 7, "1 in 7, from memory"),
    (1, 6, "1 in 6, the steepest that Fairham allows (p. 134)"),
    (1, 5, "1 in 5, from memory"),
    (
        5,
        24,
        "5/8 in 3, Noyes (p. 165), who calls it about 80 degrees from the end; it is 78.2",
    ),
    (1, 4, "1 in 4, Ross (p. 76)"),
];

/// How near a slope is to one of those, in degrees: less than any bevel can be set to.
const ALIKE: f64 = 1e-6;

/// How far the base line lies over when nothing is given, 1/32 in (Noyes, p. 165).
const OVER: Length = Length::nm(793_750);
/// How far it lies under: a shaving (Fairham, p. 136; figure common practice).
const UNDER: Length = Length::nm(100_000);

/// Words of the rules that name the slope of hard wood beside that of soft.
pub(super) const HARD_SLOPES: &str = "shallower | steeper";
/// Words of the rules of the base line.
pub(super) const BASE_LINES: &str = "over | under | even";

/// The steepest slope that Fairham allows.
pub(super) fn steepest() -> Angle {
    of(1, 6).plus_degrees(ALIKE)
}

fn of(rise: i64, run: i64) -> Angle {
    Angle::of_slope(Length::nm(rise), Length::nm(run))
}

/// The slope, and a sentence that says whose it is, when a source has it.
///
/// # Errors
/// A refusal when neither slope nor wood and rule are given.
pub(super) fn slope(given: &Given) -> Result<(Angle, Option<String>), Refusal> {
    if let Some(angle) = given.angle("slope") {
        let alike = |(rise, run, _): &&(i64, i64, &str)| {
            (of(*rise, *run).to_degrees() - angle.to_degrees()).abs() < ALIKE
        };
        let source = SLOPES.iter().find(alike);
        return Ok((angle, source.map(|(_, _, words)| format!("Slope {words}."))));
    }
    let wood = needed("wood", given.choice("wood"))?;
    let rule = needed("hard_slope", given.choice("hard_slope"))?;
    let run = if (wood == "hard") == (rule == "shallower") {
        8
    } else {
        6
    };
    let source = match rule {
        "shallower" => "later practice, from memory",
        _ => {
            "more slope in hard wood: Notes on Building Construction I (1893) and Our Workshop; \
             the two slopes: Fairham (p. 134)"
        }
    };
    let note = format!("Slope 1 in {run} for {wood} wood, hard wood {rule}: {source}.");
    Ok((of(1, run), Some(note)))
}

/// How much farther from the end than the mate is thick a base line lies, under being negative; and
/// a sentence that says whose rule it is.
///
/// # Errors
/// A refusal when no rule is given.
pub(super) fn base_line(given: &Given) -> Result<(Length, String), Refusal> {
    let offset = given.length("offset");
    Ok(match needed("base_line", given.choice("base_line"))? {
        "over" => {
            let over = offset.unwrap_or(OVER);
            let note = format!(
                "Base line {} over the mate's thickness: the ends stand proud and are dressed off \
                 (Noyes, p. 165).",
                about(over)
            );
            (over, note)
        }
        "under" => {
            let under = offset.unwrap_or(UNDER);
            let note = format!(
                "Base line {} under the mate's thickness: the side is planed down to the ends \
                 (Fairham, p. 136).",
                about(under)
            );
            (-under, note)
        }
        _ => (
            Length::ZERO,
            "Base line at the mate's thickness, neither over (Noyes, p. 165) nor under (Fairham, \
             p. 136)."
                .to_owned(),
        ),
    })
}
