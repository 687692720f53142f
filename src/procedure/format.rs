//! The format of a procedure file as a list of its keys, for the page that tells how to write one.
//!
//! Words and kinds come from the schema, hence from the types that read the file; a schema does not
//! keep the order of keys, so that is asked of the types' own reading.

use schemars::JsonSchema;
use serde::Deserialize;
use serde::de::value::Error;
use serde::de::{Deserializer, Error as _, Visitor};
use serde_json::Value;

use super::raw::{
    RawAccept, RawCheck, RawChoose, RawClose, RawMeasure, RawMovedBy, RawPiece, RawProcedure,
    RawReady, RawRefuse, RawSetUp, RawSetting, RawSize, RawStep, RawTable, RawTrouble, RawWarn,
};
use super::schema::schema;

/// The keys that stand together in a file.
#[derive(Debug, Clone)]
pub struct Level {
    /// What the group is called: `set_up`.
    pub name: String,
    /// What it is for.
    pub what: String,
    /// Its keys, in the order in which files have them.
    pub keys: Vec<Key>,
}

/// One key.
#[derive(Debug, Clone)]
pub struct Key {
    /// As it is written.
    pub name: String,
    /// Whether it must be there.
    pub must: bool,
    /// What sort of thing stands after it.
    pub holds: String,
    /// What it means.
    pub means: String,
}

/// All groups of keys, from the whole file down.
pub fn levels() -> Vec<Level> {
    let schema = schema();
    vec![
        level::<RawProcedure>(&schema),
        level::<RawMeasure>(&schema),
        level::<RawChoose>(&schema),
        level::<RawRefuse>(&schema),
        level::<RawWarn>(&schema),
        level::<RawSize>(&schema),
        level::<RawReady>(&schema),
        level::<RawSetUp>(&schema),
        level::<RawPiece>(&schema),
        level::<RawSetting>(&schema),
        level::<RawTable>(&schema),
        level::<RawStep>(&schema),
        level::<RawCheck>(&schema),
        level::<RawMovedBy>(&schema),
        level::<RawTrouble>(&schema),
        level::<RawClose>(&schema),
        level::<RawAccept>(&schema),
    ]
}

fn level<T: JsonSchema + for<'de> Deserialize<'de>>(schema: &Value) -> Level {
    let name = T::schema_name().into_owned();
    let own = schema["definitions"].get(&name).unwrap_or(schema);
    let must = |key: &str| {
        let mut all = own["required"].as_array().into_iter().flatten();
        all.any(|one| one == key)
    };
    let keys = in_order::<T>().iter().map(|key| {
        let of = &own["properties"][*key];
        Key {
            name: (*key).to_owned(),
            must: must(key),
            holds: holds(of),
            means: words(of),
        }
    });
    Level {
        what: words(own),
        keys: keys.collect(),
        name,
    }
}

fn words(of: &Value) -> String {
    of["description"].as_str().unwrap_or_default().to_owned()
}

/// What sort of thing a schema lets in, in a writer's words.
fn holds(of: &Value) -> String {
    if let Some(words) = of["enum"].as_array() {
        let words = words.iter().filter_map(Value::as_str);
        let words: Vec<String> = words.map(|word| format!("`{word}`")).collect();
        return format!("one of {}", words.join(", "));
    }
    if let Some(word) = of["const"].as_str() {
        return format!("the word `{word}`");
    }
    if let Some(to) = of["$ref"].as_str() {
        let name = to.rsplit('/').next().unwrap_or(to);
        return format!("`{name}`");
    }
    for key in ["anyOf", "allOf"] {
        if let Some(ways) = of[key].as_array() {
            let ways: Vec<String> = ways.iter().map(holds).collect();
            return ways.join(", or ");
        }
    }
    match of["type"].as_str() {
        Some("array") => format!("list: {}", holds(&of["items"])),
        Some("object") => format!("names, each: {}", holds(&of["additionalProperties"])),
        Some("integer") => "whole number".to_owned(),
        Some("string") => "text".to_owned(),
        _ => "formula or figure".to_owned(),
    }
}

/// The keys of a type, in the order of its fields.
fn in_order<T: for<'de> Deserialize<'de>>() -> &'static [&'static str] {
    let mut asked = Asked(&[]);
    // It reads nothing, so that it fails always, with the keys noted.
    let _ = T::deserialize(&mut asked);
    asked.0
}

/// Notes which keys a type asks for.
struct Asked(&'static [&'static str]);

impl<'de> Deserializer<'de> for &mut Asked {
    type Error = Error;

    fn deserialize_any<V: Visitor<'de>>(self, _: V) -> Result<V::Value, Error> {
        Err(Error::custom("nothing is read"))
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        keys: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Error> {
        self.0 = keys;
        self.deserialize_any(visitor)
    }

    serde::forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf option
        unit unit_struct newtype_struct seq tuple tuple_struct map enum identifier ignored_any
    }
}
