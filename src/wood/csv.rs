//! A strict reader of the species tables: a head line of names, then lines of as many fields.
//!
//! A field with a comma stands in double quotes, a quote inside it is doubled; no field holds a
//! line break. Anything else is no row: the tables' tests prove that every line of them is one.

/// A line by the names of the head line.
pub(super) struct Row {
    head: &'static str,
    fields: Vec<String>,
}

impl Row {
    /// The text under a name; none for a name that the table does not have.
    pub(super) fn text(&self, name: &str) -> Option<&str> {
        let at = self.head.split(',').position(|own| own == name)?;
        self.fields.get(at).map(String::as_str)
    }

    /// The number under a name: finite and over nothing.
    pub(super) fn number(&self, name: &str) -> Option<f64> {
        let number = self.text(name)?.parse::<f64>().ok()?;
        (number.is_finite() && number > 0.0).then_some(number)
    }
}

/// The lines after the head line, each as a row, or none where its fields are not as many.
pub(super) fn rows(table: &'static str) -> impl Iterator<Item = Option<Row>> {
    let mut lines = table.lines();
    let head = lines.next().unwrap_or("");
    let count = head.split(',').count();
    lines.map(move |line| {
        let fields = fields(line)?;
        (fields.len() == count).then_some(Row { head, fields })
    })
}

/// The fields of one line; none for a quote that is not closed or stands inside a plain field.
fn fields(line: &str) -> Option<Vec<String>> {
    let mut fields = Vec::new();
    let mut rest = line;
    loop {
        let (field, after) = match rest.strip_prefix('"') {
            Some(quoted) => quoted_field(quoted)?,
            None => plain_field(rest)?,
        };
        fields.push(field);
        if after.is_empty() {
            return Some(fields);
        }
        rest = after.strip_prefix(',')?;
    }
}

/// A field up to the next comma, and the rest.
fn plain_field(text: &str) -> Option<(String, &str)> {
    let (field, rest) = text.split_at(text.find(',').unwrap_or(text.len()));
    (!field.contains('"')).then(|| (field.to_owned(), rest))
}

/// A field whose opening quote is taken already, and what comes after its closing quote.
fn quoted_field(text: &str) -> Option<(String, &str)> {
    let mut field = String::new();
    let mut rest = text;
    loop {
        let (part, after) = rest.split_once('"')?;
        field.push_str(part);
        match after.strip_prefix('"') {
            Some(more) => {
                field.push('"');
                rest = more;
            }
            None => return Some((field, after)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{fields, rows};

    #[test]
    fn quotes_hold_commas_and_doubled_quotes() {
        let whole = |line| fields(line).unwrap();
        assert_eq!(whole("a,,1.5"), ["a", "", "1.5"]);
        assert_eq!(whole("\"Oak, red\",2,"), ["Oak, red", "2", ""]);
        assert_eq!(whole("\"row \"\"Oak\"\"\",3"), ["row \"Oak\"", "3"]);
        assert_eq!(fields("\"Oak, red,2"), None);
        assert_eq!(fields("\"Oak\" red,2"), None);
        assert_eq!(fields("Oak \"red\",2"), None);
    }

    #[test]
    fn a_line_of_other_length_is_no_row() {
        let is_row: Vec<_> = rows("a,b\r\n1,2\r\n1\r\n1,2,3\r\n")
            .map(|row| row.is_some())
            .collect();
        assert_eq!(is_row, [true, false, false]);
        let row = rows("a,b\n1,-2\n").next().unwrap().unwrap();
        assert_eq!((row.number("a"), row.number("b")), (Some(1.0), None));
        assert_eq!(row.text("c"), None);
    }
}
