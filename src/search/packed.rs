//! Whole numbers as a short run of plain letters, for a file that a page reads.
//!
//! Five bits a letter, the lowest first; a sixth says that more letters of the same number follow.
//! None of the letters needs an escape in a script, in JSON or in HTML.

const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
const MORE: u32 = 32;

/// Numbers one after another.
#[derive(Debug, Default)]
pub(super) struct Packed(String);

impl Packed {
    /// Puts a number at the end.
    pub(super) fn put(&mut self, mut number: u32) {
        loop {
            let low = number % MORE;
            number /= MORE;
            let more = if number > 0 { MORE } else { 0 };
            self.0.push(char::from(LETTERS[(low + more) as usize]));
            if number == 0 {
                return;
            }
        }
    }

    /// Puts a count, then so many numbers.
    pub(super) fn put_list(&mut self, numbers: &[u32]) {
        self.put(u32::try_from(numbers.len()).unwrap_or(u32::MAX));
        numbers.iter().for_each(|number| self.put(*number));
    }

    /// The letters.
    pub(super) fn text(self) -> String {
        self.0
    }
}

#[cfg(test)]
mod tests {
    use super::Packed;

    fn packed(number: u32) -> String {
        let mut packed = Packed::default();
        packed.put(number);
        packed.text()
    }

    #[test]
    fn small_numbers_take_one_letter() {
        assert_eq!(packed(0), "A");
        assert_eq!(packed(31), "f");
    }

    #[test]
    fn a_great_number_begins_with_its_lowest_bits() {
        assert_eq!(packed(32), "gB");
        assert_eq!(packed(1_057), "hhB");
        assert_eq!(packed(u32::MAX), "______D");
    }
}
