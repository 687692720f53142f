//! Feed per tooth: how far the work moves while one tooth of the cutter comes round.
//!
//! Sketch: `SKETCH` below. Datum: the path of the work past the axis.
//!
//! Derivation (joinery 3.15): f = v / (n z), v the feed, n turns a minute, z teeth; for a limit f
//! the fastest feed is v = f n z.
//!
//! Limits: none of its own; a `most` that is given is kept.
//!
//! Example (joinery 3.15): 3 m/min, 18000 rpm, 2 flutes: 0.083333 mm.

use std::collections::BTreeMap;

use super::answer::needed;
use super::figure::{about, rpm};
use super::{Calculator, Given, Input, Output, Refusal, Worked};
use crate::units::{Feed, Kind, Length, Role, Spindle, Value};

const SKETCH: &str = r"
        _   _   _   _       marks of the teeth on the edge
     __/ \_/ \_/ \_/ \__
          |<->|
            f               v: feed, n: turns a minute, z: teeth";

const TOO_THICK: &str = "each tooth would take more than the limit";

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "feed-per-tooth",
    summary: "How far the work moves for each tooth, and the fastest feed for a limit",
    family: "machine",
    inputs: &[
        Input::length("feed", "v", ("0.1 m/min", "100 m/min"), "Feed of the work").kind(Kind::Feed),
        Input::length(
            "speed",
            "n",
            ("10 rpm", "60000 rpm"),
            "Speed of the spindle",
        )
        .kind(Kind::Speed),
        Input::length("teeth", "z", ("1", "200"), "Teeth or flutes of the cutter")
            .kind(Kind::Count),
        Input::length(
            "most",
            "",
            ("0.001 mm", "10 mm"),
            "Most that a tooth may take",
        )
        .derived("no fastest feed"),
    ],
    results: &[
        Output::length(
            "feed_per_tooth",
            "f",
            Role::Place,
            "Travel of the work from one tooth to the next",
        ),
        Output::new(
            "feed_most",
            "",
            Kind::Feed,
            Role::Speed,
            "Fastest feed for the limit",
        ),
    ],
    one_of: &[],
    refuses: &[TOO_THICK],
    warns: &[],
    sketch: SKETCH,
    source: "Derived: f = v / (n z).",
    example: &[("feed", "3 m/min"), ("speed", "18000 rpm"), ("teeth", "2")],
    run,
    wants: None,
    fit: None,
};

/// Teeth that pass a place in a minute.
fn teeth_a_minute(speed: Spindle, teeth: f64) -> f64 {
    speed.to_rpm() * teeth
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let feed = needed("feed", given.feed("feed"))?;
    let speed = needed("speed", given.speed("speed"))?;
    let teeth = needed("teeth", given.number("teeth"))?;
    let bites = teeth_a_minute(speed, teeth);
    let each = Length::mm(feed.to_metres_per_minute() * 1e3 / bites);
    let mut results = BTreeMap::from([("feed_per_tooth", Value::Length(each))]);
    if let Some(most) = given.length("most") {
        let feed_most = Feed::metres_per_minute(most.to_metres() * bites);
        if each > most {
            return Err(Refusal::new(
                TOO_THICK,
                format!(
                    "feed {:.3} m/min at {} with {teeth} teeth: {}",
                    feed.to_metres_per_minute(),
                    rpm(speed),
                    about(each)
                ),
                format!(
                    "feed at most {:.3} m/min",
                    (feed_most.to_metres_per_minute() * 1e3).floor() / 1e3
                ),
                "Feed slower, or take a cutter with more teeth.",
            ));
        }
        results.insert("feed_most", Value::Feed(feed_most));
    }
    Ok(Worked {
        results,
        warnings: Vec::new(),
        notes: Vec::new(),
    })
}
