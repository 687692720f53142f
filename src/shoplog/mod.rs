//! The shop record: what was cut, measured, taught; append only.
