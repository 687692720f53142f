//! Today and now; no other module reads the clock.

use jiff::ZonedDateTime;

/// Today in the place where the program runs, `YYYY-MM-DD`.
pub(super) fn today() -> String {
    ZonedDateTime::now().date().to_string()
}

/// The time of day in the place where the program runs, `14:05:09`.
pub(super) fn time() -> String {
    ZonedDateTime::now().strftime("%H:%M:%S").to_string()
}

/// Now, as RFC 3339 to the second with the offset of the place: its day is that of [`today`].
pub(super) fn now() -> String {
    ZonedDateTime::now()
        .strftime("%Y-%m-%dT%H:%M:%S%:z")
        .to_string()
}
