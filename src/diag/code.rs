//! The stable codes of all faults, each with a sentence that explains it.
//!
//! One list, sorted by name; `faceside check --explain CODE` and the tests read it. A code is
//! never reused for another meaning.

/// A fault's stable code, such as `unknown-key`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Code(&'static str);

macro_rules! codes {
    ($($(#[doc = $doc:literal])+ $constant:ident = $name:literal;)*) => {
        impl Code {
            $($(#[doc = $doc])+ pub const $constant: Self = Self($name);)*

            /// Every code with its explanation, sorted by name.
            pub const ALL: &'static [(Self, &'static str)] =
                &[$((Self($name), concat!($($doc),+)),)*];
        }
    };
}

codes! {
    /// A procedure accepts an error; only a warning can be accepted, with a reason.
    ACCEPT_ERROR = "accept-error";
    /// A procedure accepts a warning that is no longer given; the entry can go.
    ACCEPT_UNUSED = "accept-unused";
    /// The address that the pages would be served at cannot be had; another program may hold it.
    ADDRESS_TAKEN = "address-taken";
    /// A step adjusts near the cutter while nothing in the set-up has isolated the machine.
    ADJUST_LIVE = "adjust-live";
    /// Procedures that an apprentice learns first lead back to each other, so none could be the first.
    AFTER_RING = "after-ring";
    /// A length, angle or speed could be read in two ways; write it so that it cannot.
    AMBIGUOUS_QUANTITY = "ambiguous-quantity";
    /// A set-up asks for a cut that is never made on that machine.
    CAUTION_FORBIDDEN = "caution-forbidden";
    /// A machine and operation lack a caution of a kind that the coverage matrix requires.
    CAUTION_MISSING = "caution-missing";
    /// A caution's words break a rule: no source, no rotation named, a triangle on a notice.
    CAUTION_WORDING = "caution-wording";
    /// A condition stands in the act; it belongs under `if`, before it.
    CONDITION_FIRST = "condition-first";
    /// A step cuts while the steps before it have left the machine isolated.
    CUT_ISOLATED = "cut-isolated";
    /// A set-up cuts at a machine whose cutter is changed, and names none.
    CUTTER_MISSING = "cutter-missing";
    /// Two files, or two entries of a file, use one id.
    DUPLICATE_ID = "duplicate-id";
    /// A key stands twice in one mapping; the second would hide the first.
    DUPLICATE_KEY = "duplicate-key";
    /// A procedure tells no fault of the work with its cause and cure.
    FAULTS_MISSING = "faults-missing";
    /// A file is over the size limit, nested too deep, or full of aliases.
    FILE_LIMIT = "file-limit";
    /// A text is not UTF-8, or holds a NUL.
    FILE_NOT_TEXT = "file-not-text";
    /// A file or folder cannot be read or written.
    FILE_UNREADABLE = "file-unreadable";
    /// A formula joins what cannot be joined, such as a length and a plain number.
    FORMULA_DIMENSION = "formula-dimension";
    /// A formula is too long, too deep or has too many parts.
    FORMULA_LIMIT = "formula-limit";
    /// A formula names something that does not exist, or that is worked out further down.
    FORMULA_NAME = "formula-name";
    /// A formula is not written as one: a stray sign, a missing bracket.
    FORMULA_SYNTAX = "formula-syntax";
    /// A formula cannot be worked out with these values: a zero divisor, an overflow.
    FORMULA_VALUE = "formula-value";
    /// A guard or riving knife is taken off and not put back before the set-up ends.
    GUARD_RESTORED = "guard-restored";
    /// A step needs a second person, and the list of people names none.
    HELPER_READY = "helper-ready";
    /// No cut of a set-up has a key point, a check or a reason, so nothing of it can be taught.
    KEY_MISSING = "key-missing";
    /// A link or an id points to nothing.
    LINK_BROKEN = "link-broken";
    /// A step leans on memory (`as before`, `as usual`) where it must say what is done.
    MEMORY_PHRASE = "memory-phrase";
    /// An entry that must be there is not.
    MISSING_KEY = "missing-key";
    /// A figure that sets a machine is typed into a step; it belongs in a setting that is worked out.
    NUMBER_TYPED = "number-typed";
    /// A step holds a second act; each act is a step of its own.
    ONE_ACT = "one-act";
    /// A choice between ways holds a single one.
    ONE_WAY = "one-way";
    /// A step says what to do otherwise, and no condition stands before it.
    OTHERWISE_ALONE = "otherwise-alone";
    /// A value is outside the range that is allowed there.
    OUT_OF_RANGE = "out-of-range";
    /// A shop's own file replaces a built-in one with the same id; told, not a mistake.
    OVERLAID = "overlaid";
    /// A rule of the procedure format is broken: an empty step, a cut without a piece.
    PROCEDURE_RULE = "procedure-rule";
    /// A quantity is not written as one.
    QUANTITY_SYNTAX = "quantity-syntax";
    /// A quantity has the wrong unit for its place.
    QUANTITY_UNIT = "quantity-unit";
    /// A line of the shop record is torn or changed; it is set aside.
    RECORD_LINE = "record-line";
    /// No line of the shop record has that mark, or more than one has it.
    RECORD_MARK = "record-mark";
    /// A calculator or a procedure refuses: the joint cannot be cut so.
    REFUSED = "refused";
    /// The search index cannot be built or read.
    SEARCH_INDEX = "search-index";
    /// Nothing that was measured is read a second time before the first cut that cannot be put back.
    SECOND_READING = "second-reading";
    /// A slot's braces are not closed, or hold more than a name.
    SLOT_SYNTAX = "slot-syntax";
    /// A slot in a text names nothing.
    SLOT_UNKNOWN = "slot-unknown";
    /// A source does not say whether it was read, is derived, is from memory, or is common practice.
    SOURCE_STATUS = "source-status";
    /// A set-up cuts at a machine whose speed follows the cutter, and sets none.
    SPEED_MISSING = "speed-missing";
    /// A step has more words than are read at a glance.
    STEP_LONG = "step-long";
    /// A step says what is not done instead of what is done.
    STEP_NEGATIVE = "step-negative";
    /// A step or a list breaks a rule of good writing.
    STYLE = "style";
    /// A tab stands where YAML wants spaces.
    TAB_INDENT = "tab-indent";
    /// A table is not written as one: a quote is left open, a line has too few or too many cells.
    TABLE_SYNTAX = "table-syntax";
    /// A page template cannot be filled.
    TEMPLATE = "template";
    /// A test piece is cut, and the list of pieces names none.
    TEST_PIECE_READY = "test-piece-ready";
    /// A timed step names no time with its unit.
    TIME_UNIT = "time-unit";
    /// A reading is taken with a tool that is not on the list of tools.
    TOOL_READY = "tool-ready";
    /// A key is not one that the format knows.
    UNKNOWN_KEY = "unknown-key";
    /// A name (a machine, a cutter, a procedure, a calculator) is not known here.
    UNKNOWN_NAME = "unknown-name";
    /// A value is measured, chosen or worked out, and nothing uses it.
    UNUSED_VALUE = "unused-value";
    /// A value that is asked for was not given.
    VALUE_MISSING = "value-missing";
    /// A step does not begin with the verb of what is done.
    VERB_FIRST = "verb-first";
    /// A step checks or adjusts and does not say what is right.
    VERB_VAGUE = "verb-vague";
    /// A value is not of the kind that is wanted there.
    WRONG_TYPE = "wrong-type";
    /// The file is not YAML.
    YAML_SYNTAX = "yaml-syntax";
}

impl Code {
    /// The code as text.
    pub fn name(self) -> &'static str {
        self.0
    }

    /// The code of that name.
    pub fn find(name: &str) -> Option<Self> {
        Self::ALL
            .iter()
            .map(|(code, _)| *code)
            .find(|code| code.0 == name)
    }

    /// What the code means, in a sentence.
    pub fn explanation(self) -> &'static str {
        Self::ALL
            .iter()
            .find(|(code, _)| *code == self)
            .map_or("", |(_, words)| words.trim())
    }
}
