//! What would mend a slip that people make out of habit.

use super::expected::{DATE, Expected};

/// The help for signs and spellings of other kinds of writing.
pub(super) fn plain_help(written: &str, expected: &Expected) -> Option<String> {
    let lower = written.to_ascii_lowercase().replace('_', "-");
    let letters = written.bytes().all(|byte| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_'));
    if letters && expected.parts.contains("a code in capitals") {
        return Some(format!("codes are written in capitals: `{}`", written.to_ascii_uppercase()));
    }
    if letters && lower != written && !written.starts_with(|letter: char| letter.is_ascii_digit()) {
        if expected.parts.contains("a text in double quotes") {
            return Some("texts stand in double quotes".to_owned());
        }
        if expected.name {
            return Some(format!("names are lower case with hyphens: `{lower}`"));
        }
    }
    if written == "(" && expected.words.contains("with") {
        return Some("write `with` before the parenthesis, such as `any run with (material is csst)`".to_owned());
    }
    if expected.comma && written.starts_with(|letter: char| letter.is_ascii_lowercase()) {
        return Some("the parts of a list stand apart by commas; `and` and `or` join conditions".to_owned());
    }
    if expected.parts.contains(DATE) && written.starts_with(|letter: char| letter.is_ascii_digit()) {
        return Some("a date is written year, month, day, such as `2024-07-01`".to_owned());
    }
    if expected.name && letters && written.starts_with(|letter: char| letter.is_ascii_digit()) && written.contains('-')
    {
        return Some("a name begins with a letter".to_owned());
    }
    Some(match written.chars().next()? {
        '\'' => "texts stand in double quotes".to_owned(),
        '%' => "write `percent`, with a blank before it".to_owned(),
        '$' => "write the amount and then `dollars`, such as `1000 dollars`".to_owned(),
        '=' => "write `is`, `at least` or `at most`".to_owned(),
        '<' => "write `under` or `at most`".to_owned(),
        '>' => "write `over` or `at least`".to_owned(),
        ';' | ':' => "no such sign is needed: a line ends where the next word begins".to_owned(),
        '/' => "a comment begins with `#`".to_owned(),
        '0'..='9' if written.contains('/') => "write a figure with a fraction as one, such as `1.5 inch`".to_owned(),
        _ => {
            let figure = written.find(|letter: char| !letter.is_ascii_digit() && letter != '.')?;
            let (number, unit) = written.split_at_checked(figure)?;
            if number.is_empty() || !unit.bytes().all(|byte| byte.is_ascii_alphabetic()) {
                return None;
            }
            format!("put a blank between figure and unit: `{number} {unit}`")
        }
    })
}
