//! What can be written down at the prompt, and what is asked for it: one table for the command
//! line, the questions and the help.

/// A kind of entry.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Entry {
    /// Pieces were cut.
    Run,
    /// A test piece was cut.
    TestCut,
    /// A value was measured.
    Reading,
    /// A cutter was measured.
    Cutter,
    /// It nearly went wrong.
    NearMiss,
    /// Anything worth keeping.
    Note,
    /// A sheet was wrong or unclear.
    SheetFault,
}

/// What an answer is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wants {
    /// An id or initials.
    Person,
    /// The number of a checklist of the last print.
    Sheet,
    /// Id of a procedure.
    Procedure,
    /// Id of a machine.
    Machine,
    /// Id of a cutter.
    Cutter,
    /// Number or words of a value that the checklist has measured.
    Check,
    /// A length.
    Length,
    /// A whole number.
    Count,
    /// Settings with their figures, `;` between them.
    Settings,
    /// A word for how it went together.
    Feel,
    /// What happened to a cutter.
    State,
    /// Any words.
    Words,
}

/// When a field is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum When {
    /// Always.
    Always,
    /// When there is a last print and no procedure was named.
    Printed,
    /// When no checklist of the last print is meant.
    NoSheet,
    /// When no checklist is meant and a procedure was named, or must be.
    Work,
    /// When a checklist is meant that has values to measure.
    Checks,
    /// When what is measured does not stand on a checklist.
    NoCheck,
    /// When nothing was measured.
    NoValue,
}

/// One thing that is asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Field {
    /// Its name on the command line.
    pub name: &'static str,
    /// The question.
    pub ask: &'static str,
    /// What an answer is.
    pub wants: Wants,
    /// When it is asked.
    pub when: When,
    /// Whether it must be answered.
    pub needed: bool,
}

const fn must(name: &'static str, wants: Wants, when: When, ask: &'static str) -> Field {
    Field {
        name,
        ask,
        wants,
        when,
        needed: true,
    }
}

const fn may(name: &'static str, wants: Wants, when: When, ask: &'static str) -> Field {
    Field {
        needed: false,
        ..must(name, wants, when, ask)
    }
}

const BY: Field = must("by", Wants::Person, When::Always, "Who: id or initials");
const SHEET: Field = may(
    "sheet",
    Wants::Sheet,
    When::Printed,
    "Number of the checklist of the last print",
);
const PROCEDURE: Field = must(
    "procedure",
    Wants::Procedure,
    When::NoSheet,
    "Id of the procedure",
);
const SET_UP: Field = may("set_up", Wants::Words, When::Work, "Which set-up of it");
const MACHINE: Field = may("machine", Wants::Machine, When::Work, "Id of the machine");
const CUTTER: Field = may("cutter", Wants::Cutter, When::Work, "Id of the cutter");
const WOOD: Field = may("wood", Wants::Words, When::Always, "Which wood");
const SET: Field = may(
    "set",
    Wants::Settings,
    When::Always,
    "Set otherwise than planned, such as `fence 60.2 mm; height 6 mm`",
);
const CHECK: Field = may(
    "check",
    Wants::Check,
    When::Checks,
    "Number of the value on the checklist",
);
const WHAT: Field = must("what", Wants::Words, When::NoCheck, "What was measured");
const TOOL: Field = may("tool", Wants::Words, When::NoCheck, "Measuring tool");
const NOTE: Field = may(
    "note",
    Wants::Words,
    When::Always,
    "Anything odd; no names of people",
);

const RUN: &[Field] = &[
    BY,
    SHEET,
    PROCEDURE,
    SET_UP,
    MACHINE,
    CUTTER,
    WOOD,
    SET,
    must("pieces", Wants::Count, When::Always, "Pieces that were cut"),
    must(
        "test_cuts",
        Wants::Count,
        When::Always,
        "Test cuts before the first",
    ),
    NOTE,
];

const TEST_CUT: &[Field] = &[
    BY,
    SHEET,
    PROCEDURE,
    SET_UP,
    MACHINE,
    CUTTER,
    WOOD,
    SET,
    CHECK,
    may("value", Wants::Length, When::Always, "The value as read"),
    Field {
        needed: false,
        ..WHAT
    },
    may("low", Wants::Length, When::NoCheck, "Lowest good value"),
    may("high", Wants::Length, When::NoCheck, "Highest good value"),
    TOOL,
    must(
        "feel",
        Wants::Feel,
        When::NoValue,
        "How it went together: will not start, starts and binds, hand press, slides, drops in",
    ),
    NOTE,
];

const READING: &[Field] = &[
    BY,
    SHEET,
    PROCEDURE,
    MACHINE,
    CUTTER,
    CHECK,
    WHAT,
    must("value", Wants::Length, When::Always, "The value as read"),
    must("low", Wants::Length, When::NoCheck, "Lowest good value"),
    must("high", Wants::Length, When::NoCheck, "Highest good value"),
    Field {
        needed: true,
        ..TOOL
    },
];

const CUTTER_MEASURED: &[Field] = &[
    BY,
    Field {
        needed: true,
        when: When::Always,
        ..CUTTER
    },
    must(
        "size",
        Wants::Length,
        When::Always,
        "Its diameter or width as read",
    ),
    may("tool", Wants::Words, When::Always, "Measuring tool"),
    must(
        "state",
        Wants::State,
        When::Always,
        "Since it was measured last: same, sharpened, new",
    ),
];

const NEAR_MISS: &[Field] = &[
    must(
        "text",
        Wants::Words,
        When::Always,
        "What happened; no names of people",
    ),
    Field {
        when: When::Always,
        ..MACHINE
    },
    Field {
        needed: false,
        when: When::Always,
        ..PROCEDURE
    },
    may(
        "changed",
        Wants::Words,
        When::Always,
        "What was changed since",
    ),
    Field {
        needed: false,
        ..BY
    },
];

const A_NOTE: &[Field] = &[
    BY,
    Field {
        name: "about",
        needed: false,
        when: When::Always,
        ask: "Id of the procedure that it is about",
        ..PROCEDURE
    },
    must(
        "text",
        Wants::Words,
        When::Always,
        "The note; no names of people",
    ),
];

const SHEET_FAULT: &[Field] = &[
    BY,
    SHEET,
    PROCEDURE,
    SET_UP,
    may(
        "step",
        Wants::Count,
        When::Always,
        "Number of the step on the sheet",
    ),
    must(
        "text",
        Wants::Words,
        When::Always,
        "What is wrong or unclear",
    ),
];

impl Entry {
    /// Every kind.
    pub const ALL: [Self; 7] = [
        Self::Run,
        Self::TestCut,
        Self::Reading,
        Self::Cutter,
        Self::NearMiss,
        Self::Note,
        Self::SheetFault,
    ];

    /// Its name on the command line.
    pub fn name(self) -> &'static str {
        match self {
            Self::Run => "run",
            Self::TestCut => "test-cut",
            Self::Reading => "reading",
            Self::Cutter => "cutter",
            Self::NearMiss => "near-miss",
            Self::Note => "note",
            Self::SheetFault => "sheet-fault",
        }
    }

    /// What is asked for it, in order.
    pub fn fields(self) -> &'static [Field] {
        match self {
            Self::Run => RUN,
            Self::TestCut => TEST_CUT,
            Self::Reading => READING,
            Self::Cutter => CUTTER_MEASURED,
            Self::NearMiss => NEAR_MISS,
            Self::Note => A_NOTE,
            Self::SheetFault => SHEET_FAULT,
        }
    }
}
