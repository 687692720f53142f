//! Who and when, as the record keeps them: a short id, and a calendar day.
//!
//! A person is an id or initials of at most eight letters or digits, never a name: the record
//! may lie in a repository, and whoever needs the name has the shop's own list. Only the letters
//! A to Z and a to z count, so that two ids that look alike are alike.

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::diag::{Code, Fault};

/// Longest id of a person.
const LONGEST: usize = 8;

/// A person by id or initials.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Person(String);

impl Person {
    /// Takes an id of one to eight letters or digits.
    ///
    /// # Errors
    /// `wrong-type` for anything else, without repeating it: it may be a name.
    ///
    /// ```
    /// use faceside::shoplog::Person;
    /// assert!(Person::new("A07").is_ok());
    /// assert!(Person::new("A. Sailor").is_err());
    /// ```
    pub fn new(id: &str) -> Result<Self, Fault> {
        let short = (1..=LONGEST).contains(&id.len());
        if short && id.bytes().all(|byte| byte.is_ascii_alphanumeric()) {
            return Ok(Self(id.to_owned()));
        }
        let message = "a person is an id or initials of at most 8 letters or digits";
        Err(Fault::error(Code::WRONG_TYPE, message)
            .hint("write an id such as `A07`, or initials such as `BK`; never a name"))
    }

    /// The id.
    pub fn id(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Person {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl TryFrom<String> for Person {
    type Error = String;

    fn try_from(id: String) -> Result<Self, String> {
        Self::new(&id).map_err(|fault| fault.message)
    }
}

impl From<Person> for String {
    fn from(person: Person) -> Self {
        person.0
    }
}

/// A day of the calendar, `YYYY-MM-DD`; days compare as they follow each other.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Day(String);

impl Day {
    /// Takes a day that is in the calendar, from year 0 to 9999.
    ///
    /// # Errors
    /// `wrong-type` when it is not written `YYYY-MM-DD`, or there is no such day.
    ///
    /// ```
    /// use faceside::shoplog::Day;
    /// assert!(Day::new("2028-02-29").is_ok());
    /// assert!(Day::new("2027-02-29").is_err());
    /// ```
    pub fn new(day: &str) -> Result<Self, Fault> {
        let known = day.parse::<jiff::civil::Date>();
        if known.is_ok_and(|date| date.to_string() == day) {
            return Ok(Self(day.to_owned()));
        }
        let message = "a day is written `YYYY-MM-DD`, and must be in the calendar";
        Err(Fault::error(Code::WRONG_TYPE, message).hint("write a day such as `2026-11-25`"))
    }
}

impl Day {
    /// Days from `earlier` to this one; under nothing when that is later.
    pub fn since(&self, earlier: &Self) -> i32 {
        let since = self.date().since(earlier.date());
        since.map_or(0, |span| span.get_days())
    }

    /// The day so many days later; the last of the calendar at the most.
    #[must_use]
    pub fn plus(&self, days: i32) -> Self {
        let span = jiff::Span::new().try_days(days).unwrap_or_default();
        Self(self.date().saturating_add(span).to_string())
    }

    /// What was taken by [`Day::new`] is in the calendar.
    fn date(&self) -> jiff::civil::Date {
        self.0.parse().unwrap_or(jiff::civil::Date::ZERO)
    }
}

impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl TryFrom<String> for Day {
    type Error = String;

    fn try_from(day: String) -> Result<Self, String> {
        Self::new(&day).map_err(|fault| fault.message)
    }
}

impl From<Day> for String {
    fn from(day: Day) -> Self {
        day.0
    }
}
