//! The JSON Schema of a procedure file, from the types that read it.
//!
//! An editor that knows the schema completes keys, shows what each means, and marks a wrong one
//! while the file is written. What a schema cannot say (dimensions, names, cautions) is left to
//! `check`. Draft 7, since that is what editors' YAML support knows best (from memory).

use std::borrow::Cow;
use std::marker::PhantomData;

use schemars::generate::SchemaSettings;
use schemars::transform::transform_subschemas;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde_json::Value;

use super::load::KINDS;
use super::load_set_up::DOES;
use super::plan_view::GUIDES;
use super::raw::{Listed, OrNone, RawProcedure};
use crate::shop;

/// The schema of a procedure file.
pub fn schema() -> Value {
    let settings = SchemaSettings::draft07().with_transform(as_read);
    let mut schema = settings
        .into_generator()
        .into_root_schema_for::<RawProcedure>();
    schema.insert("title".to_owned(), "Procedure of a shop".into());
    schema.to_value()
}

/// The same as the text of a file.
pub fn schema_text() -> String {
    format!("{:#}\n", schema())
}

/// Takes out what the reader does not do: an entry without a value, a value where none is written.
fn as_read(schema: &mut Schema) {
    let is_null = |one: &Value| one == "null" || one["type"] == "null";
    for key in ["default", "format"] {
        schema.remove(key);
    }
    for key in ["type", "anyOf"] {
        let Some(Value::Array(all)) = schema.get_mut(key) else {
            continue;
        };
        all.retain(|one| !is_null(one));
        let [only] = &all[..] else { continue };
        let only = only.clone();
        if key == "type" {
            schema.insert(key.to_owned(), only);
        } else {
            schema.insert("allOf".to_owned(), Value::Array(vec![only]));
            schema.remove(key);
        }
    }
    transform_subschemas(&mut as_read, schema);
}

/// An id: words of small letters and digits, joined by hyphens.
pub(super) enum Id {}

impl JsonSchema for Id {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "id".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({"type": "string", "pattern": "^[a-z0-9]+(-[a-z0-9]+)*$"})
    }
}

/// A formula, a figure with its unit, or one of a few words: YAML takes some of them for a number
/// or a truth, the reader takes each as it is written.
pub(super) enum Figure {}

impl JsonSchema for Figure {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "figure".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({"type": ["string", "number", "boolean"]})
    }
}

/// A closed list of words.
pub(super) trait Words {
    /// All of them, in the order of the reader's own table.
    fn words() -> Vec<&'static str>;
}

/// One of the words of a list.
pub(super) struct OneOf<W>(PhantomData<W>);

impl<W: Words> JsonSchema for OneOf<W> {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        format!("one_of_{}", W::words().join("_")).into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({"type": "string", "enum": W::words()})
    }
}

/// The sorts of a value that is measured.
pub(super) enum Kinds {}

impl Words for Kinds {
    fn words() -> Vec<&'static str> {
        KINDS.iter().map(|(word, _)| *word).collect()
    }
}

/// The sorts of a value that is chosen.
pub(super) enum Choices {}

impl Words for Choices {
    fn words() -> Vec<&'static str> {
        [&["cutter", "choice"][..], &Kinds::words()].concat()
    }
}

/// The shapes of cutters.
pub(super) enum Shapes {}

impl Words for Shapes {
    fn words() -> Vec<&'static str> {
        shop::Shape::ALL.map(shop::Shape::name).to_vec()
    }
}

/// What a step does.
pub(super) enum Does {}

impl Words for Does {
    fn words() -> Vec<&'static str> {
        DOES.iter().map(|(word, _)| *word).collect()
    }
}

/// What guides the work past the tool.
pub(super) enum Guides {}

impl Words for Guides {
    fn words() -> Vec<&'static str> {
        GUIDES.iter().map(|(word, _)| *word).collect()
    }
}

/// Yes or no, which YAML 1.2 takes for texts.
pub(super) enum YesNo {}

impl Words for YesNo {
    fn words() -> Vec<&'static str> {
        vec!["yes", "no"]
    }
}

impl JsonSchema for Listed {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "texts".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({"anyOf": [
            {"type": "string"},
            {"type": "array", "items": {"type": "string"}, "minItems": 1},
        ]})
    }
}

impl<T: JsonSchema> JsonSchema for OrNone<T> {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        format!("{}_or_none", T::schema_name()).into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        json_schema!({"anyOf": [generator.subschema_for::<T>(), {"const": "none"}]})
    }
}
