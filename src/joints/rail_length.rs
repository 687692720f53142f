//! Rail length: the rail of a frame between its shoulders and over its tenons, and how long the
//! stiles are cut.
//!
//! Sketch: `SKETCH` below. Datum: the outer edges of the stiles.
//!
//! Derivation (joinery 3.11): R = F - 2 S + 2 p between the shoulders, since a scribed rail reaches
//! p over the profile of each stile (read: Ross 1901, p. 79-81); two tenons more from end to end.
//! Behind its shoulder a tenon finds S - p of wood; what is longer stands out.
//!
//! Limits: horns of 25 to 75 mm (1 to 3 in) at each end of a stile until it is glued (Fairham
//! p. 83-84); a through tenon proud by up to 1/4 in (Fairham p. 85).
//!
//! Example (joinery 3.11): F 450, S 57, p 9.5: R 355; with tenons of 38 mm: rail 431 mm.

use std::collections::BTreeMap;

use super::answer::needed;
use super::figure::{about, at_most, under};
use super::{Calculator, Given, Input, Output, Refusal, Worked};
use crate::units::{Length, Role, Value};

const SKETCH: &str = r"
   a frame's corner and one rail, seen from the front

     |<--------------------- F --------------------->|
     |<- S ->|                               |<- S ->|
     |     |<------- R, shoulder to shoulder ->|     |
     | |<- l --+----- r, end to end ----------- l ->|
     |     |<p>|                             |<p>|

   H: height of the frame; u: horn at each end; s: stile, H and two horns";

const NO_RAIL: &str = "the stiles leave no rail between them";
const NO_STILE: &str = "the profile is as deep as the stile is wide";

/// First words of the warning of a tenon that stands out.
const PROUD: &str = "Tenon stands out of the stile by over 6.4 mm (1/4 in)";
/// First words of the warning of unusual horns.
const HORN: &str = "Horn outside 25 to 75 mm (1 to 3 in)";

const PROUD_MOST: Length = Length::nm(6_350_000);
const HORN_LEAST: Length = Length::nm(25_000_000);
/// 3 in, which the source has; 75 mm is its round figure.
const HORN_MOST: Length = Length::nm(76_200_000);

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "rail-length",
    summary: "Length of a rail between its shoulders and over its tenons, and of the stiles",
    family: "part sizes",
    inputs: &[
        Input::length(
            "overall",
            "F",
            ("50 mm", "5000 mm"),
            "Frame over its stiles",
        ),
        Input::length("stile", "S", ("10 mm", "500 mm"), "Width of each stile"),
        Input::length(
            "profile",
            "p",
            ("0 mm", "50 mm"),
            "Depth of the stile's profile or rebate that the rail is scribed over",
        )
        .derived("square stiles, nothing to scribe over"),
        Input::length(
            "tenon",
            "l",
            ("3 mm", "500 mm"),
            "Length of each tenon from its shoulder, what stands out included",
        )
        .derived("no length from end to end"),
        Input::length(
            "height",
            "H",
            ("50 mm", "5000 mm"),
            "Height of the finished frame",
        )
        .derived("no length of the stiles"),
        Input::length(
            "horn",
            "u",
            ("0 mm", "200 mm"),
            "What a stile is left long at each end, sawn off after gluing",
        )
        .usual("25 mm"),
    ],
    results: &[
        Output::length(
            "rail_shoulder",
            "R",
            Role::Entering,
            "Rail between its shoulders",
        ),
        Output::length("rail", "r", Role::LeavesOn, "Rail from end to end"),
        Output::length("stile_length", "s", Role::LeavesOn, "Stile with its horns"),
    ],
    one_of: &[],
    refuses: &[NO_RAIL, NO_STILE],
    warns: &[PROUD, HORN],
    sketch: SKETCH,
    source: "Derived, as the sketch shows; shoulders of a scribed rail: Ross, Elementary Course in \
             Woodwork (1901), p. 79-81, read. Horns: Fairham, Woodwork Joints, p. 83-84; through \
             tenon proud by 1/4 in: Fairham, p. 85; by 1/8 in: Ross, p. 54.",
    example: &[
        ("overall", "450 mm"),
        ("stile", "57 mm"),
        ("profile", "9.5 mm"),
        ("tenon", "38 mm"),
        ("height", "600 mm"),
    ],
    run,
    wants: None,
    fit: None,
};

/// The rail between its shoulders.
fn shoulders(overall: Length, stile: Length, profile: Length) -> Result<Length, Refusal> {
    if profile >= stile {
        return Err(Refusal::new(
            NO_STILE,
            format!("profile {}", about(profile)),
            format!("profile {}", under(stile)),
            "Measure the profile from the stile's inner edge again, or take wider stiles.",
        ));
    }
    let rail = overall - (stile - profile).times(2.0);
    if rail > Length::ZERO {
        return Ok(rail);
    }
    Err(Refusal::new(
        NO_RAIL,
        format!("stile {}", about(stile)),
        format!("stile {}", at_most(overall.times(0.5) + profile)),
        "Take narrower stiles, or measure the frame over its stiles again.",
    ))
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let overall = needed("overall", given.length("overall"))?;
    let stile = needed("stile", given.length("stile"))?;
    let profile = given.length("profile").unwrap_or(Length::ZERO);
    let shoulder = shoulders(overall, stile, profile)?;
    let tenon = given.length("tenon");
    let horn = needed("horn", given.length("horn"))?;
    let stile_length = given.length("height").map(|height| height + horn + horn);
    let results = [
        ("rail_shoulder", Some(shoulder)),
        ("rail", tenon.map(|tenon| shoulder + tenon + tenon)),
        ("stile_length", stile_length),
    ];
    let proud = tenon.map(|tenon| tenon - (stile - profile));
    let proud = proud.filter(|proud| *proud > PROUD_MOST).map(|proud| {
        format!(
            "{PROUD}: {}; the stile has {} behind the shoulder.",
            about(proud),
            about(stile - profile)
        )
    });
    let is_usual = (HORN_LEAST..=HORN_MOST).contains(&horn);
    let unusual =
        (stile_length.is_some() && !is_usual).then(|| format!("{HORN}: {}.", about(horn)));
    Ok(Worked {
        results: results
            .into_iter()
            .filter_map(|(name, length)| Some((name, Value::Length(length?))))
            .collect::<BTreeMap<_, _>>(),
        warnings: [proud, unusual].into_iter().flatten().collect(),
        notes: NOTES.iter().map(|note| (*note).to_owned()).collect(),
    })
}

const NOTES: &[&str] = &[
    "Mark all rails of a frame from one, shoulders knifed all round.",
    "Saw the horns off after the glue has set (Fairham, pp. 83-84).",
];
