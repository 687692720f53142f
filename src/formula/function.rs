//! The table of functions: name, how it is written, how many values it takes.

/// A function of the language; calculators are not among them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Function {
    Abs,
    Atan,
    Ceil,
    Cos,
    DownTo,
    Floor,
    If,
    Max,
    Min,
    NearestTo,
    Round,
    Sin,
    Sqrt,
    Tan,
    UpTo,
}

/// Name, function, least and most values, and how it is written.
pub(super) type Entry = (&'static str, Function, usize, usize, &'static str);

/// All functions, sorted by name.
pub(super) const ALL: &[Entry] = &[
    ("abs", Function::Abs, 1, 1, "abs(x)"),
    ("atan", Function::Atan, 1, 1, "atan(rise / run)"),
    ("ceil", Function::Ceil, 1, 1, "ceil(number)"),
    ("cos", Function::Cos, 1, 1, "cos(angle)"),
    ("down_to", Function::DownTo, 2, 2, "down_to(length, step)"),
    ("floor", Function::Floor, 1, 1, "floor(number)"),
    ("if", Function::If, 3, 3, "if(condition, then, else)"),
    ("max", Function::Max, 2, usize::MAX, "max(a, b)"),
    ("min", Function::Min, 2, usize::MAX, "min(a, b)"),
    (
        "nearest_to",
        Function::NearestTo,
        2,
        2,
        "nearest_to(length, step)",
    ),
    ("round", Function::Round, 1, 1, "round(number)"),
    ("sin", Function::Sin, 1, 1, "sin(angle)"),
    ("sqrt", Function::Sqrt, 1, 1, "sqrt(x)"),
    ("tan", Function::Tan, 1, 1, "tan(angle)"),
    ("up_to", Function::UpTo, 2, 2, "up_to(length, step)"),
];

/// The entry of that name.
pub(super) fn find(name: &str) -> Option<&'static Entry> {
    ALL.iter().find(|entry| entry.0 == name)
}

impl Function {
    pub(super) fn name(self) -> &'static str {
        self.entry().map_or("", |entry| entry.0)
    }

    pub(super) fn usage(self) -> &'static str {
        self.entry().map_or("", |entry| entry.4)
    }

    fn entry(self) -> Option<&'static Entry> {
        ALL.iter().find(|entry| entry.1 == self)
    }
}

#[cfg(test)]
mod tests {
    use super::ALL;

    #[test]
    fn sorted_by_name_and_shown_with_their_least_values() {
        assert!(ALL.is_sorted_by(|one, two| one.0 < two.0));
        for (name, _, least, _, usage) in ALL {
            assert!(usage.starts_with(&format!("{name}(")));
            assert_eq!(usage.split(',').count(), *least, "{usage}");
        }
    }
}
