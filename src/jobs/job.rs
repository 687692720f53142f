//! A job file: today's parts, as measured and chosen this morning.
//!
//! ```yaml
//! job: boathouse-lockers
//! title: Lockers for the boathouse
//! parts:
//!   - part: Locker A, side
//!     procedure: stopped-housing
//!     pieces: {left: 1, right: 1}      # or: pieces: 4
//!     measured: {shelf: 17.6 mm, side: 18.3 mm}
//!     chosen: {stop: 12 mm}
//! ```

use std::collections::BTreeMap;
use std::fmt;
use std::sync::Arc;

use serde::Deserialize;
use serde::de::{Deserializer, MapAccess, Visitor};

use crate::diag::{Code, Fault, Faults, Source, Span, nearest};
use crate::procedure::Given;
use crate::yaml::{self, Ordered, Step};

/// Most pieces of one part; keeps a slip of the hand from printing a thousand boxes.
const MOST_PIECES: u32 = 200;

/// A job.
#[derive(Debug, Clone)]
pub struct Job {
    /// Id of the job.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Its parts in order.
    pub parts: Vec<Part>,
}

/// Pieces that are alike, with the joint that is cut in them.
#[derive(Debug, Clone)]
pub struct Part {
    /// Id of the procedure, and its place.
    pub procedure: (String, Span),
    /// How many pieces of which hand; one entry with no hand for a part that has none.
    pub pieces: Vec<(String, u32)>,
    /// Where the pieces stand.
    pub pieces_place: Span,
    /// What the part gives.
    pub given: Given,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawJob {
    job: String,
    title: String,
    parts: Vec<RawPart>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawPart {
    part: String,
    procedure: String,
    pieces: RawPieces,
    measured: Ordered<String>,
    #[serde(default)]
    chosen: Ordered<String>,
}

/// `4`, or `{left: 1, right: 1}`.
struct RawPieces(Vec<(String, u32)>);

impl<'de> Deserialize<'de> for RawPieces {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Either;

        impl<'de> Visitor<'de> for Either {
            type Value = RawPieces;

            fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
                out.write_str("a number of pieces, or a mapping such as {left: 1, right: 1}")
            }

            fn visit_u64<E: serde::de::Error>(self, count: u64) -> Result<RawPieces, E> {
                let count = u32::try_from(count).unwrap_or(u32::MAX);
                Ok(RawPieces(vec![(String::new(), count)]))
            }

            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<RawPieces, A::Error> {
                let mut pieces = Vec::new();
                while let Some(entry) = map.next_entry()? {
                    pieces.push(entry);
                }
                Ok(RawPieces(pieces))
            }
        }

        deserializer.deserialize_any(Either)
    }
}

impl Job {
    /// Reads a job file.
    ///
    /// # Errors
    /// All faults that can be told without the procedures.
    pub fn read(source: &Arc<Source>) -> Result<Self, Faults> {
        let raw: RawJob = yaml::read(source)?;
        let mut faults = Faults::new();
        let mut parts = Vec::new();
        let mut seen: BTreeMap<String, Span> = BTreeMap::new();
        for (at, part) in raw.parts.into_iter().enumerate() {
            let path = |more: &[Step]| [&[Step::from("parts"), Step::from(at)], more].concat();
            let place = yaml::place(source, &path(&["part".into()]));
            if let Some(first) = seen.insert(part.part.clone(), place.clone()) {
                let message = format!("the part `{}` stands here twice", part.part);
                faults.push(
                    Fault::error(Code::DUPLICATE_ID, message)
                        .at(place.clone())
                        .also(first, "the first one")
                        .hint("give it another name, or add its pieces to the first"),
                );
            }
            faults.extend(piece_faults(source, &part, at));
            let names = |key: &str, entries: &Ordered<String>| -> Vec<(String, Span)> {
                let names = entries.iter().map(|(name, _)| {
                    let place = path(&[key.into(), name.as_str().into()]);
                    (name.clone(), yaml::key_place(source, &place))
                });
                names.collect()
            };
            let names = [
                names("measured", &part.measured),
                names("chosen", &part.chosen),
            ];
            let values = |key: &str, entries: Ordered<String>| {
                let entries = entries.0.into_iter().map(|(name, text)| {
                    let place = yaml::place(source, &path(&[key.into(), name.as_str().into()]));
                    (name, (text, place))
                });
                entries.collect()
            };
            parts.push(Part {
                procedure: (
                    part.procedure,
                    yaml::place(source, &path(&["procedure".into()])),
                ),
                pieces: part.pieces.0,
                pieces_place: yaml::place(source, &path(&["pieces".into()])),
                given: Given {
                    part: part.part,
                    place,
                    measured: values("measured", part.measured),
                    chosen: values("chosen", part.chosen),
                    names: names.into_iter().flatten().collect(),
                },
            });
        }
        if parts.is_empty() {
            let place = yaml::key_place(source, &["parts".into()]);
            let fault = Fault::error(Code::VALUE_MISSING, "a job needs a part").at(place);
            faults.push(fault.hint("add one: `- part: ...` with its procedure and pieces"));
        }
        if faults.any_error() {
            return Err(faults);
        }
        Ok(Self {
            id: raw.job,
            title: raw.title,
            parts,
        })
    }
}

fn piece_faults(source: &Arc<Source>, part: &RawPart, at: usize) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (hand, count) in &part.pieces.0 {
        let mut path: Vec<Step> = vec!["parts".into(), at.into(), "pieces".into()];
        if !hand.is_empty() {
            path.push(hand.as_str().into());
        }
        if !matches!(hand.as_str(), "" | "left" | "right") {
            let message = format!("`{hand}` is not a hand");
            let near = nearest(hand, ["left", "right"]);
            faults.push(
                Fault::error(Code::UNKNOWN_NAME, message)
                    .at(yaml::key_place(source, &path))
                    .hint(match near {
                        Some(near) => format!("did you mean `{near}`?"),
                        None => "a piece of a pair is `left` or `right`".to_owned(),
                    }),
            );
        }
        if *count == 0 || *count > MOST_PIECES {
            let message = format!("{count} pieces: it may be 1 to {MOST_PIECES}");
            let hint = if *count == 0 {
                "write how many are cut, or take the part out"
            } else {
                "check the number; split a part that is really so large"
            };
            faults.push(
                Fault::error(Code::OUT_OF_RANGE, message)
                    .at(yaml::place(source, &path))
                    .hint(hint),
            );
        }
    }
    faults
}
