//! The closed lists: kinds of caution, signal words, places, status of a source.
//!
//! Kinds and their meanings: `safety.md` section 0.3; signal words in the sense of ANSI Z535.4
//! and ISO 3864-2 (meanings read second-hand, see `procedures/cautions/README.md`).

macro_rules! named {
    ($(#[doc = $doc:literal])+ $type:ident { $($(#[doc = $vdoc:literal])+ $variant:ident = $name:literal,)+ }) => {
        $(#[doc = $doc])+
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $type { $($(#[doc = $vdoc])+ $variant,)+ }

        impl $type {
            /// Every one, in the order of the list.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)+];

            /// The name in files.
            pub fn name(self) -> &'static str {
                match self { $(Self::$variant => $name,)+ }
            }

            /// The one of that name.
            pub fn find(name: &str) -> Option<Self> {
                Self::ALL.iter().copied().find(|one| one.name() == name)
            }
        }
    };
}

named! {
    /// What a caution is about.
    CautionKind {
        /// Unplug or lock off before a tool change, an adjustment near the cutter, a jam.
        Isolate = "isolate",
        /// Which guard is fitted and how it is set.
        Guard = "guard",
        /// Push-stick, push-block, jig; how far hands stay.
        HandDistance = "hand-distance",
        /// Direction of feed against the rotation.
        FeedDirection = "feed-direction",
        /// Work never passes between cutter and fence.
        NoTrap = "no-trap",
        /// Smallest piece, clamping, backing, support, holder.
        HoldSupport = "hold-support",
        /// Drop-on, plunge, stops front and back.
        StoppedCut = "stopped-cut",
        /// Spindle speed, diameter, rim speed, marked maximum.
        Speed = "speed",
        /// Shank in the collet, nut tight, knives held.
        ToolSecurity = "tool-security",
        /// Line of ejection, stance, depth a pass.
        Kickback = "kickback",
        /// Extraction, limits, housekeeping.
        Dust = "dust",
        /// Eyes, ears, dress, no gloves at rotating tools.
        Ppe = "ppe",
        /// Loose offcut next to the tool.
        OffcutTrap = "offcut-trap",
        /// Who may do it; supervision of learners.
        Training = "training",
        /// Wait for the tool to stop.
        RunDown = "run-down",
        /// Refit riving knife and guard after a non-through cut.
        RestoreGuard = "restore-guard",
        /// Glue, solvent, oily rags.
        FireChem = "fire-chem",
    }
}

named! {
    /// How grave it is; the word follows the injury.
    SignalWord {
        /// Death or serious injury will follow.
        Danger = "danger",
        /// Death or serious injury could follow.
        Warning = "warning",
        /// Minor or moderate injury could follow.
        Caution = "caution",
        /// Damage to work, tool or machine only; never with the alert triangle.
        Notice = "notice",
    }
}

named! {
    /// Where a caution stands on a sheet.
    Stands {
        /// Once, at the head of the set-up, for all of it.
        Sheet = "sheet",
        /// Directly before each step that cuts.
        Cut = "cut",
        /// Directly before each cutter change or adjustment near the cutter.
        Adjust = "adjust",
        /// Directly before each step with glue or finish.
        Glue = "glue",
        /// Directly before each step with edge tools by hand.
        Hand = "hand",
    }
}

named! {
    /// How well a source is known.
    Status {
        /// Read in the rule or the official page itself.
        Read = "read",
        /// Read as quoted by another document; to be checked.
        Read2nd = "read-2nd",
        /// Common workshop practice; no authority.
        Practice = "practice",
        /// Our own geometry or arithmetic from a read fact.
        Derived = "derived",
        /// From memory; to be checked.
        Memory = "memory",
    }
}

impl SignalWord {
    /// The word as printed.
    pub fn printed(self) -> &'static str {
        match self {
            Self::Danger => "DANGER",
            Self::Warning => "WARNING",
            Self::Caution => "CAUTION",
            Self::Notice => "NOTICE",
        }
    }
}
