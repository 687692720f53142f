//! Checked expressions: parsed, checked for dimensions without values, then worked out.
