//! A length in a line of the record: a number of millimetres; 0.000001 mm is the finest that a
//! line can say.

use serde::de::Error;
use serde::{Deserialize, Deserializer, Serializer};

use crate::units::Length;

pub(super) fn serialize<S: Serializer>(length: &Length, out: S) -> Result<S::Ok, S::Error> {
    out.serialize_f64(length.to_mm())
}

pub(super) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Length, D::Error> {
    within(f64::deserialize(from)?)
}

fn within<E: Error>(mm: f64) -> Result<Length, E> {
    let length = Length::mm(mm);
    if length.abs() > Length::MOST {
        return Err(E::custom("a length is at most 100 m"));
    }
    Ok(length)
}

/// The same for a length that need not be there.
pub(super) mod maybe {
    use serde::{Deserialize, Deserializer, Serializer};

    use crate::units::Length;

    #[expect(clippy::ref_option, reason = "serde hands the field in so")]
    pub(in super::super) fn serialize<S: Serializer>(
        length: &Option<Length>,
        out: S,
    ) -> Result<S::Ok, S::Error> {
        match length {
            Some(length) => out.serialize_some(&length.to_mm()),
            None => out.serialize_none(),
        }
    }

    pub(in super::super) fn deserialize<'de, D: Deserializer<'de>>(
        from: D,
    ) -> Result<Option<Length>, D::Error> {
        let mm = Option::<f64>::deserialize(from)?;
        mm.map(super::within).transpose()
    }
}
