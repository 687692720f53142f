//! The shop record: what was cut, measured, taught; append only.
//!
//! [`Event`] is what happened, [`Line`] how one event is written, [`read()`] how a file is read
//! back. Nothing here opens a file or asks the clock: `store` appends the lines under a lock, and
//! the time comes in as text. Of a person no more is kept than an id or initials ([`Person`]).
//! `training`, beside it, writes its events (the one import sideways that `tests/layers.rs` allows).
//!
//! | file | holds |
//! |---|---|
//! | `event`, `work`, `teaching`, `person` | what can be written down |
//! | `line`, `read`, `mark` | how a line is written, read back, named |
//! | `about` | what every event can be asked |
//! | `standing` | what holds after corrections |
//! | `printed` | what the last print put on paper, so that nothing is asked twice |
//! | `learned` | how far a machine cuts from what is set, and how sure that is |
//! | `history` | how a joint was last cut here |
//! | `form`, `field`, `answer` | what is asked for each kind of entry, and the event made of it |
//! | `show`, `export`, `summary` | one line for a person, CSV, counts |

mod about;
mod answer;
mod event;
mod export;
mod field;
mod form;
mod history;
mod learned;
mod line;
mod mark;
mod mm;
mod person;
mod printed;
mod read;
mod show;
mod standing;
mod summary;
mod teaching;
mod work;

pub use event::{Event, Taught, Verdict};
pub use export::csv;
pub use field::{Entry as EntryKind, Field};
pub use form::{Form, Known, Tried};
pub use history::History;
pub use learned::{Asked, Learned, learned, quantile};
pub use line::{Line, VERSION};
pub use mark::Mark;
pub use person::{Day, Person};
pub use printed::{Printed, PrintedCheck, PrintedSheet};
pub use read::{Entry, What, next_number, read};
pub use show::{lines_of, say};
pub use standing::{Standing, standing};
pub use summary::{Tally, summary};
pub use teaching::{
    Answered, Authority, Element, Questions, Test, TestReading, Watched, WatchedRun,
};
pub use work::{
    Correction, CutterMeasured, CutterState, Limits, Measured, Moves, NearMiss, Run, SetTo,
    SheetFault, TestCut, Wood, Work,
};
