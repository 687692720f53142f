//! `machines.yaml`: speeds, scales, tables, guards and aids.

use std::fmt;
use std::sync::Arc;

use serde::Deserialize;
use serde::de::value::{MapAccessDeserializer, SeqAccessDeserializer};
use serde::de::{Deserializer, MapAccess, SeqAccess, Visitor};

use super::fields::{Field, Fields, SMALLEST, at, listed};
use crate::diag::{Code, Fault, Faults, Source};
use crate::shop::{Machine, Minutes, ScaleOf, Speeds};
use crate::units::{Length, Spindle, Unit};
use crate::yaml::{Step, read};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawMachine {
    machine: String,
    kind: String,
    name: String,
    speeds: RawSpeeds,
    height: RawScale,
    fence: RawScale,
    table: RawTable,
    guards: Vec<String>,
    aids: Vec<String>,
    minutes: RawMinutes,
}

enum RawSpeeds {
    Steps(Vec<String>),
    Range(RawRange),
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawRange {
    from: String,
    to: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawScale {
    resolution: String,
    repeatability: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawTable {
    length: String,
    width: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawMinutes {
    cutter: u32,
    height: u32,
    fence: u32,
    stop: u32,
    speed: u32,
}

/// Either shape keeps the places of what is inside it, which an untagged enum would lose.
impl<'de> Deserialize<'de> for RawSpeeds {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Either;

        impl<'de> Visitor<'de> for Either {
            type Value = RawSpeeds;

            fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
                out.write_str("`{from: 8000 rpm, to: 22000 rpm}` or a list of speeds")
            }

            fn visit_seq<A: SeqAccess<'de>>(self, steps: A) -> Result<RawSpeeds, A::Error> {
                Vec::deserialize(SeqAccessDeserializer::new(steps)).map(RawSpeeds::Steps)
            }

            fn visit_map<A: MapAccess<'de>>(self, range: A) -> Result<RawSpeeds, A::Error> {
                RawRange::deserialize(MapAccessDeserializer::new(range)).map(RawSpeeds::Range)
            }
        }

        deserializer.deserialize_any(Either)
    }
}

/// Reads `machines.yaml`: all machines that are whole, and all faults. A bare length takes
/// `unit`.
pub fn read_machines(source: &Arc<Source>, unit: Unit) -> (Vec<Machine>, Faults) {
    let raw: Vec<RawMachine> = match read(source) {
        Ok(raw) => raw,
        Err(faults) => return (Vec::new(), faults),
    };
    let mut fields = Fields::new(source, unit);
    let ids: Vec<_> = raw.iter().map(|raw| raw.machine.as_str()).collect();
    fields.no_doubles(&ids, "machine");
    let machines = raw
        .iter()
        .enumerate()
        .map(|(item, raw)| raw.machine(&[item.into()], &mut fields))
        .collect();
    listed(fields, machines)
}

impl RawMachine {
    fn machine(&self, path: &[Step], fields: &mut Fields<'_>) -> Option<Machine> {
        let id = fields.id(Field::new(&at(path, "machine"), &self.machine));
        let kind = fields.id(Field::new(&at(path, "kind"), &self.kind));
        let name = fields.words(Field::new(&at(path, "name"), &self.name));
        let speeds = self.speeds.speeds(&at(path, "speeds"), fields);
        let height = self.height.scale(&at(path, "height"), fields);
        let fence = self.fence.scale(&at(path, "fence"), fields);
        let table = self.table.sizes(&at(path, "table"), fields);
        let guards = fields.texts(&at(path, "guards"), &self.guards);
        let aids = fields.texts(&at(path, "aids"), &self.aids);
        let minutes = self.minutes.minutes(&at(path, "minutes"), fields);
        let (table_length, table_width) = table?;
        Some(Machine {
            id: id?,
            kind: kind?,
            name: name?,
            speeds: speeds?,
            height: height?,
            fence: fence?,
            table_length,
            table_width,
            guards,
            aids,
            minutes: minutes?,
        })
    }
}

impl RawSpeeds {
    fn speeds(&self, path: &[Step], fields: &mut Fields<'_>) -> Option<Speeds> {
        match self {
            Self::Steps(texts) => steps(texts, path, fields),
            Self::Range(range) => {
                let from = fields.speed(Field::new(&at(path, "from"), &range.from));
                let to = fields.speed(Field::new(&at(path, "to"), &range.to));
                let (from, to) = (from?, to?);
                if from >= to {
                    not_ascending(&at(path, "to"), fields);
                    return None;
                }
                Some(Speeds::Range { from, to })
            }
        }
    }
}

fn steps(texts: &[String], path: &[Step], fields: &mut Fields<'_>) -> Option<Speeds> {
    if texts.is_empty() {
        let fault = Fault::error(Code::MISSING_KEY, "the machine has no speed");
        fields.fault(path, fault.hint("list its speeds: `[8000 rpm, 12000 rpm]`"));
        return None;
    }
    let read: Vec<Option<Spindle>> = texts
        .iter()
        .enumerate()
        .map(|(item, text)| {
            let path = at(path, item);
            fields.speed(Field::new(&path, text))
        })
        .collect();
    let speeds: Vec<Spindle> = read.into_iter().collect::<Option<_>>()?;
    match speeds.windows(2).position(|pair| pair[0] >= pair[1]) {
        None => Some(Speeds::Steps(speeds)),
        Some(before) => {
            not_ascending(&at(path, before + 1), fields);
            None
        }
    }
}

fn not_ascending(path: &[Step], fields: &mut Fields<'_>) {
    let message = "this speed is not faster than the one before it";
    let fault = Fault::error(Code::OUT_OF_RANGE, message);
    fields.fault(path, fault.hint("write the speeds from slow to fast"));
}

impl RawScale {
    fn scale(&self, path: &[Step], fields: &mut Fields<'_>) -> Option<ScaleOf> {
        let most = Length::mm(10.0);
        let (fine, again) = (at(path, "resolution"), at(path, "repeatability"));
        let resolution = fields.length(Field::new(&fine, &self.resolution), SMALLEST, most);
        let again = Field::new(&again, &self.repeatability);
        let repeatability = fields.length(again, Length::ZERO, most);
        Some(ScaleOf {
            resolution: resolution?,
            repeatability: repeatability?,
        })
    }
}

impl RawTable {
    fn sizes(&self, path: &[Step], fields: &mut Fields<'_>) -> Option<(Length, Length)> {
        let length = fields.size(Field::new(&at(path, "length"), &self.length));
        let width = fields.size(Field::new(&at(path, "width"), &self.width));
        Some((length?, width?))
    }
}

impl RawMinutes {
    fn minutes(&self, path: &[Step], fields: &mut Fields<'_>) -> Option<Minutes> {
        let mut minutes = |key: &str, number| fields.whole(&at(path, key), number, (0, 240));
        let [cutter, height] = [
            minutes("cutter", self.cutter),
            minutes("height", self.height),
        ];
        let [fence, stop] = [minutes("fence", self.fence), minutes("stop", self.stop)];
        let speed = minutes("speed", self.speed);
        Some(Minutes {
            cutter: cutter?,
            height: height?,
            fence: fence?,
            stop: stop?,
            speed: speed?,
        })
    }
}
